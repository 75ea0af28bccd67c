// SPDX-License-Identifier: MIT
//
// Labels of motors drawn at random, with texts up to what a plan may say, on every stock: nothing
// over anything else or over a code's quiet zone, nothing out of its label, the id always there.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <random>

#include "base/text.h"
#include "sheets/label_grid.h"
#include "sheets/labels.h"
#include "support/invented_batch.h"
#include "support/page_check.h"
#include "support/plain_metrics.h"
#include "tag/id.h"

namespace {

using namespace loopledger;

constexpr std::array kTongues{
    "Zażółć gęślą jaźń, latarnia morska i przystań ",
    "Příliš žluťoučký kůň úpěl ďábelské ódy v přístavu ",
    "Ξεσκεπάζω την ψυχοφθόρα βδελυγμία του φάρου ",
    "Съешь же ещё этих мягких французских булок у маяка ",
    "WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW",
};

class LabelDraw {
 public:
  explicit LabelDraw(unsigned seed) : random_(seed) {}

  int number(int from, int to) {
    return from + static_cast<int>(random_() % static_cast<unsigned>(to - from + 1));
  }
  bool chance(int percent) { return number(1, 100) <= percent; }

  std::string text(std::size_t most) {
    const auto length = chance(25) ? most : static_cast<std::size_t>(number(1, 16));
    std::vector<char32_t> points;
    while (points.size() < length) {
      for (const char32_t c : code_points(kTongues[static_cast<std::size_t>(number(0, 4))])) {
        points.push_back(c);
      }
    }
    points.resize(length);
    return to_utf8(points);
  }

  motor::LabelFigures label() {
    motor::LabelFigures label =
        motor::label_figures(test::invented_batch(number(1, 5)).batch.motors.back());
    std::string stem;
    for (int i = number(1, 8); i > 0; --i) {
      stem += chance(30) ? 'W' : static_cast<char>('A' + number(0, 25));
    }
    label.id = {stem, chance(30) ? number(100, 999) : number(1, 99)};
    label.tag.id = label.id;
    label.purpose = chance(20) ? "" : text(200);
    label.owner = chance(20) ? "" : text(60);
    label.lot = chance(30) ? "" : text(60);
    label.strands = 2 * number(1, 50);
    if (chance(50)) {
      make(label);
    }
    return label;
  }

 private:
  void make(motor::LabelFigures& label) {
    label.state = tag::TagState::made;
    label.tag.state = tag::TagState::made;
    label.mass = Mass::g(number(1, 99999) / 1000.0);
    label.loop = Length::mm(number(30, 2000));
    label.loop_is = chance(50) ? LoopIs::broken_in : LoopIs::tied;
    if (chance(80)) {
      label.turns = Turns::of(number(1, 20000));
      label.turns_are_best = chance(50);
    }
    if (chance(60)) {
      label.torque = Torque::gf_cm(number(1, 99999) / 10.0);
    }
    label.tag.turns = label.turns;
    label.tag.torque = label.torque;
    label.tag.mass = label.mass;
    label.tag.loop = label.loop;
  }

  std::mt19937 random_;
};

sheets::LabelRun drawn_run(const plan::Stock& stock, LabelDraw& draw) {
  sheets::LabelRun run;
  run.stock = stock;
  run.layouts = test::layouts();
  run.units = draw.chance(50) ? Units::inch : Units::metric;
  run.start = draw.number(1, stock.is_labels() ? stock.per_sheet() : 14);
  run.link = draw.chance(20) ? "https://loops.example/m/{id}" : "";
  return run;
}

/// What of a page stands outside of all labels' rooms, or in a code's quiet zone; empty if none.
std::string misplaced(const page::Page& page, const sheets::LabelGrid& grid) {
  std::vector<test::Extent> zones;
  for (const page::Item& item : page.items) {
    if (const auto* qr = std::get_if<page::Qr>(&item)) {
      const double quiet = 4 * qr->module;
      const double side = qr->module * qr->symbol.modules;
      zones.push_back(
          {qr->x - quiet, qr->y - quiet, qr->x + side + quiet, qr->y + side + quiet, ""});
    }
  }
  constexpr double kDescenders = 0.7;  // of the last line, into the label's clear edge
  for (const test::Extent& e : test::text_extents(page, test::kPlainMetrics)) {
    bool inside = false;
    for (int i = 0; i < grid.per_sheet() && !inside; ++i) {
      const sheets::Rect room = grid.room(i);
      inside = e.x1 >= room.x - 0.01 && e.x2 <= room.x + room.w + 0.01 && e.y1 >= room.y - 0.01 &&
               e.y2 <= room.y + room.h + kDescenders;
    }
    const bool on_code = std::any_of(zones.begin(), zones.end(),
                                     [&](const auto& zone) { return test::overlap(e, zone); });
    if (!inside || on_code) {
      return e.what;
    }
  }
  return {};
}

TEST_CASE("labels drawn at random keep their texts apart and inside, on every stock") {
  unsigned seed = 1;
  for (const plan::Stock& stock : test::label_stocks()) {
    CAPTURE(stock.name);
    LabelDraw draw(seed++);
    const auto grid = sheets::label_grid(stock);
    REQUIRE(grid.ok());
    std::vector<motor::LabelFigures> labels;
    for (int i = 0; i < 40; ++i) {
      labels.push_back(draw.label());
    }
    const auto document = sheets::labels(labels, drawn_run(stock, draw), test::kPlainMetrics);
    REQUIRE_MESSAGE(document.ok(), render(document.diagnostics()));
    CHECK(test::overlapping_texts(*document, test::kPlainMetrics) == "");
    const std::string text = test::all_text(*document);
    for (const motor::LabelFigures& label : labels) {
      CHECK(text.find(tag::with_check(label.id)) != std::string::npos);
    }
    for (const page::Page& page : document->pages) {
      CHECK(misplaced(page, *grid) == "");
    }
  }
}

}  // namespace
