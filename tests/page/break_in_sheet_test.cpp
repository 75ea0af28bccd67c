// SPDX-License-Identifier: MIT
#include "page/break_in_sheet.h"

#include <doctest/doctest.h>

#include "support/invented_batch.h"
#include "support/page_check.h"
#include "support/plain_metrics.h"
#include "tag/id.h"

namespace {

using namespace loopledger;

page::Document break_in(const testing::InventedBatch& made, const std::string& paper = "a4") {
  Result<page::Document> document = page::break_in_sheet(
      made.plan, made.batch, testing::stock(paper), testing::kPlainMetrics, std::nullopt);
  REQUIRE_MESSAGE(document.ok(), render(document.diagnostics()));
  CHECK(render(document.diagnostics()) == "");
  return std::move(document).value();
}

TEST_CASE("from 1 to 200 motors the break-in sheet stays in its margin, texts apart") {
  for (const std::string paper : {"a4", "letter"}) {
    for (const int motors : {1, 24, 200}) {
      CAPTURE(paper);
      CAPTURE(motors);
      const page::Document document = break_in(testing::invented_batch(motors), paper);
      CHECK(testing::out_of_margin(document, testing::kPlainMetrics, 5) == "");
      CHECK(testing::overlapping_texts(document, testing::kPlainMetrics) == "");
    }
  }
}

TEST_CASE("the steps say length, turns, cranks, stop torque, hold and rest") {
  const std::string text = testing::all_text(break_in(testing::invented_batch(5)));
  for (const char* what :
       {"stretch to 1478 mm (58.19 in)", "wind 713 turns = 71 cranks", "54 gf·cm",
        "(95\u00a0%), 0.75 ozf·in",
        "slowly, and stop where it stiffens; 1 of the group counts aloud", "5 min", "2 min",
        "1 h; 2 times", "DO NOT PASS 1218 TURNS", "clear oil, rubbed in before the first step"}) {
    CAPTURE(what);
    CHECK(text.find(what) != std::string::npos);
  }
}

TEST_CASE("every motor has blanks for each pass of each step, loops and temperature") {
  const testing::InventedBatch made = testing::invented_batch(24);
  const std::string text = testing::all_text(break_in(made));
  const auto count = [&](const std::string& line) {
    std::size_t n = 0;
    for (std::size_t at = text.find("\n" + line + "\n"); at != std::string::npos;
         at = text.find("\n" + line + "\n", at + 1)) {
      ++n;
    }
    return n;
  };
  for (const calc::MotorFigures& motor : made.batch.motors) {
    CHECK(count(tag::with_check(motor.id)) == 1);
  }
  CHECK(count("2a") == 24);
  CHECK(count("2b") == 24);
  CHECK(count("next day") == 24);
  CHECK(count("°C") == 24);
}

TEST_CASE("motors without a recipe get blanks to write down what was done") {
  testing::InventedBatch made = testing::invented_batch(2);
  for (calc::MotorFigures& motor : made.batch.motors) {
    motor.planned.recipe.clear();
    motor.planned.break_in.clear();
  }
  const std::string text = testing::all_text(break_in(made));
  CHECK(text.find("none in the plan: write down what you do") != std::string::npos);
  CHECK(text.find("gf·cm\n") != std::string::npos);
}

TEST_CASE("motors of one owner that break in differently come under headings of their own") {
  testing::InventedBatch made = testing::invented_batch(5);
  for (calc::MotorFigures& motor : made.batch.motors) {
    motor.planned.owner = "Anna";
  }
  made.batch.motors[1].planned.break_in[0].hold = Duration::min(7);
  const std::string text = testing::all_text(break_in(made));
  CHECK(text.find("7 min") != std::string::npos);
  CHECK(text.find("\n" + printed(made.batch.motors[1].id) + "\n") != std::string::npos);
}

}  // namespace
