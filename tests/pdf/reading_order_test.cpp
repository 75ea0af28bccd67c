// SPDX-License-Identifier: MIT
//
// Searching, copying and finding one's way in the PDFs: text in the order a person reads, in every
// language of the fonts, and bookmarks that lead where they say.
#include <doctest/doctest.h>

#include <algorithm>
#include <sstream>

#include "base/text.h"
#include "sheets/break_in_sheet.h"
#include "sheets/cut_sheet.h"
#include "sheets/labels.h"
#include "support/invented_batch.h"
#include "support/page_check.h"
#include "support/pdf_tools.h"
#include "tag/id.h"

namespace {

using namespace loopledger;

page::Document sheet_of(const test::InventedBatch& made, bool cut,
                        const std::string& paper = "a4") {
  auto document = (cut ? sheets::cut_sheet : sheets::break_in_sheet)(
      made.plan, made.batch, test::stock(paper), test::metrics(), std::nullopt);
  REQUIRE_MESSAGE(document.ok(), render(document.diagnostics()));
  return std::move(document).value();
}

page::Document labels_of(const test::InventedBatch& made, const std::string& stock) {
  std::vector<motor::LabelFigures> figures;
  for (const calc::MotorFigures& motor : made.batch.motors) {
    figures.push_back(motor::label_figures(motor));
  }
  sheets::LabelRun run;
  run.layouts = test::layouts();
  run.stock = test::stock(stock);
  run.title = "Harbour evening (invented)";
  auto document = sheets::labels(figures, run, test::metrics());
  REQUIRE_MESSAGE(document.ok(), render(document.diagnostics()));
  return std::move(document).value();
}

/// As `pdftotext -raw` gives it: in the order of the drawing. No reader may complain.
std::string raw_text(const page::Document& document) {
  const test::TempFolder folder;
  const test::Ran read =
      test::run_tool("pdftotext -raw " + test::written(document, folder, "a.pdf") + " -");
  CHECK(read.code == 0);
  CHECK(read.err == "");
  return read.out;
}

std::string without_spaces(std::string text) {
  text.erase(std::remove_if(text.begin(), text.end(),
                            [](char c) { return c == ' ' || c == '\n' || c == '\f'; }),
             text.end());
  for (std::size_t at = 0; (at = text.find("\u00a0", at)) != std::string::npos;) {
    text.erase(at, 2);
  }
  return text;
}

/// The parts stand in the text in this order; else the first that does not.
std::string out_of_order(const std::string& text, const std::vector<std::string>& parts) {
  std::size_t at = 0;
  for (const std::string& part : parts) {
    const std::size_t found = text.find(part, at);
    if (found == std::string::npos) {
      return part;
    }
    at = found + part.size();
  }
  return {};
}

TEST_CASE("text is extracted as the page model has it, whole and in its order") {
  const test::InventedBatch made = test::invented_batch(24);
  for (const page::Document& document :
       {sheet_of(made, true), sheet_of(made, false, "letter"), labels_of(made, "a4"),
        labels_of(made, "letter-3x10-2.625x1")}) {
    CHECK(without_spaces(raw_text(document)) == without_spaces(test::all_text(document)));
  }
}

TEST_CASE("a cut sheet reads from head to foot, part by part, a motor's row in one run") {
  const test::InventedBatch made = test::invented_batch(10);
  const std::string text = raw_text(sheet_of(made, true));
  std::vector<std::string> parts{"CUT SHEET",    made.plan.title,      "2026-01-31", "Fetch",
                                 "Check weight", "Cut, in this order", "1. piece"};
  for (const calc::MotorFigures& motor : made.batch.motors) {
    parts.push_back(tag::with_check(motor.id));
    parts.emplace_back("at least 1.");  // as cut
    parts.emplace_back("1.468–1.471");  // washed
    parts.emplace_back("1.481–1.484");  // tied
    parts.emplace_back("1.499–1.502");  // finished
  }
  parts.emplace_back("Mass budget");
  parts.emplace_back("check: 100 mm long");
  CHECK(out_of_order(text, parts) == "");
}

TEST_CASE("a break-in sheet reads owner by owner: what to do, then each motor's blanks") {
  const test::InventedBatch made = test::invented_batch(10);
  const std::string text = raw_text(sheet_of(made, false));
  std::vector<std::string> parts{"BREAK-IN SHEET", made.plan.title, "2026-01-31",
                                 "Blanks of a step"};
  std::string owner;
  for (const calc::MotorFigures& motor : made.batch.motors) {
    if (owner != motor.planned.owner) {
      owner = motor.planned.owner;
      parts.insert(parts.end(), {owner + ": ", "recipe", "estimate", "step"});
    }
    parts.insert(parts.end(), {tag::with_check(motor.id), "loop before", "next day", "at"});
  }
  CHECK(out_of_order(text, parts) == "");
}

TEST_CASE("labels read one after the other, each label's lines together") {
  const test::InventedBatch made = test::invented_batch(9);
  for (const char* stock : {"a4-3x8-70x37", "a4", "letter-2x5-4x2"}) {
    std::istringstream lines(raw_text(labels_of(made, stock)));
    std::vector<std::string> blocks;  // a label's lines; it begins with its id
    for (std::string line; std::getline(lines, line);) {
      const bool begins = std::any_of(
          made.batch.motors.begin(), made.batch.motors.end(),
          [&](const auto& motor) { return line.starts_with(tag::with_check(motor.id)); });
      if (begins || blocks.empty()) {
        blocks.emplace_back();
      }
      blocks.back() += line + "\n";
    }
    CAPTURE(stock);
    REQUIRE(blocks.size() == made.batch.motors.size());
    for (std::size_t i = 0; i < blocks.size(); ++i) {
      const records::Planned& planned = made.batch.motors[i].planned;
      const std::string first_of_purpose = planned.purpose.substr(0, planned.purpose.find(' '));
      CHECK(out_of_order(blocks[i], {tag::with_check(made.batch.motors[i].id), "EST",
                                     first_of_purpose, planned.owner.substr(0, 5), "wind to",
                                     "1.468–1.471", "loop", "×"}) == "");
    }
  }
}

TEST_CASE("Polish, Czech, Greek and Cyrillic are drawn and extracted right on sheets and labels") {
  test::InventedBatch made = test::invented_batch(5);
  const std::vector<std::string> words{"Zażółć gęślą jaźń ŻÓŁĆ",    "Příliš žluťoučký kůň ĎŤŇ",
                                       "Ξεσκεπάζω τη βδελυγμία ΐΰ", "Съешь ёщё їжак ЂЋЏ",
                                       "Ångström ß Æø İğ ő",        "½ ⅛ µ × ± ° € “” …"};
  for (std::size_t i = 0; i < made.batch.motors.size(); ++i) {
    made.batch.motors[i].planned.owner = words[i];
  }
  made.plan.title = words[5];
  for (const page::Document& document :
       {sheet_of(made, true), sheet_of(made, false), labels_of(made, "a4-2x7-99.1x38.1")}) {
    const std::string text = raw_text(document);
    for (std::size_t i = 0; i < made.batch.motors.size(); ++i) {
      CAPTURE(words[i]);
      CHECK(text.find(words[i]) != std::string::npos);
    }
  }
  CHECK(raw_text(sheet_of(made, true)).find(words[5]) != std::string::npos);
}

TEST_CASE("letters typed with marks behind them are found as the letters they are") {
  test::InventedBatch made = test::invented_batch(1);
  made.batch.motors[0].planned.owner = "Rene\u0301 C\u030Cerny\u0301";
  made.plan.title = "\u0418\u0306од \u03B9\u0301";
  CHECK(raw_text(sheet_of(made, true)).find("Йод ί") != std::string::npos);
  CHECK(raw_text(sheet_of(made, true)).find("René Černý") != std::string::npos);
  CHECK(raw_text(labels_of(made, "a4")).find("René Černý") != std::string::npos);
}

/// "title|page" of the bookmarks, by a program that had no part in writing them.
std::vector<std::string> bookmarks(const page::Document& document) {
  const test::TempFolder folder;
  std::istringstream lines(
      test::run_tool("qpdf --json --json-key=outlines " + test::written(document, folder, "a.pdf"))
          .out);
  std::vector<std::string> marks;
  std::string page;
  for (std::string line; std::getline(lines, line);) {
    const std::size_t at = line.find("\": ");
    if (line.find("\"destpageposfrom1\"") != std::string::npos) {
      page = line.substr(at + 3, line.find(',') - at - 3);
    } else if (line.find("\"title\"") != std::string::npos) {
      marks.push_back(line.substr(at + 4, line.rfind('"') - at - 4) + "|" + page);
    }
  }
  return marks;
}

TEST_CASE("bookmarks name sections and owners in order and lead to the pages where they stand") {
  const test::InventedBatch made = test::invented_batch(60);
  for (const bool cut : {true, false}) {
    const page::Document document = sheet_of(made, cut);
    std::vector<std::string> wanted;
    for (const page::Bookmark& mark : document.outline) {
      wanted.push_back(mark.title + "|" + std::to_string(mark.page + 1));
      // What it names stands on that page as a text's beginning.
      const auto& items = document.pages.at(mark.page).items;
      const std::string heading = mark.title == "Cutting plan"          ? "Cut, in this order"
                                  : mark.title == "Advice and cautions" ? "At the bench"
                                                                        : mark.title;
      const bool there = std::any_of(items.begin(), items.end(), [&](const page::Item& item) {
        const auto* text = std::get_if<page::Text>(&item);
        return text != nullptr && text->utf8.starts_with(heading);
      });
      CAPTURE(mark.title);
      CHECK(there);
    }
    CHECK(bookmarks(document) == wanted);
    CHECK(std::is_sorted(document.outline.begin(), document.outline.end(),
                         [](const auto& a, const auto& b) { return a.page < b.page; }));
    for (const calc::MotorFigures& motor : made.batch.motors) {
      CHECK(std::any_of(document.outline.begin(), document.outline.end(),
                        [&](const auto& mark) { return mark.title == motor.planned.owner; }));
    }
  }
}

TEST_CASE("bookmarks of labels name owners, or stems, on the pages of their first labels") {
  test::InventedBatch made = test::invented_batch(60);
  CHECK(bookmarks(labels_of(made, "a4-3x8-70x37")) ==
        std::vector<std::string>{"Anna|1", "Żaneta Źdźbłowicz-Łączyńska|1",
                                 "Řehoř Žluťoučký-Křepelka|2", "Ευανθία Ψαροκαπνίδου|2",
                                 "Щавель Ёжиков-Журавлёв|3"});
  for (calc::MotorFigures& motor : made.batch.motors) {
    motor.planned.owner.clear();
  }
  CHECK(bookmarks(labels_of(made, "a4-3x8-70x37")) ==
        std::vector<std::string>{"TH|1", "ZL|1", "RZ|2", "PS|2", "SH|3"});
}

TEST_CASE("title and bookmarks hold what the fonts have not, whole") {
  page::Document document;
  document.title = "Evening 😀 שלום (1) \\ <2>";
  document.pages.resize(2);
  document.outline = {{.title = "Ź 😀", .page = 1}, {.title = "(a", .page = 0}};
  const test::TempFolder folder;
  const std::string path = test::written(document, folder, "a.pdf");
  CHECK(test::run_tool("pdfinfo " + path).out.find(document.title) != std::string::npos);
  CHECK(bookmarks(document) == std::vector<std::string>{"Ź 😀|2", "(a|1"});
}

}  // namespace
