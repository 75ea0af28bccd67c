// SPDX-License-Identifier: MIT
//
// The page model of a small batch against texts that were read and found good. To accept a change:
// LOOPLEDGER_UPDATE_GOLDEN=1 and look at the difference.
#include <doctest/doctest.h>

#include <cstdlib>
#include <fstream>
#include <iterator>

#include "sheets/break_in_sheet.h"
#include "sheets/cut_sheet.h"
#include "sheets/field_card.h"
#include "sheets/labels.h"
#include "support/dump.h"
#include "support/invented_batch.h"
#include "support/invented_cards.h"
#include "support/plain_metrics.h"

namespace {

using namespace loopledger;

void compare(const Result<page::Document>& document, const std::string& name) {
  REQUIRE(document.ok());
  const std::string now = test::dump(document.value());
  const std::string path = std::string(LOOPLEDGER_SOURCE_DIR "/tests/sheets/golden/") + name;
  if (std::getenv("LOOPLEDGER_UPDATE_GOLDEN") != nullptr) {
    std::ofstream(path, std::ios::binary) << now;
  }
  std::ifstream file(path, std::ios::binary);
  const std::string before{std::istreambuf_iterator<char>(file), {}};
  CHECK(now == before);
}

TEST_CASE("the cut sheet of three motors is laid out as it was") {
  const auto made = test::invented_batch(3);
  compare(sheets::cut_sheet(made.plan, made.batch, test::stock("a4"), test::kPlainMetrics,
                            std::nullopt),
          "cut-sheet-a4.txt");
}

TEST_CASE("the break-in sheet of three motors is laid out as it was") {
  const auto made = test::invented_batch(3);
  compare(sheets::break_in_sheet(made.plan, made.batch, test::stock("letter"), test::kPlainMetrics,
                                 std::nullopt),
          "break-in-letter.txt");
}

TEST_CASE("the field cards of three motors, one retired, are laid out as they were") {
  sheets::CardRun run;
  run.title = "Harbour evening (invented)";
  run.as_of = "as logged up to 2026-02-08";
  compare(sheets::field_cards(test::box_of_cards(3), run, test::stock("a4"), test::kPlainMetrics),
          "field-card-a4.txt");
}

TEST_CASE("two labels are laid out as they were") {
  const auto made = test::invented_batch(2);
  sheets::LabelRun run;
  run.layouts = test::layouts();
  run.stock = test::stock("a4-3x8-70x37");
  run.title = made.plan.title;
  compare(sheets::labels({motor::label_figures(made.batch.motors[0]),
                          motor::label_figures(made.batch.motors[1])},
                         run, test::kPlainMetrics),
          "labels-70x37.txt");
}

}  // namespace
