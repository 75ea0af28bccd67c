// SPDX-License-Identifier: MIT
#include "plan/read_stock.h"

#include <fmt/format.h>

#include "base/quantity_text.h"
#include "plan/table_reader.h"

namespace loopledger::plan {
namespace {

constexpr int kMaxCells = 200;  ///< columns or rows
constexpr Length kSlack = Length::mm(0.1);

struct Pair {
  Length x;
  Length y;
  bool given = false;
};

Pair read_pair(TableReader& reader, std::string_view key) {
  const Bounds<Length> bounds{Length::mm(5), Length::m(2)};
  const auto two = reader.two_lengths(key, bounds, fmt::format("{} = [\"70 mm\", \"37 mm\"]", key));
  return two ? Pair{two->first, two->second, true} : Pair{};
}

/// Margin, labels and gaps added up must not pass the paper; the message shows the sum.
void check_closes(TableReader& reader, std::string_view way, Length margin, int count, Length pitch,
                  Length label, Length paper) {
  const Length sum = margin + pitch * (count - 1) + label;
  if (sum > paper + kSlack) {
    reader.problem(
        "stock-grid",
        fmt::format("{}: {} + {} x {} + {} = {} passes the paper's {}", way, exact(margin),
                    count - 1, exact(pitch), exact(label), exact(sum), exact(paper)),
        "check margin, pitch and label size", reader.place());
  }
  if (count > 1 && pitch < label - Length::mm(0.001)) {
    reader.problem("stock-grid",
                   fmt::format("{}: a pitch of {} is less than the label's {}", way, exact(pitch),
                               exact(label)),
                   "pitch is from one label's edge to the next one's", reader.place());
  }
}

void read_grid(TableReader& reader, Stock& stock) {
  Placed<int> columns;
  Placed<int> rows;
  Placed<Length> left;
  Placed<Length> top;
  Placed<int> dpi;
  reader.read("columns", columns, Bounds<int>{1, kMaxCells});
  reader.read("rows", rows, Bounds<int>{1, kMaxCells});
  const Pair label = read_pair(reader, "label");
  Pair pitch = read_pair(reader, "pitch");
  reader.read("left", left, Bounds<Length>{Length{}, Length::m(1)});
  reader.read("top", top, Bounds<Length>{Length{}, Length::m(1)});
  reader.read("dpi", dpi, Bounds<int>{100, 4800});
  if (columns.place.line == 0 && rows.place.line == 0 && !label.given) {
    return;  // plain paper
  }
  if (!columns.given || !rows.given || !label.given) {
    reader.missing(!columns.given ? "columns"
                   : !rows.given  ? "rows"
                                  : "label",
                   "label stock has columns, rows and label = [width, height]");
    return;
  }
  if (!pitch.given) {
    pitch = label;
  }
  stock.columns = columns.value;
  stock.rows = rows.value;
  stock.label_width = label.x;
  stock.label_height = label.y;
  stock.pitch_x = pitch.x;
  stock.pitch_y = pitch.y;
  stock.left = left.value;
  stock.top = top.value;
  stock.dpi = dpi.value;
  check_closes(reader, "across", stock.left, stock.columns, stock.pitch_x, stock.label_width,
               stock.paper_width);
  check_closes(reader, "down", stock.top, stock.rows, stock.pitch_y, stock.label_height,
               stock.paper_height);
}

}  // namespace

Result<Stock> read_stock(std::string_view text, const std::string& file, const std::string& name) {
  auto tree = parse_tree(text, file);
  if (!tree) {
    return tree.diagnostics();
  }
  Stock stock;
  stock.name = name;
  Diagnostics problems;
  TableReader reader(*tree, tree->root(), fmt::format("stock \"{}\"", name), problems);
  reader.read("text", stock.text);
  const Pair paper = read_pair(reader, "paper");
  if (paper.given) {
    stock.paper_width = paper.x;
    stock.paper_height = paper.y;
  } else {
    reader.missing("paper", "paper = [\"210 mm\", \"297 mm\"]");
  }
  read_grid(reader, stock);
  reader.finish();
  add_source_lines(problems, file, std::string(text));
  if (has_errors(problems)) {
    return problems;
  }
  return {std::move(stock), std::move(problems)};
}

}  // namespace loopledger::plan
