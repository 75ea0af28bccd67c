// SPDX-License-Identifier: MIT
//
// `list` as a table, JSON or CSV.
#include "commands/list.h"

#include <fmt/format.h>

#include <memory>
#include <optional>
#include <ostream>
#include <string>
#include <variant>
#include <vector>

#include "base/text.h"
#include "json/list_json.h"
#include "json/row_json.h"
#include "motor/words.h"
#include "terminal/command.h"
#include "terminal/command_line.h"
#include "terminal/day_options.h"
#include "terminal/row_cells.h"
#include "terminal/text_table.h"

namespace loopledger::terminal {
namespace {

using commands::MotorRow;
using Side = TextTable::Side;

struct ListOptions {
  commands::ListRequest request;
  std::optional<Units> units;
  bool csv = false;
  bool json = false;
};

std::string state_text(const MotorRow& row) {
  return fmt::format("{}{}{}", motor::spoken(row.state), row.torn ? " (torn)" : "",
                     row.mark.empty() ? "" : " (check)");
}

std::string table_text(const std::vector<MotorRow>& rows, Units units) {
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
  for (const MotorRow& row : rows) {
    table.row({id_text(row), row.owner, row.purpose, row.rule, row.lot, state_text(row),
               washed_text(row), loop_text(row, units), best_turns_text(row),
               best_torque_text(row, units), row.last});
  }
  return table.text() + kLoopLegend +
         fmt::format("{} motor{}\n", rows.size(), rows.size() == 1 ? "" : "s");
}

/// A field of RFC 4180; numbers and flags as in JSON, nothing where JSON says null.
std::string csv_field(const json::RowValue& value) {
  const auto* const text = std::get_if<std::string>(&value);
  if (text == nullptr) {
    return std::holds_alternative<std::monostate>(value) ? std::string()
                                                         : json::to_json(value).compact();
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

void write_csv(const std::vector<MotorRow>& rows, std::ostream& out) {
  const char* comma = "";
  for (const auto& [key, value] : json::fields_of({})) {
    out << comma << key;
    comma = ",";
  }
  out << '\n';
  for (const MotorRow& row : rows) {
    comma = "";
    for (const auto& [key, value] : json::fields_of(row)) {
      out << comma << csv_field(value);
      comma = ",";
    }
    out << '\n';
  }
}

void run_list(const ListOptions& options, Context& context) {
  const commands::ListAnswer answer = commands::list(options.request, context.world);
  context.exit_code = report(context, answer.said);
  if (options.json) {
    context.out << json::to_json(answer).text();
  } else if (!answer.motors) {
    return;
  } else if (options.csv) {
    write_csv(*answer.motors, context.out);
  } else if (!answer.motors->empty()) {
    context.out << table_text(*answer.motors, options.units.value_or(Units::metric));
  } else if (!answer.none.empty()) {
    context.out << answer.none << '\n';
  }
}

}  // namespace

void add_list(CommandLine& line, Context& context) {
  auto options = std::make_shared<ListOptions>();
  commands::ListRequest& request = options->request;
  Command command = line.add("list", "List the motors of the ledger");
  add_filter(command, request.only)
      .choice("--state", request.state, commands::list_states(), "Only those that are so")
      .flag("--stale", request.stale, "Only those whose label is out of date")
      .choice("--sort", request.sort, commands::list_columns(),
              "By which column; date: newest first, turns and torque: most first")
      .flag("--reverse", request.reverse, "The other way round")
      .flag("--csv", options->csv, "The list as comma-separated values, one motor a line")
      .records(request.records)
      .units(options->units)
      .json(options->json, "The list")
      .either_or("--csv", "--json")
      .action([options, &context] { run_list(*options, context); });
}

}  // namespace loopledger::terminal
