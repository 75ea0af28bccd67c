// SPDX-License-Identifier: MIT
#include "sheets/cut_sheet.h"

#include <doctest/doctest.h>

#include <algorithm>

#include <fmt/format.h>

#include "support/dump.h"
#include "support/invented_batch.h"
#include "support/page_check.h"
#include "support/plain_metrics.h"
#include "tag/id.h"

namespace {

using namespace loopledger;

page::Document cutting(const test::InventedBatch& made, const std::string& paper = "a4") {
  Result<page::Document> document = sheets::cut_sheet(made.plan, made.batch, test::stock(paper),
                                                      test::kPlainMetrics, std::nullopt);
  REQUIRE_MESSAGE(document.ok(), render(document.diagnostics()));
  CHECK(render(document.diagnostics()) == "");
  return std::move(document).value();
}

bool says(const std::string& text, const std::string& what) {
  const bool found = text.find(what) != std::string::npos;
  if (!found) {
    MESSAGE("not said: " << what);
  }
  return found;
}

/// How many lines are exactly `what`.
std::size_t lines_that_say(const std::string& text, const std::string& what) {
  std::size_t count = 0;
  const std::string line = "\n" + what + "\n";
  for (std::size_t at = text.find(line); at != std::string::npos; at = text.find(line, at + 1)) {
    ++count;
  }
  return count;
}

TEST_CASE("from 1 to 200 motors nothing leaves the margin and no texts lie over each other") {
  for (const std::string paper : {"a4", "letter"}) {
    for (const int motors : {1, 2, 7, 24, 60, 200}) {
      CAPTURE(paper);
      CAPTURE(motors);
      const page::Document document = cutting(test::invented_batch(motors), paper);
      CHECK(test::out_of_margin(document, test::kPlainMetrics, 5) == "");
      CHECK(test::overlapping_texts(document, test::kPlainMetrics) == "");
    }
  }
}

TEST_CASE("every motor is in a bar of the cutting plan and in a table") {
  const test::InventedBatch made = test::invented_batch(60);
  const std::string text = test::all_text(cutting(made));
  for (const calc::MotorFigures& motor : made.batch.motors) {
    CHECK(lines_that_say(text, tag::with_check(motor.id)) == 2);
  }
}

TEST_CASE("the sheet says what the bench needs") {
  const std::string text = test::all_text(cutting(test::invented_batch(7)));
  CHECK(says(text, "Check weight: 1 g reads"));
  CHECK(says(text, "planned 60 mg: 12 mg on each motor"));
  CHECK(says(text, "14 rings “pearl”; lubricant clear oil; adhesive knot dot"));
  CHECK(says(text, "at least\n1.489\n"));
  CHECK(says(text, "1.468–1.471"));
  CHECK(says(text, "1.481–1.484"));
  CHECK(says(text, "1.499–1.502"));
  CHECK(says(text, "limit 1.5 g"));
  CHECK(says(text, "keep\n374\u00a0mm"));
  CHECK(says(text, "Proven: least scrap, then fewest pieces"));
  CHECK(says(text, "Wear eye protection"));
}

TEST_CASE("cuts are given as positions from the clean end") {
  const std::string text = test::all_text(cutting(test::invented_batch(3)));
  // 617.2 mm each
  CHECK(says(text, "\n617.3\n"));
  CHECK(says(text, "\n1234.6\n"));
  CHECK(says(text, "\n1851.9\n"));
  CHECK(says(text, "first 5 mm off for a clean end"));
}

TEST_CASE("the table of snips leads to the middle of the window, as a judged reading does") {
  const std::string text = test::all_text(cutting(test::invented_batch(1)));
  // 2.42 g/m and a window of 3 mg: 1 mg over is 2.5 mg to the middle, 1.03 mm; 30 mg 13.02 mm.
  CHECK(says(text, "mg over\n1\n2\n3\n4\n5\n6\n8\n10\n12\n15\n20\n30\n"));
  CHECK(says(text, "\nsnip mm of amber\n1\n1.5\n2\n2.5\n2.5\n3\n"));
  CHECK(says(text, "\n13\n"));
}

TEST_CASE("pieces of a linear density of their own have snips of their own, the others share") {
  test::InventedBatch made = test::invented_batch(14);  // seven from each of two pieces
  const std::string same = test::all_text(cutting(made));
  CHECK(same.find("piece a\n1\n") == std::string::npos);
  for (calc::MotorFigures& motor : made.batch.motors) {
    motor.planned.owner = "Anna";
    if (motor.planned.piece == "b") {
      motor.planned.linear_density.value = LinearDensity::g_per_m(1.9);
    }
  }
  const std::string own = test::all_text(cutting(made));
  CHECK(says(own, "snip mm of amber,\npiece a\n"));
  CHECK(says(own, "snip mm of amber,\npiece b\n"));
}

TEST_CASE("motors of one strip whose windows differ have snips under their own ids") {
  test::InventedBatch made = test::invented_batch(3);
  for (calc::MotorFigures& motor : made.batch.motors) {
    motor.planned.owner = "Anna";
  }
  records::Window& washed = made.batch.motors[1].planned.windows.of(Stage::washed);
  washed.low = *washed.high - Mass::mg(8);
  const std::string text = test::all_text(cutting(made));
  const auto id = [&](std::size_t motor) { return tag::with_check(made.batch.motors[motor].id); };
  CHECK(says(text, "snip mm of amber,\n" + id(0) + ", " + id(2) + "\n1\n1.5\n"));
  CHECK(says(text, "snip mm of amber,\n" + id(1) + "\n2\n2.5\n"));
}

TEST_CASE("owners on one page share the snips that they have in common") {
  const test::InventedBatch made = test::invented_batch(5);  // of five owners
  const page::Document document = cutting(made);
  std::size_t tables = 0;
  std::size_t snips = 0;
  for (const page::Page& page : document.pages) {
    page::Document one;
    one.pages.push_back(page);
    const std::string text = "\n" + test::all_text(one);
    const std::size_t here = lines_that_say(text, "washed and dry, g");
    tables += here;
    snips += lines_that_say(text, "snip mm of amber");
    CHECK(lines_that_say(text, "snip mm of amber") == (here > 0 ? 1 : 0));
  }
  CHECK(tables == 5);
  CHECK(snips < tables);
}

TEST_CASE("the washed window is what the scale shows with the tails on, and says so") {
  test::InventedBatch made = test::invented_batch(1);
  records::Planned& p = made.batch.motors[0].planned;
  p.rule.reset();
  CHECK_FALSE(says(test::all_text(cutting(made)), "ails on"));
  p.tails = Length::mm(30);  // 72.6 mg of 2.42 g/m; the aim is 1.4695 g, the window 3 mg
  const std::string text = test::all_text(cutting(made));
  CHECK(says(text, "\n1.541–1.543\ntails on, 72.6 mg\n"));
  CHECK(says(text, "Weigh washed strip with its tails on"));
}

TEST_CASE("every default that was used is printed, and nothing that was given") {
  const std::string text = test::all_text(cutting(test::invented_batch(2)));
  CHECK(says(text, "paper a4; units metric; scale_error 1 mg; ruler_step 1 mm; confidence 95 %"));
  CHECK(says(text, "turns_factor 11 ± 8 %;"));
  CHECK(says(text, "strands 2; knot 16 mm; tails 0 mm; allowance 10 mm; window 3 mg"));
  CHECK(text.find("winder_ratio") == std::string::npos);
}

TEST_CASE("what the shelf holds and no motor uses is not on the sheet") {
  test::InventedBatch made = test::invented_batch(2);
  plan::Rule rule;
  rule.name = "unused-rule";
  made.plan.rules.push_back(rule);
  plan::Rings rings;
  rings.name = "unused-rings";
  made.plan.rings.push_back(rings);
  plan::Strip strip;
  strip.name = "unused-strip";
  made.plan.strips.push_back(strip);
  CHECK(test::all_text(cutting(made)).find("unused") == std::string::npos);
}

TEST_CASE("what only motors of another sheet use is not on this one") {
  test::InventedBatch made = test::invented_batch(2);
  plan::Rings rings;
  rings.name = "for-another";
  made.plan.rings.push_back(rings);
  plan::MotorGroup group = made.plan.motors[0];
  group.rings = 1;
  made.plan.motors.push_back(group);  // none of its motors is in the batch
  CHECK(test::all_text(cutting(made)).find("for-another") == std::string::npos);
}

TEST_CASE("a factor given without how sure it is has the default's spread, and that is said") {
  test::InventedBatch made = test::invented_batch(1);
  made.plan.strips[0].turns_factor = {.value = {9.5, 0}, .place = {}, .given = true};
  made.plan.strips[0].torque_factor = {
      .value = {Pressure::mpa(0.5), {}}, .place = {}, .given = true};
  std::string text = test::all_text(cutting(made));
  std::ranges::replace(text, '\n', ' ');
  CHECK(says(text, "turns_factor ± 8 %; torque_factor ± 25 %"));
}

TEST_CASE("only what is slit to the same width can become a smaller motor") {
  test::InventedBatch made = test::invented_batch(5);  // a group each
  records::Planned& lesser = made.batch.motors[1].planned;
  lesser.aim = Mass::g(1.2);
  lesser.stays = Length::mm(500);
  const auto text = [&] { return test::all_text(cutting(made)); };
  CHECK(says(text(), "can be trimmed down to become one of"));
  for (calc::MotorFigures& motor : made.batch.motors) {
    motor.planned.slit = true;
    motor.planned.width = Length::mm(2.4);
  }
  CHECK(says(text(), "can be trimmed down to become one of"));
  lesser.width = Length::mm(2.3);
  CHECK_FALSE(says(text(), "can be trimmed down to become one of"));
}

TEST_CASE("without a rule nothing is said of a limit, and no estimate of oil is under nothing") {
  test::InventedBatch made = test::invented_batch(1);
  records::Planned& p = made.batch.motors[0].planned;
  p.uptake = {Share::percent(0.5), Share::percent(0.4)};
  CHECK(says(test::all_text(cutting(made)), "a motor that has a limit is still within it"));
  CHECK(says(test::all_text(cutting(made)), "(estimate 0–19 mg, 95 %)"));
  p.rule.reset();
  CHECK_FALSE(says(test::all_text(cutting(made)), "still within"));
}

TEST_CASE("a piece's remnant stands in its last row, and twenty cuts take three rows") {
  test::InventedBatch made = test::invented_batch(20);
  calc::PieceCuts all = made.batch.cutting.pieces[0];
  all.motors.clear();
  for (std::size_t i = 0; i < made.batch.motors.size(); ++i) {
    all.motors.push_back(i);
  }
  all.left = Length::mm(300);
  all.scrap = false;
  made.batch.cutting.pieces = {all};
  const std::string text = test::all_text(cutting(made));
  CHECK(says(text, "\n12344.6\n"));  // 20 x 617.23
  CHECK(says(text, "300\u00a0mm"));
}

TEST_CASE("each owner has a table under the name, with a bookmark to its page") {
  const page::Document document = cutting(test::invented_batch(24));
  REQUIRE(document.outline.size() == 9);
  CHECK(document.outline[1].title == "Wash, dry, weigh");
  CHECK(document.outline[2].title == "Anna");
  CHECK(document.outline[3].title == "Żaneta Źdźbłowicz-Łączyńska");
  for (const page::Bookmark& mark : document.outline) {
    CHECK(mark.page < document.pages.size());
  }
}

TEST_CASE("pages are numbered, carry the head again and a bar of 100 mm to check the scale") {
  const page::Document document = cutting(test::invented_batch(60));
  const std::size_t pages = document.pages.size();
  CHECK(pages > 3);
  for (std::size_t i = 0; i < pages; ++i) {
    page::Document one;
    one.pages.push_back(document.pages[i]);
    const std::string text = test::all_text(one);
    CHECK(says(text, "CUT SHEET"));
    CHECK(says(text, "Harbour evening (invented)"));
    CHECK(says(text, fmt::format("page {} of {}", i + 1, pages)));
    bool bar = false;
    for (const page::Item& item : document.pages[i].items) {
      const auto* line = std::get_if<page::Line>(&item);
      bar = bar ||
            (line != nullptr && line->y1 == line->y2 && std::abs(line->x2 - line->x1 - 100) < 1e-9);
    }
    CHECK(bar);
  }
}

TEST_CASE("a motor that no piece reaches is named with what is missing") {
  test::InventedBatch made = test::invented_batch(3);
  made.batch.cutting.pieces[0].motors.pop_back();
  made.batch.cutting.uncut = {2};
  made.batch.cutting.shortfall = Length::mm(617);
  made.batch.motors[2].cut = false;
  const std::string text = test::all_text(cutting(made));
  CHECK(says(text, "Not cut, the pieces are 617 mm (24.29 in) short: " +
                       tag::with_check(made.batch.motors[2].id) + "."));
  // Nothing else is said of it: no row, no bag.
  CHECK(says(text, "2 bags and labels"));
  CHECK(lines_that_say(text, tag::with_check(made.batch.motors[1].id)) > 0);
  CHECK(lines_that_say(text, tag::with_check(made.batch.motors[2].id)) == 0);
  made.batch.cutting.motors_gap = 1;
  CHECK(says(test::all_text(cutting(made)), "Not cut, no plan was found that cuts these too: " +
                                                tag::with_check(made.batch.motors[2].id) + "."));
}

TEST_CASE("inches lead when the plan asks for them") {
  test::InventedBatch made = test::invented_batch(1);
  made.plan.units = Units::inch;
  const std::string text = test::all_text(cutting(made, "letter"));
  CHECK(says(text, "cut, in"));
  CHECK(says(text, "\n24.31\n(618 mm)\n"));
  CHECK(says(text, "snip in of amber"));
}

TEST_CASE("what is as long as the plan allows shrinks or wraps and does not run over") {
  test::InventedBatch made = test::invented_batch(2);
  made.plan.title = std::string(120, 'W');
  made.plan.strips[0].name = std::string(40, 'm');
  for (calc::MotorFigures& motor : made.batch.motors) {
    motor.id = {"ABCDEFGH", 9990 + motor.id.number};
    motor.planned.owner = std::string(60, 'Q');
    motor.planned.purpose = std::string(200, 'x');
    motor.planned.scale_step = Mass::mg(0.01);
  }
  const auto document = sheets::cut_sheet(made.plan, made.batch, test::stock("a4"),
                                          test::kPlainMetrics, std::nullopt);
  REQUIRE(document.ok());
  CHECK(test::out_of_margin(*document, test::kPlainMetrics, 5) == "");
  CHECK(test::overlapping_texts(*document, test::kPlainMetrics) == "");
}

TEST_CASE("paper too small for the tables is refused") {
  const test::InventedBatch made = test::invented_batch(1);
  plan::Stock small = test::stock("a4");
  small.paper_width = Length::mm(148);
  const auto refused =
      sheets::cut_sheet(made.plan, made.batch, small, test::kPlainMetrics, std::nullopt);
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.diagnostics()[0].code == "page-paper");
}

TEST_CASE("the same batch twice is the same sheet") {
  CHECK(test::dump(cutting(test::invented_batch(24))) ==
        test::dump(cutting(test::invented_batch(24))));
}

TEST_CASE("a long list of ids wraps, and a row of them is told by its ends and its number") {
  test::InventedBatch made = test::invented_batch(60);
  for (std::size_t i = 0; i < made.batch.motors.size(); ++i) {
    made.batch.motors[i].id = {"TH", static_cast<int>(i % 2 == 0 ? i + 1 : i + 201)};
    made.batch.motors[i].planned.owner = "Anna";
  }
  const std::string text = test::all_text(cutting(made));  // no warning that a text was cut
  CHECK(says(text, "TH-01-J, TH-202-"));
  CHECK(says(test::all_text(cutting(test::invented_batch(120))),
             "TH-01-J to " + tag::with_check({"TH", 24}) + " (24 motors)"));
}

TEST_CASE("the order is the order of work: fetch, check, cut, dry, weigh, then what to read") {
  const std::string text = test::all_text(cutting(test::invented_batch(3)));
  std::size_t at = 0;
  for (const char* what :
       {"cautions for eyes", "Fetch", "Check weight: 1 g reads", "Cut, in this order",
        "Wash, dry, weigh", "Anna: 1 motor", "Mass budget", "Rules", "Cautions", "Defaults used"}) {
    CAPTURE(what);
    at = text.find(what, at);
    REQUIRE(at != std::string::npos);
  }
}

TEST_CASE("a scale that reads to 0.01 mg has both ends of a window at 11 pt or more") {
  test::InventedBatch made = test::invented_batch(2);
  for (calc::MotorFigures& motor : made.batch.motors) {
    motor.planned.scale_step = Mass::mg(0.01);
  }
  const page::Document document = cutting(made);
  CHECK(test::size_of_line(document, "1.46800 –") >= 11);
  CHECK(test::size_of_line(document, "1.47100") >= 11);
}

}  // namespace
