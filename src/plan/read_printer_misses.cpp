// SPDX-License-Identifier: MIT
#include "plan/read_printer_misses.h"

#include <fmt/format.h>

#include "base/text.h"
#include "plan/table_reader.h"

namespace loopledger::plan {
namespace {

constexpr Bounds<Length> kShift{Length::mm(-20), Length::mm(20)};
constexpr Bounds<Length> kBar{Length::mm(90), Length::mm(110)};

void read_two(TableReader& reader, std::string_view key, const Bounds<Length>& bounds,
              const std::string& example, Length& across, Length& down) {
  if (const auto two = reader.two_lengths(key, bounds, example)) {
    across = two->first;
    down = two->second;
  }
}

PrinterMiss read_miss(TableReader& reader) {
  PrinterMiss miss;
  read_two(reader, "shift", kShift, "shift = [\"0.6 mm\", \"-0.3 mm\"]", miss.right, miss.down);
  read_two(reader, "bars", kBar, "bars = [\"99.6 mm\", \"100.2 mm\"]", miss.bar_across,
           miss.bar_down);
  return miss;
}

}  // namespace

Result<PrinterMisses> read_printer_misses(std::string_view text, const std::string& file) {
  auto tree = parse_tree(text, file);
  if (!tree) {
    return tree.diagnostics();
  }
  PrinterMisses misses;
  Diagnostics problems;
  TableReader reader(*tree, tree->root(), "the printer's file", problems);
  misses.usual = read_miss(reader);
  const Node* const stocks = reader.find("stock");
  if (stocks != nullptr && stocks->type != Node::Type::table) {
    reader.problem("plan-type", "stock: expected a table", "[stock.a4-3x8-70x37]", stocks->place);
  } else if (stocks != nullptr) {
    for (const Member& member : stocks->members) {
      const std::string name = shortened(member.key, static_cast<int>(kMaxNameLength));
      const Node& table = tree->at(member.node);
      if (table.type != Node::Type::table) {
        reader.problem(
            "plan-type",
            fmt::format("stock \"{}\": expected a table, found {}", name, type_name(table.type)),
            "[stock.a4-3x8-70x37]", member.key_place);
        continue;
      }
      TableReader own(*tree, table, fmt::format("stock \"{}\"", name), problems);
      misses.by_stock[member.key] = read_miss(own);
      own.finish();
    }
  }
  reader.finish();
  add_source_lines(problems, file, std::string(text));
  if (has_errors(problems)) {
    return problems;
  }
  return {std::move(misses), std::move(problems)};
}

}  // namespace loopledger::plan
