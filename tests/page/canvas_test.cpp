// SPDX-License-Identifier: MIT
#include "page/canvas.h"

#include <doctest/doctest.h>

#include "support/plain_metrics.h"

namespace {

using namespace loopledger;

struct Drawing {
  test::PlainMetrics metrics;
  Diagnostics warnings;
  page::Page page;
  page::Canvas canvas{metrics, warnings};
  Drawing() {
    canvas.turn_to(page);
    canvas.set_place("the label of TH-01-J");
  }
  [[nodiscard]] const page::Text& text(std::size_t i) const {
    return std::get<page::Text>(page.items.at(i));
  }
};

TEST_CASE(
    "a character that the fonts lack is replaced, with one warning that names it and the place") {
  Drawing drawing;
  drawing.canvas.text(0, 0, "Lumi ☃", {});
  drawing.canvas.text(0, 9, "Lumi ☃", {});
  CHECK(drawing.text(0).utf8 == "Lumi ?");
  REQUIRE(drawing.warnings.size() == 1);
  CHECK(drawing.warnings[0].code == "page-glyph");
  CHECK(drawing.warnings[0].message ==
        "the label of TH-01-J: the fonts can't show “☃” (U+2603), “?” is printed instead");
}

TEST_CASE(
    "one warning of a thing names all the places where it is, from the sixth on their number") {
  Drawing drawing;
  for (int i = 1; i <= 7; ++i) {
    drawing.canvas.set_place("label " + std::to_string(i));
    drawing.canvas.text(0, 0, "☃", {});
    drawing.canvas.text(0, 9, "☃", {});
    drawing.canvas.fit(0, 0, 8, "far too long for that", {.size_pt = 7, .smallest_pt = 7});
    REQUIRE(drawing.warnings.size() == 2);
    if (i == 2) {
      CHECK(drawing.warnings[0].message.starts_with("label 1, label 2: the fonts can't"));
    }
  }
  CHECK(drawing.warnings[0].message.starts_with(
      "label 1, label 2, label 3, label 4, label 5 and 2 more: the fonts can't show “☃” (U+2603)"));
  CHECK(drawing.warnings[1].message.starts_with(
      "label 1, label 2, label 3, label 4, label 5 and 2 more: “far too long for that” is too "
      "long"));
}

TEST_CASE("lines to be set one by one are measured as they will be printed") {
  Drawing drawing;
  const double width = 5.2 * 0.5 * 10 * 25.4 / 72;
  CHECK(drawing.canvas.lines_of(width, "e\u0301e\u0301 o\u0301o\u0301", {.size_pt = 10}) ==
        std::vector<std::string>{"éé óó"});
}

TEST_CASE("controls never reach the page") {
  Drawing drawing;
  drawing.canvas.text(0, 0, "a\tb\nc\x1b[2Jd\u202Ee", {});
  CHECK(drawing.text(0).utf8 == "a b c [2Jde");
  CHECK(drawing.warnings.empty());
}

TEST_CASE("text that is cut is warned of with what it was and what is left") {
  Drawing drawing;
  const double width = 8 * 0.5 * 7 * 25.4 / 72;
  drawing.canvas.fit(0, 0, width, "a very long purpose", {.size_pt = 7, .smallest_pt = 7});
  CHECK(drawing.text(0).utf8 == "a very…");
  REQUIRE(drawing.warnings.size() == 1);
  CHECK(drawing.warnings[0].code == "page-cut");
  CHECK(drawing.warnings[0].message ==
        "the label of TH-01-J: “a very long purpose” is too long and was cut to “a very…”");
}

TEST_CASE("measuring warns of nothing") {
  Drawing drawing;
  (void)drawing.canvas.height_of(3, "a very long purpose ☃", {.size_pt = 7, .smallest_pt = 7});
  (void)drawing.canvas.width_of("☃", {});
  CHECK(drawing.warnings.empty());
}

TEST_CASE("text set in a box stands in its middle by the capitals") {
  Drawing drawing;
  drawing.canvas.fit_in({.x = 10, .y = 20, .w = 40, .h = 8}, "TH",
                        {.size_pt = 10, .align = page::Align::centre});
  CHECK(drawing.text(0).x == doctest::Approx(30));
  CHECK(drawing.text(0).y - page::cap_height(10) / 2 == doctest::Approx(24));
}

}  // namespace
