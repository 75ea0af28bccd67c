// SPDX-License-Identifier: MIT
//
// `log` in words: what was understood, and what follows from it.
#include "commands/log.h"

#include <fmt/format.h>

#include <memory>
#include <ostream>

#include "commands/log_many.h"
#include "json/log_json.h"
#include "motor/words.h"
#include "records/fields.h"
#include "terminal/command.h"
#include "terminal/command_line.h"
#include "terminal/day_options.h"
#include "terminal/text_table.h"

namespace loopledger::terminal {
namespace {

using records::Kind;

struct LogOptions {
  commands::LogRequest request;
  std::string from;  ///< a file of entries
  std::optional<Units> units;
  bool json = false;
};

void tell_one(const commands::TakenEntry& taken, Units units, Context& context) {
  context.out << wrapped(motor::whose(taken.before))
              << wrapped(
                     fmt::format("  {}  {}", taken.entry.key, motor::in_words(taken.entry, units)));
  for (const std::string& line : taken.consequences) {
    context.out << wrapped("  " + line);
  }
}

void run_log_one(const LogOptions& options, Context& context) {
  const commands::LogAnswer answer = commands::log(options.request, context.world);
  (void)report(context, answer.of_record);
  if (!answer.taken_for.empty()) {
    context.err << wrapped(answer.taken_for);
  }
  (void)report(context, answer.again);
  context.exit_code = report(context, answer.said);
  if (options.json) {
    context.out << json::to_json(answer).text();
  } else if (answer.taken) {
    tell_one(*answer.taken, options.request.units, context);
  }
}

void tell_many(const commands::LogManyAnswer& answer, Units units, Context& context) {
  for (const commands::LoggedRow& row : answer.rows) {
    context.out << wrapped(fmt::format("{}  {}", row.whose, motor::in_words(row.entry, units)));
    for (const std::string& line : row.consequences) {
      context.out << wrapped("  " + line);
    }
  }
  const std::size_t stored = answer.rows.size();
  context.out << fmt::format(
      "{} entr{} stored{}\n", stored, stored == 1 ? "y" : "ies",
      answer.there > 0 ? fmt::format("; {} there already", answer.there) : "");
}

void run_log_many(const LogOptions& options, Context& context) {
  const commands::LogRequest& asked = options.request;
  const commands::LogManyAnswer answer = commands::log_many({.from = options.from,
                                                             .id = asked.id,
                                                             .at = asked.at,
                                                             .winder_ratio = asked.winder_ratio,
                                                             .records = asked.records,
                                                             .units = asked.units,
                                                             .sure = asked.sure,
                                                             .with_consequences = options.json},
                                                            context.world);
  context.exit_code = report(context, answer.said);
  if (options.json) {
    context.out << json::to_json(answer).text();
  } else if (!has_errors(answer.said)) {
    tell_many(answer, asked.units, context);
  }
}

void run_log(LogOptions& options, Context& context) {
  options.request.units = options.units.value_or(Units::metric);
  if (options.from.empty()) {
    run_log_one(options, context);
  } else {
    run_log_many(options, context);
  }
}

std::string kinds_help() {
  std::string out = "Kinds and their fields:\n";
  for (const std::string_view name : records::kind_words()) {
    std::vector<std::string_view> fields;
    const Kind kind = *records::kind_from(name);
    for (const records::Field& field : records::fields_of(kind)) {
      if (field.name != "note" && field.name != "corrects") {
        fields.push_back(field.name);
      }
    }
    out += fmt::format("  {:9} {}\n", name, fmt::join(fields, ", "));
  }
  return out +
         "All kinds take note=TEXT and corrects=KEY (the last four characters of the key will "
         "do).\n"
         "Examples:\n"
         "  loopledger log th1 weighed washed 1.774\n"
         "  loopledger log TH-01-T wound turns=1200 torque=\"41 gf.cm\" end=stopped\n"
         "  loopledger log th1 wound cranks=120 --winder-ratio 10\n"
         "  loopledger log th1 flown 7:31 turns_left=210\n"
         "  loopledger log --from evening.csv     (columns id, kind, at and the fields)\n";
}

}  // namespace

void add_log(CommandLine& line, Context& context) {
  auto options = std::make_shared<LogOptions>();
  commands::LogRequest& request = options->request;
  Command command = line.add("log", "Add an entry to a motor's record");
  command.option("ID", request.id, "The motor, such as th1 or TH-01-J")
      .option("KIND", request.kind, "What happened, such as weighed or wound")
      .words("FIELDS", request.words, "field=value, or values alone with their units")
      .option("--from", options->from, "Many entries from a TOML or CSV file, all or none")
      .option("--at", request.at, "When it happened, UTC: \"2026-05-01 10:00\"")
      .flag("--sure", request.sure, "Take values that look like a slip");
  add_winder_ratio(command, request.winder_ratio)
      .records(request.records)
      .units(options->units)
      .json(options->json, "The new entry's key, and what follows from it")
      .footer(kinds_help())
      .action([options, &context] { run_log(*options, context); });
}

}  // namespace loopledger::terminal
