// SPDX-License-Identifier: MIT
#include "page/text_fit.h"

#include <doctest/doctest.h>

#include "base/text.h"
#include "support/plain_metrics.h"

namespace {

using namespace loopledger;
using page::fit_text;

/// Millimetres that `count` characters take at `size`.
double room_for(int count, double size) { return count * 0.5 * size * 25.4 / 72; }

TEST_CASE("text that fits keeps its size") {
  const auto fitted = fit_text("abcd", room_for(4, 10), {.size_pt = 10}, test::kPlainMetrics);
  CHECK(fitted.size_pt == 10);
  CHECK(fitted.lines == std::vector<std::string>{"abcd"});
  CHECK_FALSE(fitted.cut);
}

TEST_CASE("text that is too wide shrinks before it wraps") {
  const auto fitted =
      fit_text("ab cd ef", room_for(8, 8.1), {.size_pt = 10, .max_lines = 3}, test::kPlainMetrics);
  CHECK(fitted.size_pt == 8);
  CHECK(fitted.lines.size() == 1);
}

TEST_CASE("text that may shrink no more wraps at spaces") {
  const auto fitted =
      fit_text("abc def ghi", room_for(7, 7), {.size_pt = 10, .smallest_pt = 7, .max_lines = 2},
               test::kPlainMetrics);
  CHECK(fitted.size_pt == 7);
  CHECK(fitted.lines == std::vector<std::string>{"abc def", "ghi"});
  CHECK_FALSE(fitted.cut);
}

TEST_CASE("text that fits in no allowed way ends in an ellipsis and says so") {
  const auto fitted =
      fit_text("abc def ghi jkl", room_for(7, 7), {.size_pt = 10, .smallest_pt = 7, .max_lines = 1},
               test::kPlainMetrics);
  CHECK(fitted.lines == std::vector<std::string>{"abc de…"});
  CHECK(fitted.cut);
}

TEST_CASE("a number is not parted from its unit") {
  CHECK(page::wrap("guard 9.89 mg, tied", room_for(12, 10), page::Face::sheet, 10,
                   test::kPlainMetrics) == std::vector<std::string>{"guard", "9.89 mg,", "tied"});
  CHECK(page::wrap("pay 9 men", room_for(5, 10), page::Face::sheet, 10, test::kPlainMetrics) ==
        std::vector<std::string>{"pay 9", "men"});
}

TEST_CASE("a word wider than the line is broken, between letters and never inside one") {
  const auto lines =
      page::wrap("Žluťoučkýkůň", room_for(5, 10), page::Face::sheet, 10, test::kPlainMetrics);
  CHECK(lines == std::vector<std::string>{"Žluťo", "učkýk", "ůň"});
}

TEST_CASE("a letter is never parted from its marks, nor what a joiner joins") {
  // Marks count as wide as letters here: five fit, which would part the third letter.
  CHECK(page::wrap("x\u0331x\u0331x\u0331x\u0331", room_for(5, 10), page::Face::sheet, 10,
                   test::kPlainMetrics) ==
        std::vector<std::string>{"x\u0331x\u0331", "x\u0331x\u0331"});
  const auto cut = fit_text("ax\u0331\u0301bcdef", room_for(4, 7), {.size_pt = 7, .smallest_pt = 7},
                            test::kPlainMetrics);
  CHECK(cut.lines == std::vector<std::string>{"a…"});
  CHECK(page::wrap("a\u200Db\u200Dcd", room_for(3, 10), page::Face::sheet, 10,
                   test::kPlainMetrics)[0] == "a\u200Db\u200Dc");
}

TEST_CASE("whatever the width, an ellipsis stands after whole characters") {
  const std::string text = "Żółć Ψαρο Щавель e\u0301o\u0308 ½×";
  for (double width = 0.1; width < 40; width += 0.3) {
    const auto fitted = fit_text(text, width, {.size_pt = 7, .smallest_pt = 7, .max_lines = 2},
                                 test::kPlainMetrics);
    for (const std::string& line : fitted.lines) {
      CAPTURE(line);
      CHECK_FALSE(first_bad_utf8(line).has_value());
      CHECK_FALSE(line.starts_with("\u0301"));
      CHECK(line.find("e…") == std::string::npos);
      CHECK(line.find("o…") == std::string::npos);
    }
  }
}

TEST_CASE("a no-break space holds its words together") {
  CHECK(page::wrap("about 95\u00a0% of it", room_for(9, 10), page::Face::sheet, 10,
                   test::kPlainMetrics) == std::vector<std::string>{"about", "95\u00a0% of", "it"});
}

TEST_CASE("a room too small for one letter still ends") {
  CHECK(page::wrap("abc", 0.1, page::Face::sheet, 10, test::kPlainMetrics).size() == 3);
  CHECK(fit_text("abc", 0.1, {.size_pt = 10, .smallest_pt = 7}, test::kPlainMetrics).cut);
}

TEST_CASE("empty text is one empty line when fitted and none when wrapped") {
  CHECK(fit_text("", 10, {}, test::kPlainMetrics).lines == std::vector<std::string>{""});
  CHECK(page::wrap("  ", 10, page::Face::sheet, 10, test::kPlainMetrics).empty());
}

}  // namespace
