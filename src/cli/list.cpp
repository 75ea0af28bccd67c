// SPDX-License-Identifier: MIT
//
// `list`: the motors of the ledger, filtered and sorted.
#include <fmt/format.h>

#include <algorithm>
#include <future>
#include <iterator>
#include <memory>
#include <ostream>
#include <span>
#include <thread>

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

/// What the list shows of a record; the record itself would fill the memory of a large ledger.
struct Row {
  MotorId id;
  char check = '?';
  std::string owner;
  std::string purpose;
  std::string rule;
  std::string strip;
  std::string lot;
  Mass scale_step;
  records::State state = records::State::planned;
  records::Known known;
  Length loop;
  Turns wind_to;
  std::string last;  ///< date of the newest entry by its place in the file
  bool torn = false;
  bool planned_edited = false;
  bool stale = false;
};

bool same_word(const std::string& wanted, const std::string& is) {
  return wanted.empty() || lower_ascii(wanted) == lower_ascii(is);
}

bool wanted(const ListOptions& options, const Row& row) {
  const auto state = records::state_from(options.state);
  return same_word(options.owner, row.owner) && same_word(options.lot, row.lot) &&
         same_word(options.rule, row.rule) && (!state || *state == row.state) &&
         (!options.stale || row.stale);
}

std::string last_date(const Record& record) {
  for (auto e = record.entries.rbegin(); e != record.entries.rend(); ++e) {
    if (const auto at = records::moment_of_key(e->key)) {
      return iso(date_of(*at));
    }
  }
  return record.planned.date ? iso(*record.planned.date) : std::string();
}

Row row_of(const Record& record) {
  const records::Planned& p = record.planned;
  const Advice advice = advice_for(record);
  Row row;
  row.id = record.id;
  row.check = record.check;
  row.owner = p.owner;
  row.purpose = p.purpose;
  row.rule = p.rule ? p.rule->name : std::string();
  row.strip = p.strip;
  row.lot = p.lot;
  row.scale_step = p.scale_step;
  row.state = advice.state;
  row.known = advice.known;
  row.loop = advice.loop;
  row.wind_to = advice.wind_to;
  row.last = last_date(record);
  row.torn = record.torn;
  row.planned_edited = record.planned_edited;
  row.stale = label_is_stale(record);
  return row;
}

struct Reading {
  std::vector<Row> rows;
  Diagnostics problems;
};

/// Reads records; those that can't be read are named and passed over.
Reading read_some(const std::string& folder, std::span<const MotorId> ids,
                  const ListOptions& options) {
  PosixDisk disk;
  records::Ledger ledger(disk, folder);
  Reading reading;
  for (const MotorId& id : ids) {
    auto record = ledger.read(id);
    for (Diagnostic d : record.diagnostics()) {
      d.severity = std::min(d.severity, Severity::warning);
      reading.problems.push_back(std::move(d));
    }
    if (!record) {
      continue;
    }
    if (Row row = row_of(*record); wanted(options, row)) {
      reading.rows.push_back(std::move(row));
    }
  }
  return reading;
}

/// All records in the order of their ids, on all cores when there are many.
Reading read_rows(const std::string& folder, const std::vector<MotorId>& ids,
                  const ListOptions& options) {
  constexpr std::size_t kWorthAThread = 500;
  const std::size_t cores = std::max(1U, std::thread::hardware_concurrency());
  const std::size_t threads = std::clamp<std::size_t>(ids.size() / kWorthAThread, 1, cores);
  std::vector<std::future<Reading>> parts;
  for (std::size_t t = 0; t < threads; ++t) {
    const std::size_t from = ids.size() * t / threads;
    const std::size_t to = ids.size() * (t + 1) / threads;
    parts.push_back(
        std::async(threads > 1 ? std::launch::async : std::launch::deferred, [&, from, to] {
          return read_some(folder, std::span(ids).subspan(from, to - from), options);
        }));
  }
  Reading all;
  for (std::future<Reading>& part : parts) {
    Reading one = part.get();
    std::ranges::move(one.rows, std::back_inserter(all.rows));
    append(all.problems, one.problems);
  }
  return all;
}

double best_turns(const Row& row) { return row.known.best_turns.value_or(Turns::of(-1)).count(); }

void sort_rows(std::vector<Row>& rows, const std::string& by) {
  std::ranges::stable_sort(rows, [&by](const Row& a, const Row& b) {
    if (by == "owner") {
      return a.owner < b.owner;
    }
    if (by == "lot") {
      return a.lot < b.lot;
    }
    if (by == "state") {
      return a.state < b.state;
    }
    if (by == "date") {
      return a.last > b.last;
    }
    return by == "turns" && best_turns(a) > best_turns(b);  // "id" is the order they come in
  });
}

std::string washed_text(const Row& row) {
  const auto& washed = row.known.washed;
  return washed ? fixed(washed->in_g(), gram_decimals(row.scale_step)) : "-";
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
    const records::Known& known = row.known;
    table.row({fmt::format("{}-{}", printed(row.id), row.check), row.owner, row.purpose, row.rule,
               row.lot, fmt::format("{}{}", spoken(row.state), row.torn ? " (torn)" : ""),
               washed_text(row), shown(row.loop, units),
               known.best_turns ? rounded(known.best_turns->count(), 6) : "-",
               known.best_torque ? shown(*known.best_torque, units) : "-", row.last});
  }
  return table.text();
}

Json rows_json(const std::vector<Row>& rows, const Diagnostics& problems) {
  Json motors = Json::array();
  for (const Row& row : rows) {
    const records::Known& known = row.known;
    const auto text = [](const std::string& t) { return t.empty() ? Json() : Json(t); };
    Json one = Json::object();
    one.set("id", printed(row.id)).set("check_char", std::string(1, row.check));
    one.set("state", word(row.state)).set("owner", text(row.owner)).set("for", text(row.purpose));
    one.set("rule", text(row.rule)).set("strip", row.strip);
    one.set("lot", text(row.lot))
        .set("washed_g", known.washed ? Json(known.washed->in_g()) : Json());
    one.set("loop_mm", row.loop.in_mm()).set("wind_to_turns", row.wind_to.count());
    one.set("best_turns", known.best_turns ? Json(known.best_turns->count()) : Json());
    one.set("best_torque_mNm", known.best_torque ? Json(known.best_torque->in_mnm()) : Json());
    one.set("last_date", text(row.last)).set("torn", row.torn);
    one.set("planned_edited", row.planned_edited);
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
  Reading reading = read_rows(folder, held->ids, options);
  std::vector<Row>& rows = reading.rows;
  append(problems, reading.problems);
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
