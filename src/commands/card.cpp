// SPDX-License-Identifier: MIT
#include "commands/card.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

#include "commands/documents.h"
#include "commands/find_record.h"
#include "commands/motor_rows.h"
#include "commands/outcome.h"
#include "commands/print_setup.h"
#include "records/ledger.h"
#include "sheets/field_card.h"

namespace loopledger::commands {
namespace {

constexpr std::size_t kMostCards = 500;

struct CardRecords {
  std::vector<records::Record> records;
  Diagnostics said;
};

CardRecords by_ids(const std::vector<std::string>& ids, records::Ledger& ledger) {
  CardRecords found;
  std::set<MotorId> seen;
  for (const std::string& typed : ids) {
    auto one = find_record(ledger, typed);
    append(found.said, one.diagnostics());
    if (one && seen.insert(one->id).second) {
      found.records.push_back(std::move(one->record));
    }
  }
  return found;
}

/// Those that are not retired: the box is filled with these.
CardRecords by_filter(const RowFilter& only, const std::string& folder, records::Ledger& ledger,
                      World& world) {
  CardRecords found;
  const auto reading = read_ledger(world, folder, [&only](const MotorRow& row) {
    return row.state != motor::State::retired && only.takes(row);
  });
  found.said = reading.diagnostics();
  if (!reading) {
    return found;
  }
  if (reading->rows.size() > kMostCards) {
    found.said.push_back(
        error("card-many",
              fmt::format("expected at most {} motors for one file, {} are meant", kMostCards,
                          reading->rows.size()),
              "name the motors, or narrow it by --owner, --class and --lot together"));
    return found;
  }
  for (const MotorRow& row : reading->rows) {
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
      said.push_back(retired_warning(motor.id, "card"));
    }
  }
  if (!motors.empty() && said.size() == motors.size()) {
    said.push_back(error("none-card", "no motor to wind is among them", "see `loopledger list`"));
  }
  return said;
}

sheets::CardRun card_run(const std::vector<motor::CardMotor>& motors,
                         const std::vector<records::Record>& records, Units units,
                         const PrintSetup& setup) {
  sheets::CardRun run;
  run.units = units;
  std::string newest;
  for (const motor::CardMotor& motor : motors) {
    newest = std::max(newest, motor.last);
  }
  run.as_of = newest.empty() ? "" : "as logged up to " + newest;
  run.created = creation_date(date_from_iso(newest), setup);
  const bool one_title = std::ranges::all_of(records, [&](const records::Record& r) {
    return r.planned.title == records.front().planned.title;
  });
  run.title = one_title && !records.empty() ? records.front().planned.title : "";
  return run;
}

void print_cards(const CardRequest& request, const std::vector<std::string>& ids,
                 const motor::Today& today, CardAnswer& answer, World& world) {
  const std::string folder = records_folder(request.records, {}, world);
  records::Ledger ledger(world.disk, folder);
  const CardRecords found =
      ids.empty() ? by_filter(request.only, folder, ledger, world) : by_ids(ids, ledger);
  Diagnostics& said = answer.said;
  append(said, found.said);
  const Units units = request.units.value_or(Units::metric);
  std::vector<motor::CardMotor> motors;
  for (const records::Record& record : found.records) {
    motors.push_back(motor::card_motor(record, today, units));
  }
  append(said, retired_among(motors));
  const auto setup = set_up_printing(order_of(request.paper, {}, {}), world);
  append(said, setup.diagnostics());
  if (has_errors(said)) {
    return;
  }
  Documents documents(world, *setup, request.out, request.overwrite);
  append(said,
         documents.add("card.pdf", setup->paper,
                       sheets::field_cards(motors, card_run(motors, found.records, units, *setup),
                                           setup->paper, *setup->metrics)));
  if (!has_errors(said)) {
    append(said, documents.finish());
  }
  if (!has_errors(said)) {
    answer.file = documents.files().front().path;
    answer.cards =
        static_cast<std::size_t>(std::ranges::count(motors, false, &motor::CardMotor::retired));
    answer.motors = std::move(motors);
  }
}

}  // namespace

CardAnswer card(const CardRequest& request, World& world) {
  CardAnswer answer;
  const std::vector<std::string> ids = parted_ids(request.ids);
  if (ids.empty() == request.only.text().empty()) {
    answer.understood = false;
    answer.said = {usage_error("missing", "expected ids, or one of --owner, --class and --lot",
                               "loopledger card th1 th2")};
    return answer;
  }
  const auto today = today_from(request.today, world);
  if (!today) {
    answer.understood = false;
    answer.said = today.diagnostics();
    return answer;
  }
  print_cards(request, ids, *today, answer, world);
  return answer;
}

}  // namespace loopledger::commands
