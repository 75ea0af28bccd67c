// SPDX-License-Identifier: MIT
//
// `list`: the motors of the ledger, filtered and sorted.
#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <ostream>

#include "base/text.h"
#include "cli/advice.h"
#include "cli/command.h"
#include "cli/command_line.h"
#include "cli/exit_code.h"
#include "cli/files.h"
#include "cli/json.h"
#include "cli/motor_label.h"
#include "cli/posix_disk.h"
#include "cli/record_text.h"
#include "cli/text_table.h"
#include "records/fields.h"
#include "records/ledger.h"

namespace loopledger::cli {
namespace {

using records::Record;

struct ListOptions {
  std::string records;
  std::string owner;
  std::string rule;
  std::string lot;
  std::string state;
  std::string sort = "id";
  std::optional<Units> units;
  bool stale = false;
  bool json = false;
};

struct Row {
  Record record;
  Advice advice;
  std::string last;  ///< date of the newest entry by its place in the file
};

bool same_word(const std::string& wanted, const std::string& is) {
  return wanted.empty() || lower_ascii(wanted) == lower_ascii(is);
}

bool wanted(const ListOptions& options, const Row& row) {
  const records::Planned& p = row.record.planned;
  const auto state = records::state_from(options.state);
  return same_word(options.owner, p.owner) && same_word(options.lot, p.lot) &&
         same_word(options.rule, p.rule ? p.rule->name : std::string()) &&
         (!state || *state == row.advice.state) && (!options.stale || label_is_stale(row.record));
}

std::string last_date(const Record& record) {
  for (auto e = record.entries.rbegin(); e != record.entries.rend(); ++e) {
    if (const auto at = records::moment_of_key(e->key)) {
      return iso(date_of(*at));
    }
  }
  return record.planned.date ? iso(*record.planned.date) : std::string();
}

/// Reads all records; those that can't be read are named and passed over.
std::vector<Row> read_rows(records::Ledger& ledger, const std::vector<MotorId>& ids,
                           const ListOptions& options, Diagnostics& problems) {
  std::vector<Row> rows;
  for (const MotorId& id : ids) {
    auto record = ledger.read(id);
    for (Diagnostic d : record.diagnostics()) {
      d.severity = std::min(d.severity, Severity::warning);
      problems.push_back(std::move(d));
    }
    if (!record) {
      continue;
    }
    Row row{std::move(*record), {}, {}};
    row.advice = advice_for(row.record);
    row.last = last_date(row.record);
    if (wanted(options, row)) {
      rows.push_back(std::move(row));
    }
  }
  return rows;
}

double best_turns(const Row& row) {
  return row.advice.known.best_turns.value_or(Turns::of(-1)).count();
}

void sort_rows(std::vector<Row>& rows, const std::string& by) {
  std::ranges::stable_sort(rows, [&by](const Row& a, const Row& b) {
    if (by == "owner") {
      return a.record.planned.owner < b.record.planned.owner;
    }
    if (by == "lot") {
      return a.record.planned.lot < b.record.planned.lot;
    }
    if (by == "state") {
      return a.advice.state < b.advice.state;
    }
    if (by == "date") {
      return a.last > b.last;
    }
    return by == "turns" && best_turns(a) > best_turns(b);  // "id" is the order they come in
  });
}

std::string washed_text(const Row& row) {
  const auto& washed = row.advice.known.washed;
  return washed ? fixed(washed->in_g(), gram_decimals(row.record.planned.scale_step)) : "-";
}

std::string table_text(const std::vector<Row>& rows, Units units) {
  using Side = TextTable::Side;
  TextTable table({{"motor"},
                   {"owner", Side::left, 6},
                   {"for", Side::left, 6},
                   {"rule", Side::left, 4},
                   {"lot", Side::left, 4},
                   {"state"},
                   {"washed g", Side::right},
                   {"loop", Side::right},
                   {"best", Side::right},
                   {"torque", Side::right},
                   {"last"}});
  for (const Row& row : rows) {
    const records::Planned& p = row.record.planned;
    const records::Known& known = row.advice.known;
    table.row({fmt::format("{}-{}", printed(row.record.id), row.record.check), p.owner, p.purpose,
               p.rule ? p.rule->name : "", p.lot,
               fmt::format("{}{}", spoken(row.advice.state), row.record.torn ? " (torn)" : ""),
               washed_text(row), shown(row.advice.loop, units),
               known.best_turns ? rounded(known.best_turns->count(), 6) : "-",
               known.best_torque ? shown(*known.best_torque, units) : "-", row.last});
  }
  return table.text();
}

Json rows_json(const std::vector<Row>& rows, const Diagnostics& problems) {
  Json motors = Json::array();
  for (const Row& row : rows) {
    const records::Planned& p = row.record.planned;
    const records::Known& known = row.advice.known;
    const auto text = [](const std::string& t) { return t.empty() ? Json() : Json(t); };
    Json one = Json::object();
    one.set("id", printed(row.record.id)).set("check_char", std::string(1, row.record.check));
    one.set("state", word(row.advice.state))
        .set("owner", text(p.owner))
        .set("for", text(p.purpose));
    one.set("rule", p.rule ? Json(p.rule->name) : Json()).set("strip", p.strip);
    one.set("lot", text(p.lot)).set("washed_g", known.washed ? Json(known.washed->in_g()) : Json());
    one.set("loop_mm", row.advice.loop.in_mm()).set("wind_to_turns", row.advice.wind_to.count());
    one.set("best_turns", known.best_turns ? Json(known.best_turns->count()) : Json());
    one.set("best_torque_mNm", known.best_torque ? Json(known.best_torque->in_mnm()) : Json());
    one.set("last_date", text(row.last)).set("torn", row.record.torn);
    one.set("planned_edited", row.record.planned_edited);
    motors.push(std::move(one));
  }
  Json out = Json::object();
  out.set("format", 1).set("motors", std::move(motors)).set("diagnostics", to_json(problems));
  return out;
}

void run_list(const ListOptions& options, Context& context) {
  PosixDisk disk;
  const std::string folder = records_folder(options.records, {}, context);
  records::Ledger ledger(disk, folder);
  const auto held = ledger.holding();
  if (!held) {
    context.exit_code = report(context, held.diagnostics());
    return;
  }
  Diagnostics problems = held->passed_over;
  std::vector<Row> rows = read_rows(ledger, held->ids, options, problems);
  sort_rows(rows, options.sort);
  context.exit_code = report(context, problems);
  const Units units = options.units.value_or(Units::metric);
  if (options.json) {
    context.out << rows_json(rows, problems).text();
  } else if (rows.empty()) {
    context.out << fmt::format("{} in {}\n", held->ids.empty() ? "No records" : "No such motors",
                               printable(folder));
  } else {
    context.out << table_text(rows, units)
                << fmt::format("{} motor{}\n", rows.size(), rows.size() == 1 ? "" : "s");
  }
}

}  // namespace

void add_list(CommandLine& line, Context& context) {
  auto options = std::make_shared<ListOptions>();
  line.add("list", "List the motors of the ledger")
      .option("--owner", options->owner, "Only this owner's")
      .option("--class,--rule", options->rule, "Only those under this rule")
      .option("--lot", options->lot, "Only those of this lot")
      .choice("--state", options->state, {"planned", "tied", "broken_in", "flown", "retired"},
              "Only those that are so")
      .flag("--stale", options->stale, "Only those whose label is out of date")
      .choice("--sort", options->sort, {"id", "owner", "lot", "state", "date", "turns"},
              "By which column; date: newest first, turns: most first")
      .records(options->records)
      .units(options->units)
      .json(options->json, "The list")
      .action([options, &context] { run_list(*options, context); });
}

}  // namespace loopledger::cli
