// SPDX-License-Identifier: MIT
//
// `list`: the motors of the ledger, filtered and sorted, as a table, JSON or CSV.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <memory>
#include <optional>
#include <ostream>
#include <string>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

#include "base/text.h"
#include "commands/exit_code.h"
#include "commands/find_record.h"
#include "commands/motor_rows.h"
#include "commands/row_filter.h"
#include "json/json.h"
#include "motor/words.h"
#include "posix/files.h"
#include "posix/posix_disk.h"
#include "records/fields.h"
#include "records/ledger.h"
#include "terminal/command.h"
#include "terminal/command_line.h"
#include "terminal/day_options.h"
#include "terminal/list_fields.h"
#include "terminal/text_table.h"

namespace loopledger::terminal {
namespace {

using Side = TextTable::Side;

struct ListOptions {
  std::string records;
  commands::RowFilter only;
  std::string state;
  std::string sort = "id";
  std::optional<Units> units;
  bool stale = false;
  bool reverse = false;
  bool csv = false;
  bool json = false;
};

bool is_wanted(const ListOptions& options, const commands::ListRow& row) {
  const auto state = motor::state_from(options.state);
  return options.only.takes(row) && (!state || *state == row.state) &&
         (!options.stale || row.stale);
}

// ---- the table's columns, and how each sorts
// ------------------------------------------------------

/// What a column sorts by; numbers that are not known come last either way.
using SortKey = std::variant<double, std::string>;

template <class Q>
SortKey known_or_last(const std::optional<Q>& q, double sign) {
  return q ? SortKey(sign * q->in_si()) : SortKey(HUGE_VAL);
}

struct Column {
  const char* name;  ///< for --sort
  TextTable::Column head;
  std::string (*text)(const commands::ListRow&, Units);
  SortKey (*key)(const commands::ListRow&);
};

/// Turns and torque sort most first, dates newest first, all else from the least.
const std::vector<Column>& columns() {
  static const std::vector<Column> kColumns{
      {"id",
       {"motor"},
       [](const commands::ListRow& r, Units) { return id_text(r); },
       [](const commands::ListRow& r) {
         return SortKey(fmt::format("{}{:08}", r.id.stem, r.id.number));
       }},
      {"owner",
       {"owner", Side::left, 6},
       [](const commands::ListRow& r, Units) { return r.owner; },
       [](const commands::ListRow& r) { return SortKey(lower_ascii(r.owner)); }},
      {"for",
       {"for", Side::left, 6},
       [](const commands::ListRow& r, Units) { return r.purpose; },
       [](const commands::ListRow& r) { return SortKey(lower_ascii(r.purpose)); }},
      {"rule",
       {"rule", Side::left, 4},
       [](const commands::ListRow& r, Units) { return r.rule; },
       [](const commands::ListRow& r) { return SortKey(lower_ascii(r.rule)); }},
      {"lot",
       {"lot", Side::left, 4},
       [](const commands::ListRow& r, Units) { return r.lot; },
       [](const commands::ListRow& r) { return SortKey(lower_ascii(r.lot)); }},
      {"state",
       {"state"},
       [](const commands::ListRow& r, Units) {
         return fmt::format("{}{}{}", motor::spoken(r.state), r.torn ? " (torn)" : "",
                            r.mark.empty() ? "" : " (check)");
       },
       [](const commands::ListRow& r) { return SortKey(static_cast<double>(r.state)); }},
      {"washed",
       {"washed g", Side::right},
       [](const commands::ListRow& r, Units) { return washed_text(r); },
       [](const commands::ListRow& r) { return known_or_last(r.washed, 1); }},
      {"loop",
       {"loop", Side::right},
       [](const commands::ListRow& r, Units units) { return loop_text(r, units); },
       [](const commands::ListRow& r) { return SortKey(r.loop.in_si()); }},
      {"turns",
       {"best", Side::right},
       [](const commands::ListRow& r, Units) { return best_turns_text(r); },
       [](const commands::ListRow& r) {
         return r.best ? SortKey(-r.best->turns.count()) : SortKey(HUGE_VAL);
       }},
      {"torque",
       {"torque", Side::right},
       [](const commands::ListRow& r, Units units) { return best_torque_text(r, units); },
       [](const commands::ListRow& r) {
         return known_or_last(r.best ? r.best->torque : std::nullopt, -1);
       }},
      {"date",
       {"last"},
       [](const commands::ListRow& r, Units) { return r.last; },
       [](const commands::ListRow& r) { return SortKey(r.last); }},
  };
  return kColumns;
}

std::vector<std::string> column_names() {
  std::vector<std::string> names;
  for (const Column& column : columns()) {
    names.emplace_back(column.name);
  }
  return names;
}

void sort_rows(std::vector<commands::ListRow>& rows, const ListOptions& options) {
  const auto column = std::ranges::find(columns(), options.sort,
                                        [](const Column& c) { return std::string(c.name); });
  if (column == columns().end()) {
    return;
  }
  const bool down = (options.sort == "date") != options.reverse;
  std::ranges::stable_sort(rows, [&](const commands::ListRow& a, const commands::ListRow& b) {
    const SortKey ka = column->key(a);
    const SortKey kb = column->key(b);
    const bool a_known = ka != SortKey(HUGE_VAL);
    const bool b_known = kb != SortKey(HUGE_VAL);
    return a_known != b_known ? a_known : down ? kb < ka : ka < kb;
  });
}

std::string table_text(const std::vector<commands::ListRow>& rows, Units units) {
  std::vector<TextTable::Column> heads;
  for (const Column& column : columns()) {
    heads.push_back(column.head);
  }
  TextTable table(heads);
  for (const commands::ListRow& row : rows) {
    std::vector<std::string> cells;
    for (const Column& column : columns()) {
      cells.push_back(column.text(row, units));
    }
    table.row(cells);
  }
  return table.text();
}

// ---- JSON and CSV say the same fields
// --------------------------------------------------------------

json::Json rows_json(const std::vector<commands::ListRow>& rows, const Diagnostics& problems) {
  json::Json motors = json::Json::array();
  for (const commands::ListRow& row : rows) {
    motors.push(row_json(row));
  }
  json::Json out = json::Json::object();
  out.set("format", 1).set("motors", std::move(motors)).set("diagnostics", json::to_json(problems));
  return out;
}

/// A field of RFC 4180; numbers and flags as in JSON, nothing where JSON says null.
std::string csv_field(const RowValue& value) {
  const auto* const text = std::get_if<std::string>(&value);
  if (text == nullptr) {
    return std::holds_alternative<std::monostate>(value) ? std::string() : to_json(value).compact();
  }
  std::string safe = printable(*text);
  if (safe.find_first_of("\",") == std::string::npos) {
    return safe;
  }
  std::string quoted = "\"";
  for (const char c : safe) {
    quoted += c;
    if (c == '"') {
      quoted += c;
    }
  }
  return quoted + "\"";
}

void write_csv(const std::vector<commands::ListRow>& rows, std::ostream& out) {
  const char* comma = "";
  for (const auto& [key, value] : fields_of({})) {
    out << comma << key;
    comma = ",";
  }
  out << '\n';
  for (const commands::ListRow& row : rows) {
    comma = "";
    for (const auto& [key, value] : fields_of(row)) {
      out << comma << csv_field(value);
      comma = ",";
    }
    out << '\n';
  }
}

void run_list(const ListOptions& options, Context& context) {
  records::Disk& disk = context.world.disk;
  const std::string folder = commands::records_folder(options.records, {}, context.world);
  records::Ledger ledger(disk, folder);
  const auto held = ledger.holding();
  if (!held) {
    context.exit_code = report_alone(context, held.diagnostics(), options.json);
    return;
  }
  commands::ListReading reading =
      commands::read_list(context.world, folder, held->ids,
                          [&](const commands::ListRow& row) { return is_wanted(options, row); });
  Diagnostics problems = held->passed_over;
  append(problems, reading.problems);
  if (held->ids.empty() && !std::filesystem::exists(folder)) {
    problems.push_back(error("none-record", fmt::format("no records are in {}", printable(folder)),
                             "--records names the folder; `loopledger print` opens records"));
  } else if (reading.rows.empty() && !options.only.text().empty()) {
    const auto any = [](const commands::ListRow&) { return true; };
    append(problems,
           options.only.none_has(commands::read_list(context.world, folder, held->ids, any).rows));
  }
  sort_rows(reading.rows, options);
  context.exit_code = report(context, problems);
  if (options.json) {
    context.out << rows_json(reading.rows, problems).text();
  } else if (options.csv) {
    write_csv(reading.rows, context.out);
  } else if (reading.rows.empty() && context.exit_code == commands::kDone) {
    context.out << fmt::format("{} in {}\n", held->ids.empty() ? "No records" : "No such motors",
                               printable(folder));
  } else if (!reading.rows.empty()) {
    context.out << table_text(reading.rows, options.units.value_or(Units::metric)) << kLoopLegend
                << fmt::format("{} motor{}\n", reading.rows.size(),
                               reading.rows.size() == 1 ? "" : "s");
  }
}

}  // namespace

void add_list(CommandLine& line, Context& context) {
  auto options = std::make_shared<ListOptions>();
  Command command = line.add("list", "List the motors of the ledger");
  add_filter(command, options->only)
      .choice("--state", options->state, {"planned", "tied", "broken_in", "flown", "retired"},
              "Only those that are so")
      .flag("--stale", options->stale, "Only those whose label is out of date")
      .choice("--sort", options->sort, column_names(),
              "By which column; date: newest first, turns and torque: most first")
      .flag("--reverse", options->reverse, "The other way round")
      .flag("--csv", options->csv, "The list as comma-separated values, one motor a line")
      .records(options->records)
      .units(options->units)
      .json(options->json, "The list")
      .either_or("--csv", "--json")
      .action([options, &context] { run_list(*options, context); });
}

}  // namespace loopledger::terminal
