// SPDX-License-Identifier: MIT
#include "calc/rule_parts.h"

#include <doctest/doctest.h>

#include <string_view>
#include <vector>

#include "calc/work_out.h"
#include "support/small_plan.h"

using namespace loopledger;
using test::given;
using Words = std::vector<std::string_view>;

namespace {

records::Planned planned_under(const Counts& counts) {
  records::Planned planned;
  planned.rule = records::PlannedRule{.name = "club",
                                      .limit = Mass::g(1.8),
                                      .counts = counts,
                                      .weighed = Weighed::fresh,
                                      .official_error = {}};
  return planned;
}

/// One motor at the limit of a rule that counts all that there is.
plan::Plan plan_that_counts_all() {
  plan::Plan plan = test::small_plan(test::weighed_strip(Length::mm(500), Mass::g(1.31)));
  plan::Rule rule;
  rule.name = "club";
  rule.limit = given(Mass::g(1.8));
  rule.counts = given(Counts{.rubber = true, .lubricant = true, .rings = true, .adhesive = true});
  plan.rules.push_back(rule);
  plan.motors[0].rule = 0;
  plan.motors[0].mass_is_limit = true;
  plan.motors[0].place = {"night.toml", 7, 1};
  return plan;
}

}  // namespace

TEST_CASE("what the rule counts and the motor has none of is told in the plan's words") {
  CHECK(calc::counted_but_not_named(
            planned_under({.rubber = true, .lubricant = true, .rings = true, .adhesive = true})) ==
        Words{"lubricant", "rings", "adhesive"});
  CHECK(calc::counted_but_not_named(planned_under({.rubber = true, .rings = true})) ==
        Words{"rings"});
}

TEST_CASE("nothing is missing without a rule, of what does not count, or of what is named") {
  CHECK(calc::counted_but_not_named(records::Planned{}).empty());
  CHECK(calc::counted_but_not_named(planned_under({})).empty());
  records::Planned oiled = planned_under({.rubber = true, .lubricant = true});
  oiled.lubricant = "dry";  // with an uptake of 0 %: said, and none
  CHECK(calc::counted_but_not_named(oiled).empty());
}

TEST_CASE("a group is warned of once, at its place, with what counts and what to type") {
  plan::Plan plan = plan_that_counts_all();
  plan.motors[0].count = given(3);
  const auto batch = calc::work_out(plan);
  REQUIRE(batch);
  const Diagnostics said = calc::check_rule_parts(plan, *batch);
  REQUIRE(said.size() == 1);
  CHECK(said[0].code == "rule-parts");
  CHECK(said[0].severity == Severity::warning);
  CHECK(said[0].place.line == 7);
  CHECK(said[0].message.find("counts lubricant, rings and adhesive, and the motors name none") !=
        std::string::npos);
  for (const char* typed : {"[lubricants.oil] uptake = ", "[rings.small] weighed = ",
                            "[adhesives.glue] mass = ", "`counts`"}) {
    CAPTURE(typed);
    CHECK(said[0].hint.find(typed) != std::string::npos);
  }
}

TEST_CASE("a group that is still to be chosen is warned of too; one that names all is not") {
  plan::Plan plan = plan_that_counts_all();
  plan.motors[0].mass_is_limit = false;
  plan.motors[0].choosing = true;
  const auto choices = calc::work_out(plan, {.choices = true});
  REQUIRE(choices);
  REQUIRE(!choices->choices.empty());
  CHECK(calc::check_rule_parts(plan, *choices).size() == 1);

  plan = plan_that_counts_all();
  plan.rings.push_back(test::ten_rings());
  plan.lubricants.emplace_back().name = "oil";
  plan.adhesives.emplace_back().name = "glue";
  plan.motors[0].rings = plan.motors[0].lubricant = plan.motors[0].adhesive = 0;
  const auto named = calc::work_out(plan);
  REQUIRE(named);
  CHECK(calc::check_rule_parts(plan, *named).empty());
}
