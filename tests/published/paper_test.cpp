// SPDX-License-Identifier: MIT
//
// Paper and label sheets of templates/stock: A4 by ISO 216 (read in secondary pages), Letter
// 8.5 x 11 in; label sheets by their dimensions, from memory, each closing on its sheet.
#include <doctest/doctest.h>

#include <string>

#include "plan/read_stock.h"
#include "support/printed.h"
#include "support/templates.h"

using namespace loopledger;
using test::printed;

namespace {

plan::Stock stock(const std::string& name) {
  auto read = plan::read_stock(test::template_text("stock", name), name + ".toml", name);
  CAPTURE(render(read.diagnostics()));
  REQUIRE(read.ok());
  return *read;
}

}  // namespace

TEST_CASE("paper: A4 by ISO 216 and Letter") {
  CHECK(stock("a4").paper_width.in_mm() == printed("210.000"));
  CHECK(stock("a4").paper_height.in_mm() == printed("297.000"));
  CHECK(stock("letter").paper_width.in_mm() == printed("215.9"));
  CHECK(stock("letter").paper_height.in_mm() == printed("279.4"));
  CHECK(stock("letter").paper_width.in_in() == printed("8.5000"));
  CHECK_FALSE(stock("a4").is_labels());
}

TEST_CASE("label sheets: what is left at the far edges equals the near ones") {
  struct Row {
    const char* name;
    int columns, rows;
    double width, height, pitch_x, pitch_y, left, top;
    bool inches;
  };
  const Row rows[] = {
      {"a4-3x7-63.5x38.1", 3, 7, 63.5, 38.1, 66.0, 38.1, 7.25, 15.15, false},
      {"a4-3x8-70x37", 3, 8, 70, 37, 70, 37, 0, 0.5, false},
      {"a4-2x7-99.1x38.1", 2, 7, 99.1, 38.1, 101.6, 38.1, 4.65, 15.15, false},
      {"a4-5x13-38.1x21.2", 5, 13, 38.1, 21.2, 40.6, 21.2, 4.75, 10.7, false},
      {"letter-3x10-2.625x1", 3, 10, 2.625, 1, 2.75, 1, 0.1875, 0.5, true},
      {"letter-2x5-4x2", 2, 5, 4, 2, 4.1875, 2, 0.15625, 0.5, true},
  };
  for (const Row& row : rows) {
    CAPTURE(row.name);
    const plan::Stock s = stock(row.name);
    const auto measure = [&](double v) { return row.inches ? Length::in(v) : Length::mm(v); };
    const auto same = [](Length a, Length b) { return a.in_mm() == doctest::Approx(b.in_mm()); };
    CHECK(s.columns == row.columns);
    CHECK(s.rows == row.rows);
    CHECK(same(s.label_width, measure(row.width)));
    CHECK(same(s.label_height, measure(row.height)));
    CHECK(same(s.pitch_x, measure(row.pitch_x)));
    CHECK(same(s.pitch_y, measure(row.pitch_y)));
    CHECK(same(s.left, measure(row.left)));
    CHECK(same(s.top, measure(row.top)));
    // The sheet closes: the far margins are the near ones.
    CHECK(same(s.left * 2 + s.pitch_x * (row.columns - 1) + s.label_width, s.paper_width));
    CHECK(same(s.top * 2 + s.pitch_y * (row.rows - 1) + s.label_height, s.paper_height));
  }
}
