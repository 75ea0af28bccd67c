// SPDX-License-Identifier: MIT
#include "sheets/break_in_sheet.h"

#include <doctest/doctest.h>

#include "support/invented_batch.h"
#include "support/page_check.h"
#include "support/plain_metrics.h"
#include "tag/id.h"

namespace {

using namespace loopledger;

page::Document break_in(const test::InventedBatch& made, const std::string& paper = "a4") {
  Result<page::Document> document = sheets::break_in_sheet(
      made.plan, made.batch, test::stock(paper), test::kPlainMetrics, std::nullopt);
  REQUIRE_MESSAGE(document.ok(), render(document.diagnostics()));
  CHECK(render(document.diagnostics()) == "");
  return std::move(document).value();
}

TEST_CASE("from 1 to 200 motors the break-in sheet stays in its margin, texts apart") {
  for (const std::string paper : {"a4", "letter"}) {
    for (const int motors : {1, 24, 200}) {
      CAPTURE(paper);
      CAPTURE(motors);
      const page::Document document = break_in(test::invented_batch(motors), paper);
      CHECK(test::out_of_margin(document, test::kPlainMetrics, 5) == "");
      CHECK(test::overlapping_texts(document, test::kPlainMetrics) == "");
    }
  }
}

TEST_CASE("the steps say length, turns, cranks, stop torque, hold and rest") {
  const std::string text = test::all_text(break_in(test::invented_batch(5)));
  for (const char* what :
       {"stretch to 1478 mm (58.19 in)", "wind 712 turns =\u00a071\u00a0cranks", "54 gf·cm",
        "(95\u00a0%),", "\n0.75 ozf·in\n",
        "slowly, and stop where it stiffens; 1 of the group counts aloud", "5\u00a0min",
        "2\u00a0min", "\n1\u00a0h\n2 times\n", "DO NOT PASS 1218 TURNS =\u00a0121\u00a0CRANKS",
        "clear oil, rubbed in before the first step"}) {
    CAPTURE(what);
    CHECK(text.find(what) != std::string::npos);
  }
}

TEST_CASE("every motor has blanks for each pass of each step, loops and temperature") {
  const test::InventedBatch made = test::invented_batch(24);
  const std::string text = test::all_text(break_in(made));
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

TEST_CASE("where inches lead the blank for the temperature is in °F, as on the field card") {
  test::InventedBatch made = test::invented_batch(2);
  made.plan.units = Units::inch;
  const std::string text = test::all_text(break_in(made));
  CHECK(text.find("°F") != std::string::npos);
  CHECK(text.find("°C") == std::string::npos);
}

TEST_CASE("motors without a recipe get blanks to write down what was done") {
  test::InventedBatch made = test::invented_batch(2);
  for (calc::MotorFigures& motor : made.batch.motors) {
    motor.planned.recipe.clear();
    motor.planned.break_in.clear();
  }
  const std::string text = test::all_text(break_in(made));
  CHECK(text.find("none in the plan: write down what you do") != std::string::npos);
  CHECK(text.find("gf·cm\n") != std::string::npos);
}

TEST_CASE("motors of one owner that break in differently come under headings of their own") {
  test::InventedBatch made = test::invented_batch(5);
  for (calc::MotorFigures& motor : made.batch.motors) {
    motor.planned.owner = "Anna";
  }
  made.batch.motors[1].planned.break_in[0].hold = Duration::min(7);
  const std::string text = test::all_text(break_in(made));
  CHECK(text.find("7\u00a0min") != std::string::npos);
  CHECK(text.find("\nAnna: " + tag::with_check(made.batch.motors[1].id) + "\n") !=
        std::string::npos);
}

TEST_CASE("every motor stands under the turns that it is never to pass, and its own factors") {
  test::InventedBatch made = test::invented_batch(5);
  for (calc::MotorFigures& motor : made.batch.motors) {
    motor.planned.owner = "Anna";
  }
  made.batch.motors[1].planned.turns_max.low = Turns::of(940);
  made.batch.motors[2].planned.turns_factor_u = 0.18;
  made.batch.motors[3].planned.torque_max.high = Torque::gf_cm(131);
  const std::string text = test::all_text(break_in(made));
  for (const std::size_t own : {1U, 2U, 3U}) {
    CHECK(text.find("\nAnna: " + tag::with_check(made.batch.motors[own].id) + "\n") !=
          std::string::npos);
  }
  CHECK(text.find("DO NOT PASS 940 TURNS") != std::string::npos);
  CHECK(text.find("k_N 11 ± 2 (") != std::string::npos);
}

/// One motor whose recipe is `steps`.
test::InventedBatch one_with(std::vector<records::BreakInStep> steps) {
  test::InventedBatch made = test::invented_batch(1);
  made.batch.motors[0].planned.break_in = std::move(steps);
  return made;
}

TEST_CASE("each action of a step has a line of its own, large, with its cranks") {
  const page::Document document = break_in(one_with({{.stretch = Length::mm(1500),
                                                      .turns = Turns::of(627),
                                                      .cranks = 63,
                                                      .stop_torque = Torque::gf_cm(54),
                                                      .hold = Duration::min(2),
                                                      .rest = {}},
                                                     {.stretch = {},
                                                      .turns = {},
                                                      .cranks = {},
                                                      .stop_torque = Torque::gf_cm(44),
                                                      .hold = Duration::h(23.5),
                                                      .rest = {}}}));
  CHECK(test::size_of_line(document, "stretch to 1500 mm (59.06 in)") == 12);
  CHECK(test::size_of_line(document, "wind 627 turns =\u00a063\u00a0cranks") == 12);
  CHECK(test::size_of_line(document, "never past 1218 turns") == 12);
  CHECK(test::size_of_line(document, "=\u00a0121\u00a0cranks") == 12);
  CHECK(test::size_of_line(document, "44 gf·cm") == 12);
  CHECK(test::size_of_line(document, "23\u00a0h") == 12);
  CHECK(test::size_of_line(document, "30\u00a0min") == 12);
}

TEST_CASE("without a winder's ratio turns are not said twice") {
  test::InventedBatch made = one_with({{.stretch = {},
                                        .turns = {},
                                        .cranks = {},
                                        .stop_torque = Torque::gf_cm(44),
                                        .hold = {},
                                        .rest = {}}});
  made.batch.motors[0].planned.winder_ratio = 1;
  const page::Document document = break_in(made);
  CHECK(test::size_of_line(document, "never past 1218 turns") == 12);
  CHECK(test::all_text(document).find("cranks") == std::string::npos);
}

TEST_CASE("the turns of a step are never rounded up, so none pass the ones never to pass") {
  test::InventedBatch made = one_with({{.stretch = {},
                                        .turns = Turns::of(1146.7),
                                        .cranks = 1146,
                                        .stop_torque = {},
                                        .hold = {},
                                        .rest = {}}});
  made.batch.motors[0].planned.winder_ratio = 1;
  made.batch.motors[0].planned.turns_max.low = Turns::of(1146.9);
  const std::string text = test::all_text(break_in(made));
  CHECK(text.find("DO NOT PASS 1146 TURNS.") != std::string::npos);
  CHECK(text.find("\nwind 1146 turns\n") != std::string::npos);
}

TEST_CASE("a winder that turns slower than its crank has cranks too") {
  test::InventedBatch made = test::invented_batch(1);
  made.batch.motors[0].planned.winder_ratio = 0.5;
  CHECK(test::all_text(break_in(made)).find("1218 TURNS =\u00a02437\u00a0CRANKS") !=
        std::string::npos);
}

TEST_CASE("a recipe's source stands under its name") {
  test::InventedBatch made = test::invented_batch(1);
  CHECK(test::all_text(break_in(made)).find("source:") == std::string::npos);
  made.plan.recipes[0].source = "an invented paper, page 12";
  CHECK(test::all_text(break_in(made)).find("two evenings\nsource: an invented paper, page 12\n") !=
        std::string::npos);
}

TEST_CASE("a recipe longer than a page has its head again, and its motors' blanks go on") {
  std::vector<records::BreakInStep> steps(50);
  for (records::BreakInStep& step : steps) {
    step.stretch = Length::mm(1500);
    step.repeat = 8;
    step.note = std::string(80, 'W');
  }
  steps.back().repeat = 100;
  const page::Document document = break_in(one_with(steps));
  CHECK(test::out_of_margin(document, test::kPlainMetrics, 5) == "");
  CHECK(test::overlapping_texts(document, test::kPlainMetrics) == "");
  const std::string text = test::all_text(document);
  std::size_t heads = 0;
  for (std::size_t at = text.find("stop there or at"); at != std::string::npos;
       at = text.find("stop there or at", at + 1)) {
    ++heads;
  }
  CHECK(heads >= 3);
  CHECK(text.find("Anna: TH-01-J, continued") != std::string::npos);
  CHECK(text.find("\n49h\n") != std::string::npos);
  CHECK(text.find("100 times, one stroke each") != std::string::npos);
}

}  // namespace
