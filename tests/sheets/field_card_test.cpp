// SPDX-License-Identifier: MIT
#include "sheets/field_card.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "support/invented_batch.h"
#include "support/invented_cards.h"
#include "support/page_check.h"
#include "support/plain_metrics.h"
#include "tag/id.h"

namespace {

using namespace loopledger;

sheets::CardRun card_run(Units units = Units::metric) {
  sheets::CardRun run;
  run.title = "Harbour evening (invented)";
  run.as_of = "as logged up to 2026-02-08";
  run.units = units;
  return run;
}

page::Document cards(const std::vector<motor::CardMotor>& motors, const std::string& paper = "a4",
                     Units units = Units::metric, const std::string& warned = "") {
  Result<page::Document> document =
      sheets::field_cards(motors, card_run(units), test::stock(paper), test::kPlainMetrics);
  REQUIRE_MESSAGE(document.ok(), render(document.diagnostics()));
  if (warned.empty()) {
    CHECK(render(document.diagnostics()) == "");
  }
  return std::move(document).value();
}

std::size_t times(const std::string& text, const std::string& line) {
  std::size_t n = 0;
  for (std::size_t at = text.find(line); at != std::string::npos; at = text.find(line, at + 1)) {
    ++n;
  }
  return n;
}

bool holds(const std::string& text, const std::string& part) { return times(text, part) > 0; }

const page::Text& text_item(const page::Document& document, const std::string& says) {
  for (const page::Page& page : document.pages) {
    for (const page::Item& item : page.items) {
      const auto* text = std::get_if<page::Text>(&item);
      if (text != nullptr && text->utf8 == says) {
        return *text;
      }
    }
  }
  FAIL("no text says " << says);
  std::abort();
}

TEST_CASE("from 1 to 60 motors the cards stay in their margin, texts apart, in both units") {
  for (const std::string paper : {"a4", "letter"}) {
    for (const Units units : {Units::metric, Units::inch}) {
      for (const int motors : {1, 2, 5, 24, 60}) {
        CAPTURE(paper);
        CAPTURE(motors);
        const page::Document document = cards(test::box_of_cards(motors), paper, units);
        CHECK(test::out_of_margin(document, test::kPlainMetrics, 5) == "");
        CHECK(test::overlapping_texts(document, test::kPlainMetrics) == "");
      }
    }
  }
}

TEST_CASE("a card with everything as long as it may be takes the height that it needs") {
  for (const std::string paper : {"a4", "letter"}) {
    motor::CardMotor longest = test::longest_card();
    const page::Document alone = cards({longest}, paper);  // nothing is cut
    CHECK(test::out_of_margin(alone, test::kPlainMetrics, 5) == "");
    CHECK(test::overlapping_texts(alone, test::kPlainMetrics) == "");
    const page::Document among =
        cards({test::flown_card(), longest, test::flown_card()}, paper, Units::inch, "list");
    CHECK(test::out_of_margin(among, test::kPlainMetrics, 5) == "");
    CHECK(test::overlapping_texts(among, test::kPlainMetrics) == "");
  }
}

TEST_CASE("the card says how far to wind in turns and cranks, never rounded up") {
  const std::string text = test::all_text(cards({test::flown_card()}));
  for (const char* line :
       {"WIND TO\n1152\nturns\n115\ncranks 10:1\n", "do not pass 1231 = 123 cranks\n",
        "it may break from 1231 to 1685 turns (95 %, estimate)\n",
        "expect 41.3 gf·cm (0.574 ozf·in)\n", "there, an estimate, 95 % 40.2 to 43.9: from 41",
        "flown · Żaneta, for Lantern 46\n",
        "best 1150 turns at 41 gf·cm (0.569 ozf·in); 4 windings"}) {
    CHECK_MESSAGE(holds(text, line), line);
  }
}

TEST_CASE("turns and cranks to wind to are the largest figures, the id the largest beside them") {
  const page::Document document = cards({test::flown_card()});
  const double turns = text_item(document, "1152").size_pt;
  const double cranks = text_item(document, "115").size_pt;
  const double id = text_item(document, tag::with_check({"QU", 1})).size_pt;
  for (const page::Item& item : document.pages.front().items) {
    const auto* text = std::get_if<page::Text>(&item);
    if (text != nullptr && text->utf8 != "1152" && text->utf8 != "115") {
      CHECK(text->size_pt < turns);
      CHECK(text->size_pt <= id);
    }
  }
  CHECK(cranks > 24);
}

TEST_CASE("a winder that turns slower than its crank has its cranks on card and list") {
  motor::CardMotor motor = test::flown_card();
  motor.winder_ratio = 0.5;
  const std::string text = test::all_text(cards({motor, motor}));
  CHECK(times(text, "WIND TO\n1152\nturns\n2305\ncranks 0.5:1\n") == 2);
  CHECK(holds(text, "do not pass 1231 = 2462 cranks\n"));
  CHECK(holds(text, "turns = 286 cranks from"));
}

TEST_CASE("without a winder's ratio there is nothing about cranks") {
  motor::CardMotor motor = test::flown_card();
  motor.winder_ratio = 1;
  const std::string text = test::all_text(cards({motor}));
  CHECK(times(text, "cranks") == 1);  // the column's head, with a dash in each row
  CHECK(times(text, "–\n") == 5);
}

TEST_CASE("backing off: turns left and the torque on the curve, with its interval") {
  const motor::CardMotor motor = test::flown_card();
  const std::string text = test::all_text(cards({motor}));
  CHECK(holds(text, "0 %\n0\n0\n1152\n41.3 (40.2–43.9)\n"));
  const Turns left = motor.wind_to * 0.9;
  const double torque = motor.curve->torque_at(left).in_gf_cm();
  CHECK(holds(text, "10 %\n115\n12\n1037\n" + rounded(torque, 3) + " ("));
  CHECK(holds(text,
              "Last launch: 1010 turns left in, about 22.5 gf·cm (0.312 ozf·in) (estimate). "
              "For the same let out 143 turns = 14 cranks from “wind to”.\n"));
}

TEST_CASE("the curve ends at wind to at the torque expected there; do not pass lies beyond") {
  const motor::CardMotor motor = test::flown_card();
  const page::Document document = cards({motor});
  const page::Polyline* curve = nullptr;
  std::vector<page::Box> marks;
  for (const page::Item& item : document.pages.front().items) {
    if (const auto* line = std::get_if<page::Polyline>(&item)) {
      curve = line;
    }
    const auto* box = std::get_if<page::Box>(&item);
    if (box != nullptr && box->w < 3) {
      marks.push_back(*box);
    }
  }
  REQUIRE(curve != nullptr);
  CHECK(curve->points.size() <= 121);
  CHECK(std::ranges::is_sorted(curve->points, {}, [](const auto& p) { return -p.y; }));
  const page::Text wind_to = text_item(document, "wind to");
  CHECK(curve->points.back().x == doctest::Approx(wind_to.x + 1.2));
  CHECK(text_item(document, "do not pass").x > curve->points.back().x);
  REQUIRE(marks.size() == motor.points.size());
  CHECK(std::ranges::count(marks, 0.0, &page::Box::fill_grey) == 5);
  // A torque read at 1000 turns lies on its own curve, to the width of the mark.
  const page::Box& mark = marks[2];
  const auto near = std::ranges::min_element(
      curve->points, {}, [&](const auto& p) { return std::abs(p.x - mark.x - mark.w / 2); });
  CHECK(std::abs(near->y - mark.y - mark.h / 2) < mark.h / 2);
}

TEST_CASE("axes count in the units asked for, with the others in brackets") {
  const std::string metric = test::all_text(cards({test::flown_card()}));
  CHECK(holds(metric, "torque, gf·cm\n"));
  CHECK(holds(metric, "(0.2)\n"));
  CHECK(holds(metric, "(ozf·in)\n"));
  const std::string inch = test::all_text(cards({test::flown_card()}, "letter", Units::inch));
  CHECK(holds(inch, "torque, ozf·in\n"));
  CHECK(holds(inch, "(40)\n"));
  CHECK(holds(inch, "11.85 in"));
  CHECK(holds(inch, "°F\n"));
}

TEST_CASE("the caption says whose curve it is") {
  const std::string own = test::all_text(cards({test::flown_card()}));
  CHECK(holds(own, "torque curve: its own, 5 torques read while unwinding on 2026-02-07."));
  CHECK(holds(own, "the black ones made the curve; while "));
  const std::string unread = test::all_text(cards({test::unwound_card()}));
  CHECK(holds(unread, "torque curve: the default shape, an estimate."));
  CHECK_FALSE(holds(unread, "Squares"));
  CHECK(holds(unread, "First: break-in step 2 of 3"));
}

TEST_CASE("oiling again: what the rule leaves for it") {
  motor::CardMotor motor = test::flown_card();
  const auto said = [&motor] { return test::all_text(cards({motor})); };
  CHECK(holds(said(),
              "Oiling it again today adds up to 31 mg (95 %, estimate); its rule counts "
              "that: 4 mg would be left under the limit.\n"));
  motor.oil->leaves = Mass::mg(-0.5);
  CHECK(holds(said(), "it may come out 1 mg OVER the limit, so weigh it.\n"));
  motor.oil_counts = false;
  CHECK(holds(said(), "(95 %, estimate), which its rule does not count.\n"));
  motor.oil_counts.reset();
  CHECK(holds(said(), "adds up to 31 mg (95 %, estimate).\n"));
  motor.oil.reset();
  CHECK_FALSE(holds(said(), "Oiling"));
}

TEST_CASE("a motor whose figures don't hold together has blanks, and says so") {
  motor::CardMotor motor = test::unwound_card();
  motor.curve.reset();
  const std::string text = test::all_text(cards({motor}));
  CHECK(holds(text, "no torque curve: the figures as planned don't hold together"));
  CHECK_FALSE(holds(text, "expect "));
  CHECK(holds(text, "TODAY\n"));
}

TEST_CASE("a retired motor stands in the list as not to be wound and gets no card") {
  const page::Document document = cards(test::box_of_cards(4));
  const std::string text = test::all_text(document);
  CHECK(times(text, tag::with_check({"QU", 3})) == 1);
  CHECK(times(text, tag::with_check({"QU", 1})) == 2);
  CHECK(holds(text, "retired: not to be wound\n"));
  CHECK(document.outline.size() == 4);
  CHECK(document.outline.front().title == "Box list");
  CHECK(document.outline.back().title == tag::with_check({"QU", 4}));
  CHECK(document.outline.back().page == document.pages.size() - 1);
}

TEST_CASE("the list repeats its head on each page, and pages are numbered") {
  const page::Document document = cards(test::box_of_cards(60));
  const std::string text = test::all_text(document);
  CHECK(times(text, "WIND TO\ncranks\n10:1\nBACK OFF\n") == 2);
  CHECK(document.pages.size() == 2 + 23);  // 45 cards
  CHECK(holds(text, "page 25 of 25\n"));
}

TEST_CASE("one motor needs no list, and two cards share a page") {
  CHECK(cards({test::flown_card()}).pages.size() == 1);
  CHECK(cards(test::box_of_cards(2)).pages.size() == 2);
  CHECK_FALSE(holds(test::all_text(cards({test::flown_card()})), "In the box"));
}

TEST_CASE("paper too small for a card is refused") {
  const auto refused =
      sheets::field_cards({test::flown_card()}, card_run(), plan::Stock{}, test::kPlainMetrics);
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.diagnostics().front().code == "page-paper");
}

}  // namespace
