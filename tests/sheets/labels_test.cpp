// SPDX-License-Identifier: MIT
#include "sheets/labels.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "page/canvas.h"
#include "sheets/label_grid.h"
#include "support/dump.h"
#include "support/invented_batch.h"
#include "support/page_check.h"
#include "support/plain_metrics.h"
#include "tag/id.h"

namespace {

using namespace loopledger;

std::vector<motor::LabelFigures> figures(int motors) {
  std::vector<motor::LabelFigures> all;
  for (const calc::MotorFigures& motor : test::invented_batch(motors).batch.motors) {
    all.push_back(motor::label_figures(motor));
  }
  return all;
}

sheets::LabelRun run_on(const plan::Stock& stock) {
  sheets::LabelRun run;
  run.stock = stock;
  run.title = "Harbour evening (invented)";
  run.layouts = test::layouts();
  return run;
}

page::Document made(const std::vector<motor::LabelFigures>& all, const sheets::LabelRun& run) {
  Result<page::Document> document = sheets::labels(all, run, test::kPlainMetrics);
  REQUIRE_MESSAGE(document.ok(), render(document.diagnostics()));
  return std::move(document).value();
}

bool has_code(const Diagnostics& all, const std::string& code) {
  return std::any_of(all.begin(), all.end(), [&](const Diagnostic& d) { return d.code == code; });
}

std::vector<page::Item> all_items(const page::Document& document) {
  std::vector<page::Item> all;
  for (const page::Page& page : document.pages) {
    all.insert(all.end(), page.items.begin(), page.items.end());
  }
  return all;
}

/// Indices of the cells that an extent touches.
std::vector<int> cells_of(const sheets::LabelGrid& grid, const test::Extent& e) {
  std::vector<int> touched;
  for (int i = 0; i < grid.per_sheet(); ++i) {
    const sheets::Rect c = grid.cell(i);
    if (test::overlap(e, {c.x, c.y, c.x + c.w, c.y + c.h, ""})) {
      touched.push_back(i);
    }
  }
  return touched;
}

/// A cut line runs along the cells' edges, or stands as a mark outside of the grid.
bool is_for_cutting(const test::Extent& e, const sheets::LabelGrid& grid) {
  const double right = grid.left + grid.columns * grid.pitch_x;
  const double bottom = grid.top + grid.rows * grid.pitch_y;
  return e.x2 - e.x1 + e.y2 - e.y1 > 70 || e.x2 < grid.left || e.x1 > right || e.y2 < grid.top ||
         e.y1 > bottom;
}

TEST_CASE(
    "on every stock all that is printed stays 2 mm inside its label and 5 mm inside the paper") {
  for (const plan::Stock& stock : test::label_stocks()) {
    CAPTURE(stock.name);
    const auto grid = sheets::label_grid(stock);
    REQUIRE(grid.ok());
    const page::Document document = made(figures(24), run_on(stock));
    for (const page::Page& page : document.pages) {
      for (const test::Extent& e : test::extents(page, test::kPlainMetrics)) {
        if (e.what == "line" && grid->cut_lines && is_for_cutting(e, *grid)) {
          CHECK(std::min({e.x1, e.y1, page.width - e.x2, page.height - e.y2}) >= grid->edge - 0.01);
          continue;
        }
        const double edge = grid->edge;
        CAPTURE(e.what);
        const std::vector<int> cells =
            cells_of(*grid, {e.x1 - 0.1, e.y1 - 0.1, e.x2 + 0.1, e.y2 + 0.1, ""});
        REQUIRE(cells.size() == 1);
        const sheets::Rect room = grid->room(cells[0]);
        const sheets::Rect cell = grid->cell(cells[0]);
        CHECK(e.x1 >= std::max(cell.x + 2, edge) - 0.01);
        CHECK(e.y1 >= std::max(cell.y + 2, edge) - 0.01);
        CHECK(e.x2 <= std::min(cell.x + cell.w - 2, page.width - edge) + 0.01);
        // Descenders of the last line may reach over the room, not over the label's clear edge.
        CHECK(e.y2 <= std::min(cell.y + cell.h - 2, page.height - edge) + 0.7);
        CHECK(e.y1 >= room.y - 0.01);
      }
    }
  }
}

TEST_CASE("no two texts of a label lie over each other, nor over the code with its quiet zone") {
  for (const plan::Stock& stock : test::label_stocks()) {
    CAPTURE(stock.name);
    const page::Document document = made(figures(24), run_on(stock));
    CHECK(test::overlapping_texts(document, test::kPlainMetrics) == "");
    for (const page::Page& page : document.pages) {
      for (const page::Item& item : page.items) {
        const auto* qr = std::get_if<page::Qr>(&item);
        if (qr == nullptr) {
          continue;
        }
        const double quiet = 4 * qr->module;
        const double side = qr->module * qr->symbol.modules;
        const test::Extent zone{qr->x - quiet, qr->y - quiet, qr->x + side + quiet,
                                qr->y + side + quiet, ""};
        for (const test::Extent& e : test::text_extents(page, test::kPlainMetrics)) {
          CAPTURE(e.what);
          CHECK_FALSE(test::overlap(e, zone));
        }
      }
    }
  }
}

TEST_CASE("codes are of the sizes that cameras read, and their quiet zone lies inside the label") {
  for (const plan::Stock& stock : test::label_stocks()) {
    CAPTURE(stock.name);
    const auto grid = sheets::label_grid(stock);
    const page::Document document = made(figures(3), run_on(stock));
    int seen = 0;
    for (const page::Item& item : all_items(document)) {
      if (const auto* qr = std::get_if<page::Qr>(&item)) {
        const sheets::Rect cell = grid->cell(seen++ % grid->per_sheet());
        const double quiet = 4 * qr->module;
        const double side = qr->module * qr->symbol.modules;
        CHECK(qr->module >= 0.45);
        CHECK(qr->module <= 0.80);
        CHECK(side <= 22.001);
        CHECK(qr->x + side + quiet <= cell.x + cell.w + 1e-6);
        CHECK(qr->y - quiet >= cell.y - 1e-6);
        CHECK(qr->y + side + quiet <= cell.y + cell.h + 1e-6);
      }
    }
    CHECK(seen == 3);
  }
}

TEST_CASE("every motor's id is on its label, in the order given, and sheets follow each other") {
  const auto all = figures(60);
  const page::Document document = made(all, run_on(test::stock("a4-3x7-63.5x38.1")));
  CHECK(document.pages.size() == 3);
  const std::string text = test::all_text(document);
  std::size_t at = 0;
  for (const motor::LabelFigures& label : all) {
    const std::string id = tag::with_check(label.id);
    CAPTURE(id);
    const std::size_t found = text.find(id, at);
    REQUIRE(found != std::string::npos);
    at = found + 1;
  }
}

TEST_CASE("a part-used sheet is begun at the cell asked for") {
  sheets::LabelRun run = run_on(test::stock("a4-3x8-70x37"));
  run.start = 24;
  const auto grid = sheets::label_grid(run.stock);
  const page::Document document = made(figures(2), run);
  REQUIRE(document.pages.size() == 2);
  const auto qr = [](const page::Page& page) {
    for (const page::Item& item : page.items) {
      if (const auto* found = std::get_if<page::Qr>(&item)) {
        return *found;
      }
    }
    return page::Qr{};
  };
  CHECK(qr(document.pages[0]).x > grid->cell(23).x);
  CHECK(qr(document.pages[0]).y > grid->cell(23).y);
  CHECK(qr(document.pages[1]).y < grid->cell(0).y + 37);

  run.start = 25;
  const auto refused = sheets::labels(figures(2), run, test::kPlainMetrics);
  CHECK_FALSE(refused.ok());
  CHECK(has_code(refused.diagnostics(), "label-start"));
}

TEST_CASE("a slip's washed window is what the scale shows, tails and all") {
  calc::MotorFigures motor = test::invented_batch(1).batch.motors[0];
  const motor::LabelFigures bare = motor::label_figures(motor);
  motor.planned.tails = Length::mm(30);
  const motor::LabelFigures tails = motor::label_figures(motor);
  const Mass on = motor.planned.linear_density.value * motor.planned.tails;
  CHECK((*tails.high - *bare.high).in_mg() == doctest::Approx(on.in_mg()).epsilon(0.03));
  const std::string text = test::all_text(made({tails}, run_on(test::stock("letter-2x5-4x2"))));
  CHECK(text.find(" g washed, tails on · loop 296 mm tied\n") != std::string::npos);
}

TEST_CASE("before break-in a label has blanks for a pen and the estimate with its interval") {
  const std::string text = test::all_text(made(figures(1), run_on(test::stock("letter-2x5-4x2"))));
  CHECK(text.find("EST\n") != std::string::npos);
  CHECK(text.find("wind to\n") != std::string::npos);
  CHECK(text.find("gf·cm\n") != std::string::npos);
  CHECK(text.find("estimate 1140 T; breaks at 1218–1667 (95 %)\n") != std::string::npos);
  CHECK(text.find("1.468–1.471 g washed · loop 296 mm tied\n") != std::string::npos);
  CHECK(text.find("2 × 2.38 mm · lot amber 3/25 · 2026-01-31\n") != std::string::npos);
}

TEST_CASE("after break-in a label says what to wind to, MADE, in the units asked for") {
  auto all = figures(1);
  all[0].state = tag::TagState::made;
  all[0].mass = Mass::g(1.4702);
  all[0].turns = Turns::of(1180);
  all[0].torque = Torque::gf_cm(44);
  all[0].tag.state = tag::TagState::made;
  sheets::LabelRun run = run_on(test::stock("letter-2x5-4x2"));
  run.units = Units::inch;
  const std::string text = test::all_text(made(all, run));
  CHECK(text.find("MADE\n") != std::string::npos);
  CHECK(text.find("wind to 1180 T · 0.611 ozf·in\n") != std::string::npos);
  CHECK(text.find("1.470 g · loop 11.64 in tied\n") != std::string::npos);
  CHECK(text.find("estimate") == std::string::npos);
  all[0].loop_is = LoopIs::broken_in;
  CHECK(test::all_text(made(all, run)).find("loop 11.64 in broken in\n") != std::string::npos);
  all[0].turns_are_best = true;
  CHECK(test::all_text(made(all, run)).find("best 1180 T · 0.611") != std::string::npos);
  all[0].turns = Turns::of(1180.7);  // never up: it may be the limit
  CHECK(test::all_text(made(all, run)).find("best 1180 T · 0.611") != std::string::npos);
}

TEST_CASE("an address in the plan takes the place of the tag's text") {
  sheets::LabelRun run = run_on(test::stock("a4-3x8-70x37"));
  run.link = "https://loops.example/m/{id}";
  const page::Document document = made(figures(1), run);
  CHECK(test::dump(document).find("https://loops.example/m/TH-01-J") != std::string::npos);
}

TEST_CASE("a small label carries the short tag and says which lines it goes without") {
  const auto document =
      sheets::labels(figures(1), run_on(test::stock("a4-5x13-38.1x21.2")), test::kPlainMetrics);
  REQUIRE(document.ok());
  CHECK(test::dump(*document).find("\"TH-01-J 1140T\"") != std::string::npos);
  CHECK(has_code(document.diagnostics(), "label-less"));
}

TEST_CASE("a label without room for a code that cameras read is still printed, with a warning") {
  plan::Stock tiny = test::stock("a4");
  tiny.columns = 8;
  tiny.rows = 20;
  tiny.label_width = tiny.pitch_x = Length::mm(17);
  tiny.label_height = tiny.pitch_y = Length::mm(14);
  tiny.left = tiny.top = Length::mm(8);
  const auto document = sheets::labels(figures(1), run_on(tiny), test::kPlainMetrics);
  REQUIRE_MESSAGE(document.ok(), render(document.diagnostics()));
  CHECK(has_code(document.diagnostics(), "qr-room"));
  CHECK(test::all_text(*document).find("TH-01-J") != std::string::npos);
}

TEST_CASE("plain paper gets labels of 70 x 37 mm with lines to cut along") {
  const auto grid = sheets::label_grid(test::stock("a4"));
  REQUIRE(grid.ok());
  CHECK(grid->columns == 2);
  CHECK(grid->rows == 7);
  CHECK(grid->label_width == 70);
  CHECK(grid->label_height == 37);
  CHECK(grid->cut_lines);
}

TEST_CASE("a label printer's modules are whole dots") {
  int rolls = 0;
  for (const plan::Stock& roll : test::label_stocks()) {
    if (roll.dpi == 0) {
      continue;
    }
    CAPTURE(roll.name);
    ++rolls;
    const page::Document document = made(figures(2), run_on(roll));
    CHECK(document.pages.size() == 2);
    for (const page::Item& item : all_items(document)) {
      if (const auto* qr = std::get_if<page::Qr>(&item)) {
        for (const double mm : {qr->module, qr->x, qr->y}) {
          const double dots = mm / 25.4 * roll.dpi;
          CHECK(dots == doctest::Approx(std::round(dots)));
        }
      }
    }
  }
  CHECK(rolls == 6);
}

TEST_CASE("an id of a few characters is read at one metre on every stock") {
  // 16 minutes of arc are the least for capitals that are to be read with ease: ISO 9241-303, from
  // memory. On the two lowest labels 12 minutes are left: their codes need the rest.
  constexpr double kAtOneMetre = 4.65;
  constexpr double kLowest = 3.4;
  for (const plan::Stock& stock : test::label_stocks()) {
    CAPTURE(stock.name);
    auto two = figures(2);
    two[1].state = tag::TagState::made;
    for (const page::Item& item : all_items(made(two, run_on(stock)))) {
      const auto* text = std::get_if<page::Text>(&item);
      if (text != nullptr &&
          (text->utf8 == tag::with_check(two[0].id) || text->utf8 == tag::with_check(two[1].id))) {
        const double capitals = page::cap_height(text->size_pt);
        const bool low = sheets::label_grid(stock)->label_height < 22;
        CHECK(capitals >= (low ? kLowest : kAtOneMetre) - 1e-6);
      }
    }
  }
}

TEST_CASE("copies of a label stand one behind the other, from the first free cell on") {
  sheets::LabelRun run = run_on(test::stock("a4-5x13-38.1x21.2"));
  run.copies = 3;
  run.start = 64;
  const page::Document document = made(figures(2), run);
  CHECK(document.pages.size() == 2);
  std::vector<std::string> ids;
  for (const page::Item& item : all_items(document)) {
    const auto* text = std::get_if<page::Text>(&item);
    if (text != nullptr && text->utf8.find("-01-") != std::string::npos) {
      ids.push_back(text->utf8);
    }
  }
  const std::string one = tag::with_check(figures(2)[0].id);
  const std::string two = tag::with_check(figures(2)[1].id);
  CHECK(ids == std::vector<std::string>{one, one, one, two, two, two});
}

TEST_CASE("each owner's first label has a bookmark") {
  const page::Document document = made(figures(24), run_on(test::stock("a4-3x7-63.5x38.1")));
  REQUIRE(document.outline.size() == 5);
  CHECK(document.outline[0].title == "Anna");
  CHECK(document.outline[4].title == "Щавель Ёжиков-Журавлёв");
}

TEST_CASE("the same labels twice are the same pages") {
  const sheets::LabelRun run = run_on(test::stock("a4-3x8-70x37"));
  CHECK(test::dump(made(figures(30), run)) == test::dump(made(figures(30), run)));
}

}  // namespace
