// SPDX-License-Identifier: MIT
//
// `card ID...`: field cards, what a flyer takes to the flying floor; with several motors a list of
// the box comes first.
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <memory>
#include <ostream>
#include <set>

#include "calc/cranks.h"
#include "commands/documents.h"
#include "commands/exit_code.h"
#include "commands/find_record.h"
#include "commands/motor_rows.h"
#include "commands/outcome.h"
#include "commands/print_setup.h"
#include "commands/row_filter.h"
#include "commands/today.h"
#include "commands/winder_today.h"
#include "json/json.h"
#include "motor/card_motor.h"
#include "pdf/write_pdf.h"
#include "posix/files.h"
#include "posix/posix_disk.h"
#include "records/ledger.h"
#include "sheets/field_card.h"
#include "tag/id.h"
#include "terminal/command.h"
#include "terminal/command_line.h"
#include "terminal/day_options.h"

namespace loopledger::terminal {
namespace {

constexpr std::size_t kMostCards = 500;

struct CardOptions {
  std::vector<std::string> ids;
  commands::RowFilter only;
  std::string paper = "a4";
  std::string records;
  std::string out = "out";
  bool overwrite = false;
  std::optional<Units> units;
  commands::TodayRequest today;
  bool json = false;
};

struct CardRecords {
  std::vector<records::Record> records;
  Diagnostics said;
};

CardRecords by_ids(const std::vector<std::string>& ids, records::Ledger& ledger) {
  CardRecords found;
  std::set<MotorId> seen;
  for (const std::string& typed : ids) {
    auto one = commands::find_record(ledger, typed);
    append(found.said, one.diagnostics());
    if (one && seen.insert(one->id).second) {
      found.records.push_back(std::move(one->record));
    }
  }
  return found;
}

/// Those that are not retired: the box is filled with these.
CardRecords by_filter(const commands::RowFilter& only, const std::string& folder,
                      records::Ledger& ledger, Context& context) {
  CardRecords found;
  const auto held = ledger.holding();
  append(found.said, held.diagnostics());
  if (!held) {
    return found;
  }
  append(found.said, held->passed_over);
  const commands::MotorRows reading = commands::read_motors(
      context.world, folder, held->ids, [&only](const commands::MotorRow& row) {
        return row.state != motor::State::retired && only.takes(row);
      });
  append(found.said, reading.problems);
  if (reading.rows.size() > kMostCards) {
    found.said.push_back(
        error("card-many",
              fmt::format("expected at most {} motors for one file, {} are meant", kMostCards,
                          reading.rows.size()),
              "name the motors, or narrow it by --owner, --class and --lot together"));
    return found;
  }
  for (const commands::MotorRow& row : reading.rows) {
    auto record = ledger.read(row.id);  // what is wrong with it was said above
    if (record) {
      found.records.push_back(std::move(*record));
    }
  }
  if (found.records.empty()) {
    found.said.push_back(error("none-card",
                               fmt::format("no motor to wind is held for {}", only.text()),
                               "see `loopledger list`"));
  }
  return found;
}

/// What is said of motors that are not to be wound; an error when no other is left.
Diagnostics retired_among(const std::vector<motor::CardMotor>& motors) {
  Diagnostics said;
  for (const motor::CardMotor& motor : motors) {
    if (motor.retired) {
      said.push_back(commands::retired_warning(motor.id, "card"));
    }
  }
  if (!motors.empty() && said.size() == motors.size()) {
    said.push_back(error("none-card", "no motor to wind is among them", "see `loopledger list`"));
  }
  return said;
}

sheets::CardRun card_run(const std::vector<motor::CardMotor>& motors,
                         const std::vector<records::Record>& records, Units units,
                         const commands::PrintSetup& setup) {
  sheets::CardRun run;
  run.units = units;
  std::string newest;
  for (const motor::CardMotor& motor : motors) {
    newest = std::max(newest, motor.last);
  }
  run.as_of = newest.empty() ? "" : "as logged up to " + newest;
  run.created = commands::creation_date(date_from_iso(newest), setup);
  const bool one_title = std::ranges::all_of(records, [&](const records::Record& r) {
    return r.planned.title == records.front().planned.title;
  });
  run.title = one_title && !records.empty() ? records.front().planned.title : "";
  return run;
}

/// Errors: page-paper, pdf-…, disk-….
Diagnostics write_cards(const std::vector<motor::CardMotor>& motors, const sheets::CardRun& run,
                        const commands::PrintSetup& setup, const std::string& folder,
                        const std::string& path, bool overwrite, commands::World& world) {
  auto document = sheets::field_cards(motors, run, setup.paper, *setup.metrics);
  Diagnostics said = document.diagnostics();
  if (!document) {
    return said;
  }
  append(said, commands::correct_for_printer(*document, setup.paper, setup, "card.pdf"));
  auto bytes = pdf::write_pdf(*document, setup.fonts);
  append(said, bytes.diagnostics());
  append(said, commands::foreign_files({path}, overwrite, world));
  append(said, has_errors(said) ? Diagnostics{} : posix::make_folder(folder));
  if (has_errors(said)) {
    return said;
  }
  auto file = posix::PendingFile::write(path, *bytes);
  append(said, file.diagnostics());
  if (file) {
    append(said, file->commit());
  }
  return said;
}

/// Figures of a motor's card; null where a card has none.
json::Json card_json(const motor::CardMotor& motor) {
  json::Json out = json::Json::object();
  out.set("id", printed(motor.id))
      .set("check_char", std::string(1, tag::check_character(motor.id)));
  out.set("state", motor.state).set("card", !motor.retired);
  if (motor.retired) {
    return out;
  }
  out.set("wind_to_turns", motor.wind_to.count());
  out.set("do_not_pass_turns", motor.largest.low.count());
  const bool geared = calc::has_cranks(motor.winder_ratio);
  out.set("winder_ratio", geared ? json::Json(motor.winder_ratio) : json::Json());
  out.set("cranks", geared ? json::Json(calc::cranks_to_wind_to(motor.wind_to, motor.largest.low,
                                                                motor.winder_ratio))
                           : json::Json());
  out.set("do_not_pass_cranks",
          geared ? json::Json(calc::cranks_at_most(motor.largest.low, motor.winder_ratio))
                 : json::Json());
  out.set("mark", motor.mark.empty() ? json::Json() : json::Json(motor.mark));
  const auto torque = [&motor](Torque expected) {
    return motor.curve ? json::Json(expected.in_mnm()) : json::Json();
  };
  out.set("expected_torque_mNm", torque(motor.expected.value));
  out.set("expected_torque_low_mNm", torque(motor.expected.low));
  out.set("expected_torque_high_mNm", torque(motor.expected.high));
  json::Json launch;
  if (motor.launch) {
    launch = json::Json::object();
    launch.set("turns_left", motor.launch->left.count());
    launch.set("torque_mNm", motor.launch->torque.in_mnm());
    launch.set("let_out_turns", motor.launch->let_out.count());
  }
  out.set("last_launch", std::move(launch));
  const bool leaves = motor.oil && motor.oil->leaves;
  out.set("oil_adds_mg", motor.oil ? json::Json(motor.oil->adds.in_mg()) : json::Json());
  out.set("oil_leaves_mg", leaves ? json::Json(motor.oil->leaves->in_mg()) : json::Json());
  return out;
}

std::string written_words(const std::vector<motor::CardMotor>& motors, const std::string& path) {
  const auto cards = std::ranges::count(motors, false, &motor::CardMotor::retired);
  return fmt::format("Wrote {} ({} card{}{})\n", path, cards, cards == 1 ? "" : "s",
                     motors.size() > 1 ? fmt::format(", list of {} motors", motors.size()) : "");
}

void print_cards(const CardOptions& options, Context& context) {
  const auto today = commands::today_from(options.today, context.world);
  if (!today) {
    context.exit_code = report_alone(context, today.diagnostics(), options.json);
    return;
  }
  records::Disk& disk = context.world.disk;
  const std::string folder = commands::records_folder(options.records, {}, context.world);
  records::Ledger ledger(disk, folder);
  const Units units = options.units.value_or(Units::metric);
  CardRecords found = options.ids.empty() ? by_filter(options.only, folder, ledger, context)
                                          : by_ids(options.ids, ledger);
  Diagnostics said = std::move(found.said);
  std::vector<motor::CardMotor> motors;
  for (const records::Record& record : found.records) {
    motors.push_back(motor::card_motor(record, *today, units));
  }
  append(said, retired_among(motors));
  const auto setup =
      commands::set_up_printing(commands::order_of(options.paper, {}, {}), context.world);
  append(said, setup.diagnostics());
  const std::string path = (std::filesystem::path(options.out) / "card.pdf").string();
  if (!has_errors(said)) {
    append(said, write_cards(motors, card_run(motors, found.records, units, *setup), *setup,
                             options.out, path, options.overwrite, context.world));
  }
  const bool done = !has_errors(said);
  context.exit_code = report(context, said);
  if (options.json) {
    json::Json list = json::Json::array();
    for (const motor::CardMotor& motor : motors) {
      list.push(card_json(motor));
    }
    json::Json all = json::Json::object();
    all.set("format", 1).set("file", done ? json::Json(path) : json::Json());
    all.set("motors", done ? std::move(list) : json::Json::array());
    context.out << all.set("diagnostics", json::to_json(said)).text();
  } else if (done) {
    context.out << written_words(motors, path);
  }
}

void run_card(const CardOptions& options, Context& context) {
  if (options.ids.empty() == options.only.text().empty()) {
    context.exit_code = report_alone(
        context,
        {commands::usage_error("missing", "expected ids, or one of --owner, --class and --lot",
                               "loopledger card th1 th2")},
        options.json);
    return;
  }
  print_cards(options, context);
}

}  // namespace

void add_card(CommandLine& line, Context& context) {
  auto options = std::make_shared<CardOptions>();
  Command command = line.add("card", "Print field cards: how to wind, with the torque curve");
  command.words("ID", options->ids, "The motors, such as th1 th2");
  add_winder_ratio(add_filter(command, options->only), options->today.winder_ratio)
      .option("--paper", options->paper, "Paper: a4 (default), letter, or a .toml file")
      .option("--out", options->out, "Folder for card.pdf (default: out)")
      .records(options->records)
      .units(options->units)
      .flag("--overwrite", options->overwrite, "Replace a file that this program did not write")
      .json(options->json, "What was written")
      .footer(
          "With several motors a list of the box comes first. Figures marked as estimates have\n"
          "their 95 % interval commands::beside them.")
      .action([options, &context] {
        options->ids = commands::parted_ids(options->ids);
        run_card(*options, context);
      });
}

}  // namespace loopledger::terminal
