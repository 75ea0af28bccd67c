// SPDX-License-Identifier: MIT
#include "sheets/test_page.h"

#include <doctest/doctest.h>

#include <cmath>

#include "page/print_correction.h"
#include "sheets/label_grid.h"
#include "support/invented_batch.h"
#include "support/page_check.h"
#include "support/plain_metrics.h"

namespace {

using namespace loopledger;

page::Document test_page_of(const plan::Stock& stock, const std::string& corrected = {}) {
  auto document = sheets::test_page({.stock = stock,
                                     .printer_file = "settings/printer.toml",
                                     .corrected = corrected,
                                     .created = std::nullopt},
                                    test::kPlainMetrics);
  REQUIRE_MESSAGE(document.ok(), render(document.diagnostics()));
  CHECK(document.diagnostics().empty());
  return std::move(document).value();
}

TEST_CASE("a test page has each label's outline in its cell and a number for --start") {
  for (const plan::Stock& stock : test::label_stocks()) {
    CAPTURE(stock.name);
    const auto grid = sheets::label_grid(stock);
    const page::Document document = test_page_of(stock);
    REQUIRE(document.pages.size() == 1);
    const std::string text = test::all_text(document);
    int cell = 0;
    for (const page::Item& item : document.pages[0].items) {
      const auto* box = std::get_if<page::Box>(&item);
      if (box == nullptr || cell >= grid->per_sheet()) {
        continue;
      }
      const sheets::Rect wanted = grid->cell(cell++);
      CHECK(box->x == doctest::Approx(wanted.x));
      CHECK(box->y == doctest::Approx(wanted.y));
      CHECK(box->w == doctest::Approx(wanted.w));
      CHECK(box->h == doctest::Approx(wanted.h));
      CHECK(text.find(std::to_string(cell) + "\n") != std::string::npos);
    }
    CHECK(cell == grid->per_sheet());
  }
}

TEST_CASE("both bars of a sheet are 100 mm, on a roll as long as there is room") {
  for (const plan::Stock& stock : test::label_stocks()) {
    CAPTURE(stock.name);
    const bool roll = stock.dpi > 0;
    double across = 0;
    double down = 0;
    const page::Document document = test_page_of(stock);
    for (const page::Item& item : document.pages[0].items) {
      if (const auto* line = std::get_if<page::Line>(&item)) {
        const double length = std::hypot(line->x2 - line->x1, line->y2 - line->y1);
        for (const double bar : {100.0, 50.0, 20.0, 10.0}) {
          if (std::abs(length - bar) < 1e-9) {
            (line->y1 == line->y2 ? across : down) = bar;
          }
        }
      }
    }
    const double on_roll = stock.paper_width > Length::mm(45) ? 20 : 10;
    CHECK(across == (roll ? on_roll : 100));
    CHECK(down == (roll ? 0 : 100));
  }
}

TEST_CASE("a sheet says where to write what was measured, and what is corrected already") {
  const plan::Stock stock = test::stock("a4-3x8-70x37");
  std::string text = test::all_text(test_page_of(stock));
  CHECK(text.find("settings/printer.toml") != std::string::npos);
  CHECK(text.find("[stock.\"a4-3x8-70x37\"]") != std::string::npos);
  CHECK(text.find("Nothing is corrected") != std::string::npos);
  text = test::all_text(test_page_of(stock, "moved 0.6 mm left"));
  CHECK(text.find("corrected already: moved 0.6 mm left") != std::string::npos);
}

TEST_CASE("what was measured is made up for: a print that misses by it comes out true") {
  plan::PrinterMiss miss;
  miss.right = Length::mm(0.6);
  miss.down = Length::mm(-0.3);
  miss.bar_across = Length::mm(99.6);
  miss.bar_down = Length::mm(100.2);
  const page::PrintCorrection correction = page::print_correction(miss, 0);
  for (const double x : {0.0, 70.0, 200.0}) {
    CHECK((correction.sx * x + correction.dx) * 0.996 + 0.6 == doctest::Approx(x));
    CHECK((correction.sy * x + correction.dy) * 1.002 - 0.3 == doctest::Approx(x));
  }
  CHECK(page::described(correction) ==
        "moved 0.6 mm left and 0.3 mm down, scaled by 1.0040 across, scaled by 0.9980 down");
  CHECK(page::described(page::print_correction({}, 0)).empty());
}

TEST_CASE("on a label printer the shift is whole dots and nothing is stretched") {
  plan::PrinterMiss miss;
  miss.right = Length::mm(0.6);
  miss.bar_across = Length::mm(99);
  const page::PrintCorrection correction = page::print_correction(miss, 203);
  CHECK(correction.sx == 1);
  CHECK(correction.dx / 25.4 * 203 == doctest::Approx(-5));
}

}  // namespace
