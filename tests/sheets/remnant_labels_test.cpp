// SPDX-License-Identifier: MIT
#include "sheets/remnant_labels.h"

#include <doctest/doctest.h>

#include "support/invented_batch.h"
#include "support/page_check.h"
#include "support/plain_metrics.h"

using namespace loopledger;

namespace {}  // namespace

TEST_CASE("a remnant's label says piece, length in both units, strip, lot and date") {
  sheets::LabelRun run;
  run.layouts = test::layouts();
  run.stock.paper_width = Length::mm(210);
  run.stock.paper_height = Length::mm(297);
  const sheets::RemnantFigures remnant{.strip = "amber-24",
                                       .lot = "24/03",
                                       .tag = "c",
                                       .width = Length::mm(2.4),
                                       .left = Length::mm(1084),
                                       .date = Date{2026, 2, 5}};
  const auto document = sheets::remnant_labels({remnant}, run, test::kPlainMetrics);
  REQUIRE(document.ok());
  CHECK(document.diagnostics().empty());
  const std::string text = test::all_text(*document);
  CHECK(text.find("piece c") != std::string::npos);
  CHECK(text.find("1084 mm (42.68 in)") != std::string::npos);
  CHECK(text.find("amber-24 · 2.4 mm · lot 24/03 · 2026-02-05") != std::string::npos);
  CHECK(test::out_of_margin(*document, test::kPlainMetrics, 5) == "");
  CHECK(test::overlapping_texts(*document, test::kPlainMetrics) == "");
}

TEST_CASE("without a remnant there is nothing to print") {
  CHECK(sheets::remnant_labels({}, {}, test::kPlainMetrics).diagnostics().front().code ==
        "label-none");
}
