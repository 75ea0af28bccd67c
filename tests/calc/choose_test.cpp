// SPDX-License-Identifier: MIT
#include "calc/choose.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "calc/work_out.h"
#include "support/plan_text.h"

using namespace loopledger;
using doctest::Approx;

namespace {

/// A shelf of two strips, and one group; `group` are the group's own lines.
std::string shelf_and(const std::string& group, const std::string& counts = "[\"rubber\"]",
                      const std::string& limit = "1.5 g") {
  return "format = 1\nbench = { scale_step = \"1 mg\" }\nrules.club = { limit = \"" + limit +
         "\", counts = " + counts + " }\n" + R"(
[rings.steel]
mass = "200 mg"
[strips.broad]
width = "2.5 mm"
thickness = "1.1 mm"
pieces = [{ tag = "a", length = "3 m" }, { tag = "b", length = "0.5 m" }]
[strips.narrow]
width = "1.5 mm"
thickness = "1.1 mm"
[[motors]]
id = "CH"
count = 3
)" + group;
}

plan::Plan shelf_plan(const std::string& text) {
  const auto plan = test::read(text);
  CAPTURE(test::said(plan.diagnostics()));
  REQUIRE(plan.ok());
  return *plan;
}

calc::Batch worked(const std::string& text) {
  const auto batch = calc::work_out(shelf_plan(text), {.choices = true});
  CAPTURE(test::said(batch.diagnostics()));
  REQUIRE(batch.ok());
  return *batch;
}

}  // namespace

TEST_CASE("each strip gives a motor at the limit, by strands up to the first that is too short") {
  const calc::Batch batch = worked(shelf_and("rule = \"club\"\nhooks = \"200 mm\"\n"));
  CHECK(batch.motors.empty());
  REQUIRE(batch.choices.size() == 5);
  // 1.497 g of 2.5575 g/m is some 585 mm of strip: a loop of 285 mm, or 142 mm of four strands; of
  // the narrow strip, 1.5345 g/m, 975 mm: 480 mm, 240 mm, and 160 mm of six.
  const auto is = [&](std::size_t i, std::size_t strip, int strands, double loop_mm) {
    const calc::Choice& c = batch.choices[i];
    CHECK(c.strip == strip);
    CHECK(c.planned.strands == strands);
    CHECK(c.planned.loop.in_mm() == Approx(loop_mm).epsilon(0.01));
    CHECK(records::slack(c.planned)->in_mm() == Approx(c.planned.loop.in_mm() - 200));
    CHECK(c.planned.rule->limit.in_g() == Approx(1.5));
    CHECK(c.planned.break_in.empty());
  };
  is(0, 0, 2, 284.5);
  is(1, 0, 4, 142.2);
  is(2, 1, 2, 479.6);
  is(3, 1, 4, 239.8);
  is(4, 1, 6, 159.9);
}

TEST_CASE("the same mass at the same limit: turns and torque trade, and the energy stays") {
  const calc::Batch batch =
      worked(shelf_and("rule = \"club\"\nhooks = \"200 mm\"\nknot = \"0 mm\"\n"));
  const calc::Choice& first = batch.choices.front();
  for (const calc::Choice& c : batch.choices) {
    CHECK(c.planned.aim.in_g() == Approx(first.planned.aim.in_g()));
    CHECK(c.energy.value / first.energy.value == Approx(1).epsilon(1e-9));
    CHECK(c.planned.turns_max.value.count() * c.planned.torque_max.value.in_mnm() ==
          Approx(first.planned.turns_max.value.count() * first.planned.torque_max.value.in_mnm()));
  }
}

TEST_CASE("a choice is the motor that the plan gets when it is written down") {
  const calc::Batch choices = worked(shelf_and("rule = \"club\"\n"));
  const calc::Batch written =
      worked(shelf_and("rule = \"club\"\nstrip = \"narrow\"\nstrands = 4\nmass = \"limit\"\n"));
  const auto same = std::ranges::find_if(choices.choices, [](const calc::Choice& c) {
    return c.strip == 1 && c.planned.strands == 4;
  });
  REQUIRE(same != choices.choices.end());
  CHECK(same->planned.loop == written.motors[0].planned.loop);
  CHECK(same->planned.wind_to == written.motors[0].planned.wind_to);
  CHECK(same->energy.value == written.motors[0].energy.value);
}

TEST_CASE("a named strip and given strands narrow the choice; pieces say how many it gives") {
  const calc::Batch batch =
      worked(shelf_and("rule = \"club\"\nhooks = \"900 mm\"\nstrip = \"broad\"\nstrands = 2\n"));
  REQUIRE(batch.choices.size() == 1);
  CHECK(*records::slack(batch.choices[0].planned) < Length{});
  // Some 585 mm each; width x thickness is good for 5 %, so the allowance is 58 mm: four from 3 m.
  CHECK(batch.choices[0].motors == 4);
  const calc::Batch narrow = worked(shelf_and("rule = \"club\"\nstrip = \"narrow\"\n"));
  CHECK(narrow.choices.size() == 3);  // without a hook distance: 2, 4 and 6 strands
  CHECK_FALSE(narrow.choices[0].motors.has_value());
}

TEST_CASE("a piece that was weighed and measured gives motors by its own linear density") {
  // Broad strip has 2.56 g/m. At 3.6 g/m a motor takes some 426 mm: seven from 3 m.
  const std::string text = shelf_and("rule = \"club\"\nstrip = \"broad\"\nstrands = 2\n");
  const auto with = [&](const std::string& pieces) {
    std::string changed = text;
    const auto from = changed.find("pieces = ");
    return worked(changed.replace(from, changed.find('\n', from) - from, "pieces = " + pieces));
  };
  const auto one = with(R"([{ tag = "a", length = "3 m", mass = "10.8 g" }])");
  const auto two =
      with(R"([{ tag = "a", length = "3 m", mass = "10.8 g" }, { tag = "b", length = "0.4 m" }])");
  CHECK(one.choices[0].motors == 7);
  CHECK(two.choices[0].motors == 7);
}

TEST_CASE("a limit that leaves nothing for rubber is said once, not for every strip") {
  const auto batch = calc::work_out(shelf_plan(shelf_and("rule = \"club\"\nrings = \"steel\"\n",
                                                         "[\"rubber\", \"rings\"]", "0.1 g")),
                                    {.choices = true});
  REQUIRE_FALSE(batch.ok());
  CHECK(std::ranges::count(batch.diagnostics(), "rule-limit", &Diagnostic::code) == 1);
}

TEST_CASE("without choices asked for, a group without a size is an error that says where to look") {
  const auto batch = calc::work_out(shelf_plan(shelf_and("rule = \"club\"\n")));
  REQUIRE_FALSE(batch.ok());
  CHECK(test::said(batch.diagnostics()).find("motors \"CH\" have no size yet") !=
        std::string::npos);
  // Asking for other motors only passes it over.
  const plan::Plan both =
      shelf_plan(shelf_and("rule = \"club\"\n") +
                 "[[motors]]\nid = \"OK\"\nstrip = \"narrow\"\nloop = \"300 mm\"\n");
  CHECK(calc::work_out(both, {.only = std::vector<MotorId>{{"OK", 1}}}).ok());
}

TEST_CASE("neither size nor rule is a fault of the plan; of several rules one has to be named") {
  const auto none = test::read(
      "format = 1\nbench = { scale_step = \"1 mg\" }\nstrips.a = { width = \"2 mm\", thickness = "
      "\"1 mm\" }\n[[motors]]\nid = \"CH\"\n");
  CHECK(
      test::said(none.diagnostics()).find("or a rule, then `check` shows what each strip gives") !=
      std::string::npos);
  std::string two = shelf_and("");
  two.insert(two.find("[rings"), "[rules.cup]\nlimit = \"1 g\"\ncounts = [\"rubber\"]\n");
  CHECK(test::said(test::read(two).diagnostics()).find("a rule, one of club") != std::string::npos);
}
