// SPDX-License-Identifier: MIT
//
// All that the PDFs draw, against the page model: every line, box, text and code of every sheet on
// every paper and stock of templates/stock. The reader that this rests on is itself held against a
// renderer's account of the same page, and against planted faults.
#include <doctest/doctest.h>

#include <algorithm>

#include <cmath>
#include <sstream>

#include "sheets/break_in_sheet.h"
#include "sheets/cut_sheet.h"
#include "sheets/field_card.h"
#include "sheets/labels.h"
#include "support/invented_batch.h"
#include "support/invented_cards.h"
#include "support/pdf_geometry.h"
#include "support/pdf_tools.h"

namespace {

using namespace loopledger;

constexpr double kAsDrawn = 0.02;  // mm; 0.1 is what is promised

page::Document sheet(bool cut, const std::string& paper, int motors) {
  const test::InventedBatch made = test::invented_batch(motors);
  auto document = (cut ? sheets::cut_sheet : sheets::break_in_sheet)(
      made.plan, made.batch, test::stock(paper), test::metrics(), std::nullopt);
  REQUIRE_MESSAGE(document.ok(), render(document.diagnostics()));
  return std::move(document).value();
}

page::Document labels(const plan::Stock& stock, int motors) {
  std::vector<motor::LabelFigures> figures;
  for (const calc::MotorFigures& motor : test::invented_batch(motors).batch.motors) {
    figures.push_back(motor::label_figures(motor));
  }
  sheets::LabelRun run;
  run.layouts = test::layouts();
  run.stock = stock;
  auto document = sheets::labels(figures, run, test::metrics());
  REQUIRE_MESSAGE(document.ok(), render(document.diagnostics()));
  return std::move(document).value();
}

std::string differences(const page::Document& document, double mm = kAsDrawn) {
  const test::TempFolder folder;
  const std::string path = test::written(document, folder, "a.pdf");
  return test::geometry_differences(document, test::geometry_of(path), test::metrics(), mm);
}

TEST_CASE("cut sheet and break-in sheet are drawn as the page model has them, on every paper") {
  int papers = 0;
  for (const plan::Stock& stock : test::label_stocks()) {
    if (stock.is_labels()) {
      continue;
    }
    CAPTURE(stock.name);
    for (const bool cut : {true, false}) {
      CHECK(differences(sheet(cut, stock.name, 24)) == "");
    }
    ++papers;
  }
  CHECK(papers >= 2);
}

TEST_CASE("labels are drawn as the page model has them, on every stock") {
  for (const plan::Stock& stock : test::label_stocks()) {
    CAPTURE(stock.name);
    CHECK(differences(labels(stock, 30)) == "");
  }
}

TEST_CASE("field cards, curves among them, are drawn as the page model has them") {
  for (const char* paper : {"a4", "letter"}) {
    const auto document =
        sheets::field_cards(test::box_of_cards(8), {}, test::stock(paper), test::metrics());
    REQUIRE_MESSAGE(document.ok(), render(document.diagnostics()));
    CHECK(differences(*document) == "");
    CHECK(std::ranges::any_of(document->pages[1].items, [](const page::Item& item) {
      return std::holds_alternative<page::Polyline>(item);
    }));
  }
}

/// What the comparison says when the model's first thing of a kind is changed after drawing.
template <class Thing, class Change>
std::string seen_after(const page::Document& good, const std::vector<test::DrawnPage>& drawn,
                       const Change& change) {
  page::Document changed = good;
  for (page::Item& item : changed.pages[0].items) {
    if (auto* thing = std::get_if<Thing>(&item)) {
      change(*thing);
      break;
    }
  }
  return test::geometry_differences(changed, drawn, test::metrics(), kAsDrawn);
}

bool says(const std::string& text, const std::string& what) {
  return text.find(what) != std::string::npos;
}

TEST_CASE("the comparison sees each kind of fault") {
  const page::Document good = labels(test::stock("a4"), 2);
  const test::TempFolder folder;
  const auto drawn = test::geometry_of(test::written(good, folder, "a.pdf"));
  using page::Box;
  using page::Line;
  using page::Qr;
  using page::Text;
  CHECK(seen_after<Line>(good, drawn, [](Line&) {}) == "");
  CHECK(says(seen_after<Line>(good, drawn, [](Line& l) { l.x2 += 0.05; }), "x2"));
  CHECK(says(seen_after<Line>(good, drawn, [](Line& l) { l.width += 0.05; }), "line width"));
  CHECK(says(seen_after<Box>(good, drawn, [](Box& b) { b.h += 0.05; }), "bottom"));
  CHECK(says(seen_after<Box>(good, drawn, [](Box& b) { b.fill_grey = 0.5; }), "fill"));
  CHECK(says(seen_after<Text>(good, drawn, [](Text& t) { t.y += 0.05; }), "baseline"));
  CHECK(says(seen_after<Text>(good, drawn, [](Text& t) { t.utf8 += "a"; }), "right"));
  CHECK(says(seen_after<Text>(good, drawn, [](Text& t) { t.face = page::Face::sheet; }), "face"));
  CHECK(says(seen_after<Qr>(good, drawn, [](Qr& q) { q.module += 0.01; }), "right"));
  CHECK(says(seen_after<Qr>(good, drawn, [](Qr& q) { q.symbol.dark[5].flip(); }), "modules"));
  page::Document shorter = good;
  shorter.pages[0].items.pop_back();
  CHECK(test::geometry_differences(shorter, drawn, test::metrics(), kAsDrawn) ==
        "page 1 has 1 things too many\n");
}

TEST_CASE("a character that the face lacks would be seen as an empty box") {
  page::Document document;
  document.pages.emplace_back();
  document.pages[0].items.emplace_back(
      page::Text{.x = 20, .y = 20, .face = page::Face::label, .utf8 = "\u4E00"});
  CHECK(differences(document).find("wrong glyph") != std::string::npos);
}

double attribute(const std::string& line, const std::string& name) {
  const std::size_t at = line.find(" " + name + "=\"");
  REQUIRE(at != std::string::npos);
  return std::stod(line.substr(at + name.size() + 3));
}

/// Beginnings of texts, and corners of lines and boxes in order, as a renderer tells them: points
/// from the page's lower left corner.
std::vector<std::pair<double, double>> told_by_renderer(const std::string& pdf) {
  std::vector<std::pair<double, double>> told;
  std::istringstream lines(test::run_tool("mutool trace " + pdf + " 1").out);
  bool first_letter = false;
  bool symbol = false;
  for (std::string line; std::getline(lines, line);) {
    if (line.find("<span ") != std::string::npos) {
      first_letter = true;
    } else if (line.find("<fill_path") != std::string::npos) {
      symbol = line.find("transform=\"1 0 0 -1 0") == std::string::npos;
    } else if (line.find("<stroke_path") != std::string::npos) {
      symbol = false;
    }
    const bool letter = line.find("<g ") != std::string::npos;
    const bool corner = line.find("to x=") != std::string::npos && !symbol;
    if ((letter && first_letter) || corner) {
      told.emplace_back(attribute(line, "x"), attribute(line, "y"));
      first_letter = first_letter && !letter;
    }
  }
  return told;
}

/// The same from the reader.
std::vector<std::pair<double, double>> told_by_reader(const std::string& pdf) {
  constexpr double kPoints = 72 / 25.4;
  const test::DrawnPage page = test::geometry_of(pdf).at(0);
  std::vector<std::pair<double, double>> told;
  const auto add = [&](double x, double y) {
    told.emplace_back(x * kPoints, (page.height - y) * kPoints);
  };
  for (const test::Drawn& drawn : page.items) {
    if (const auto* text = std::get_if<page::Text>(&drawn.item)) {
      add(text->x, text->y);
    } else if (const auto* line = std::get_if<page::Line>(&drawn.item)) {
      add(line->x1, line->y1);
      add(line->x2, line->y2);
    } else if (const auto* box = std::get_if<page::Box>(&drawn.item)) {
      // Filled and outlined is told twice.
      for (int i = 0; i < (box->fill_grey >= 0 && box->line_width > 0 ? 2 : 1); ++i) {
        add(box->x, box->y + box->h);
        add(box->x + box->w, box->y + box->h);
        add(box->x + box->w, box->y);
        add(box->x, box->y);
      }
    }
  }
  return told;
}

TEST_CASE("the reader of drawing instructions agrees with a renderer, where there is one") {
  if (test::run_tool("command -v mutool").code != 0) {
    MESSAGE("mutool not found: the reader is not held against it");
    return;
  }
  const test::TempFolder folder;
  for (const page::Document& document :
       {sheet(true, "a4", 5), sheet(false, "letter", 5), labels(test::stock("a4"), 5)}) {
    const std::string pdf = test::written(document, folder, "a.pdf");
    const auto wanted = told_by_renderer(pdf);
    const auto seen = told_by_reader(pdf);
    REQUIRE(seen.size() == wanted.size());
    CHECK(seen.size() > 60);
    for (std::size_t i = 0; i < seen.size(); ++i) {
      CAPTURE(i);
      CHECK(std::abs(seen[i].first - wanted[i].first) < 0.02);
      CHECK(std::abs(seen[i].second - wanted[i].second) < 0.02);
    }
  }
}

}  // namespace
