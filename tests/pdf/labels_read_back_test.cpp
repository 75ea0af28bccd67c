// SPDX-License-Identifier: MIT
//
// Labels as PDF, read back: in their cells to 0.1 mm, and with codes that a reader of other make
// reads from the rasterised page.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

#include "sheets/label_grid.h"
#include "sheets/labels.h"
#include "support/invented_batch.h"
#include "support/page_check.h"
#include "support/pdf_tools.h"
#include "support/sanitized.h"
#include "tag/id.h"

namespace {

using namespace loopledger;

constexpr double kTrue = 0.1;  // mm

std::vector<motor::LabelFigures> figures(int motors) {
  std::vector<motor::LabelFigures> all;
  for (const calc::MotorFigures& motor : test::invented_batch(motors).batch.motors) {
    all.push_back(motor::label_figures(motor));
  }
  return all;
}

page::Document labels_on(const plan::Stock& stock, int motors) {
  sheets::LabelRun run;
  run.layouts = test::layouts();
  run.stock = stock;
  run.title = "Harbour evening (invented)";
  auto document = sheets::labels(figures(motors), run, test::metrics());
  REQUIRE_MESSAGE(document.ok(), render(document.diagnostics()));
  return std::move(document).value();
}

TEST_CASE("on every stock ids and codes stand in their labels' cells, to 0.1 mm, 2 mm clear") {
  const test::TempFolder folder;
  for (const plan::Stock& stock : test::label_stocks()) {
    CAPTURE(stock.name);
    const auto grid = sheets::label_grid(stock);
    REQUIRE(grid.ok());
    const int motors = std::min(grid->per_sheet(), 24);
    const std::string path = test::written(labels_on(stock, motors), folder, "labels.pdf");
    const std::vector<test::SeenSymbol> symbols = test::symbols_of(path);
    const std::vector<test::SeenWord> words = test::words_of(path);
    const auto all = figures(motors);
    REQUIRE(symbols.size() == all.size());
    for (int i = 0; i < motors; ++i) {
      // The cell by the stock's own numbers, not by the layout's.
      const bool plain = !stock.is_labels();
      const double left = plain ? (stock.paper_width.in_mm() - 140) / 2 : stock.left.in_mm();
      const double top = plain ? (stock.paper_height.in_mm() - 7 * 37) / 2 : stock.top.in_mm();
      const int columns = plain ? 2 : stock.columns;
      const double pitch_x = plain ? 70 : stock.pitch_x.in_mm();
      const double pitch_y = plain ? 37 : stock.pitch_y.in_mm();
      const double x1 = left + i % columns * pitch_x;
      const double y1 = top + i / columns * pitch_y;
      const double x2 = x1 + (plain ? 70 : stock.label_width.in_mm());
      const double y2 = y1 + (plain ? 37 : stock.label_height.in_mm());
      const std::string id = tag::with_check(all[static_cast<std::size_t>(i)].id);
      CAPTURE(id);
      const auto word = std::find_if(words.begin(), words.end(),
                                     [&](const test::SeenWord& w) { return w.text == id; });
      REQUIRE(word != words.end());
      CHECK(word->x1 >= x1 + 2 - kTrue);
      CHECK(word->x2 <= x2 - 2 + kTrue);
      CHECK(word->y1 >= y1);
      CHECK(word->y2 <= y2 - 2);
      const test::SeenSymbol& symbol = symbols[static_cast<std::size_t>(i)];
      CHECK(symbol.x >= x1 + 2 - kTrue);
      CHECK(symbol.y >= y1 + 2 - kTrue);
      const double side = symbol.module * 21;  // at least
      CHECK(symbol.x + side <= x2 - 2 + kTrue);
      CHECK(symbol.y + side <= y2 - 2 + kTrue);
      // Where the paper's edge does not push it aside, every label is the first one moved by whole
      // pitches.
      const bool inner = x1 >= 3 && y1 >= 3 && x2 <= stock.paper_width.in_mm() - 3 &&
                         y2 <= stock.paper_height.in_mm() - 3;
      if (inner) {
        const sheets::Rect room = grid->room(i);
        CHECK(std::abs(word->x1 - room.x) < kTrue);
        CHECK(std::abs((x1 + x2) / 2 - (room.x + room.w / 2)) < kTrue);
        CHECK(std::abs((y1 + y2) / 2 - (room.y + room.h / 2)) < kTrue);
      }
    }
  }
}

TEST_CASE("codes are drawn where the page model has them, modules of its size") {
  const test::TempFolder folder;
  for (const plan::Stock& stock : test::label_stocks()) {
    CAPTURE(stock.name);
    const page::Document document = labels_on(stock, test::cases(60, 15));
    std::vector<test::SeenSymbol> wanted;
    for (std::size_t p = 0; p < document.pages.size(); ++p) {
      for (const page::Item& item : document.pages[p].items) {
        if (const auto* qr = std::get_if<page::Qr>(&item)) {
          wanted.push_back({.page = p, .x = qr->x, .y = qr->y, .module = qr->module});
        }
      }
    }
    const auto seen = test::symbols_of(test::written(document, folder, "labels.pdf"));
    REQUIRE(seen.size() == wanted.size());
    for (std::size_t i = 0; i < seen.size(); ++i) {
      CHECK(seen[i].page == wanted[i].page);
      CHECK(std::abs(seen[i].x - wanted[i].x) < 0.01);
      CHECK(std::abs(seen[i].y - wanted[i].y) < 0.01);
      CHECK(std::abs(seen[i].module - wanted[i].module) < 0.0001);
    }
  }
}

/// A label's place in a document, and what its code is to say.
struct PrintedCode {
  std::size_t page = 0;  ///< from 1
  sheets::Rect cell;
  double module = 0;
  std::string text;
};

std::vector<PrintedCode> codes_in(const page::Document& document, const sheets::LabelGrid& grid) {
  std::vector<PrintedCode> codes;
  for (std::size_t p = 0; p < document.pages.size(); ++p) {
    int cell = 0;
    for (const page::Item& item : document.pages[p].items) {
      if (const auto* qr = std::get_if<page::Qr>(&item)) {
        codes.push_back({p + 1, grid.cell(cell++), qr->module, qr->text});
      }
    }
  }
  return codes;
}

/// Reads one label at all resolutions that its modules are large enough for.
void check_readable(const std::string& pdf, const PrintedCode& code, const std::string& stock,
                    const test::TempFolder& folder) {
  constexpr double kModuleAt150 = 0.45;  // mm: 2.7 pixels
  std::vector<std::string> pictures;
  for (const int dpi : {150, 200, 300, 600}) {
    if (dpi > 150 || code.module >= kModuleAt150 - 1e-9) {
      pictures.push_back(
          test::picture_of(pdf, code.page, code.cell, dpi, folder, "at" + std::to_string(dpi)));
    }
  }
  CHECK(pictures.size() >= 3);
  const auto by_zbar = test::codes_by_zbar(pictures);
  for (std::size_t i = 0; i < pictures.size(); ++i) {
    const std::string what =
        fmt::format("{} {}, modules of {:.3f} mm, {}: zbarimg reads “{}”", stock, code.text,
                    code.module, pictures[i], fmt::join(by_zbar[i], ", "));
    CAPTURE(what);
    CHECK(by_zbar[i] == std::vector<std::string>{code.text});
    CHECK(test::codes_by_zxing(pictures[i]) == std::vector<std::string>{code.text});
  }
}

// A first, a middle and a last label of a sheet; with LOOPLEDGER_ALL_LABELS set, each of them. What
// reads them is no program of ours: under sanitizers the middle one is enough.
TEST_CASE("two makers' readers read each printed label, cut out, from 150 dpi up, on every stock") {
  const test::TempFolder folder;
  for (const plan::Stock& stock : test::label_stocks()) {
    const auto grid = sheets::label_grid(stock);
    REQUIRE(grid.ok());
    const page::Document document = labels_on(stock, std::max(grid->per_sheet(), 3));
    const std::string path = test::written(document, folder, "labels.pdf");
    CHECK(test::run_tool("qpdf --check " + path).code == 0);
    const std::vector<PrintedCode> all = codes_in(document, *grid);
    REQUIRE(all.size() >= 3);
    const bool each = std::getenv("LOOPLEDGER_ALL_LABELS") != nullptr;
    for (std::size_t i = 0; i < all.size(); ++i) {
      if (each || i == all.size() / 2 || (!test::kSanitized && (i == 0 || i + 1 == all.size()))) {
        check_readable(path, all[i], stock.name, folder);
      }
    }
  }
}

TEST_CASE("the same labels twice are the same file") {
  const page::Document document = labels_on(test::stock("a4-3x8-70x37"), 60);
  const test::TempFolder folder;
  const test::TempFolder again;
  const std::string one = test::written(document, folder, "labels.pdf");
  const std::string two = test::written(document, again, "labels.pdf");
  CHECK(test::run_tool("cmp " + one + " " + two).code == 0);
}

}  // namespace
