// SPDX-License-Identifier: MIT
//
// Warnings of what was replaced or cut say where on the sheets and labels it stands.
#include <doctest/doctest.h>

#include <algorithm>

#include "sheets/break_in_sheet.h"
#include "sheets/cut_sheet.h"
#include "sheets/labels.h"
#include "support/invented_batch.h"
#include "support/plain_metrics.h"
#include "tag/id.h"

namespace {

using namespace loopledger;

/// What was said under a code, without the code.
std::vector<std::string> told(const Diagnostics& all, const std::string& code) {
  std::vector<std::string> messages;
  for (const Diagnostic& d : all) {
    if (d.code == code) {
      CHECK(d.severity == Severity::warning);
      CHECK(d.hint != "");
      messages.push_back(d.message);
    }
  }
  return messages;
}

/// All the sheets' diagnostics for a batch whose title, and one owner's name, are these.
Diagnostics sheets_of(const std::string& title, const std::string& owner) {
  test::InventedBatch made = test::invented_batch(60);
  made.plan.title = title;
  const std::string first = made.batch.motors[0].planned.owner;
  for (calc::MotorFigures& motor : made.batch.motors) {
    std::string& name = motor.planned.owner;
    name = name == first ? owner : name;
  }
  const plan::Stock a4 = test::stock("a4");
  Diagnostics all =
      sheets::cut_sheet(made.plan, made.batch, a4, test::kPlainMetrics, {}).diagnostics();
  append(all,
         sheets::break_in_sheet(made.plan, made.batch, a4, test::kPlainMetrics, {}).diagnostics());
  return all;
}

TEST_CASE("a sheet's title is told of once, however many pages bear it") {
  CHECK(told(sheets_of("Snow ☃", "Anna"), "page-glyph") ==
        std::vector<std::string>{
            "the cut sheet's title: the fonts can't show “☃” (U+2603), “?” is printed instead",
            "the break-in sheet's title: the fonts can't show “☃” (U+2603), “?” is printed "
            "instead"});
  const auto cut = told(sheets_of("Evening " + std::string(300, 'x'), "Anna"), "page-cut");
  REQUIRE(cut.size() == 2);
  CHECK(cut[0].starts_with("the cut sheet's title: “Evening xxx"));
  CHECK(cut[0].find("” is too long and was cut to “Evening") != std::string::npos);
  CHECK(cut[0].ends_with("…”"));
}

TEST_CASE("an owner's part of a sheet is named, on its later pages too") {
  const auto glyphs = told(sheets_of("Evening", "Anna ☃"), "page-glyph");
  REQUIRE(glyphs.size() == 2);
  CHECK(glyphs[0].find("the table of Anna ☃") != std::string::npos);
  CHECK(glyphs[1].starts_with("the break-in of Anna ☃: "));
  for (const std::string& message : glyphs) {
    CHECK(message.find("title") == std::string::npos);
  }
}

TEST_CASE("each label that lacks something is named in one warning") {
  std::vector<motor::LabelFigures> figures;
  for (const calc::MotorFigures& motor : test::invented_batch(3).batch.motors) {
    figures.push_back(motor::label_figures(motor));
    figures.back().owner = "שלום";
    figures.back().purpose = "Fly " + std::string(200, 'x');
  }
  sheets::LabelRun run;
  run.layouts = test::layouts();
  run.stock = test::stock("a4-3x8-70x37");
  const Diagnostics said = sheets::labels(figures, run, test::kPlainMetrics).diagnostics();
  std::string labels;
  for (const motor::LabelFigures& label : figures) {
    labels += (labels.empty() ? "the label of " : ", the label of ") + tag::with_check(label.id);
  }
  CHECK(told(said, "page-script") ==
        std::vector<std::string>{labels +
                                 ": “שלום” runs from right to left, which can't be laid out, “?” "
                                 "is printed for each letter"});
  // Where the code leaves less room, the same text is cut to something else: told of itself.
  for (const motor::LabelFigures& label : figures) {
    const auto cut = told(said, "page-cut");
    CHECK(std::count_if(cut.begin(), cut.end(), [&](const std::string& message) {
            return message.find("the label of " + tag::with_check(label.id)) != std::string::npos &&
                   message.find(": “Fly xxx") != std::string::npos;
          }) == 1);
  }
}

}  // namespace
