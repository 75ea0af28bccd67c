// SPDX-License-Identifier: MIT
//
// Motor limits of the classes in templates/rules: FAI Sporting Code, Section 4, Volume F1, and a US
// national class, as read in secondary pages (modelenginenews.org/bffs/fai_f1.html; Model Aviation,
// Oct 2014; old.fai.org indoor models; indoorfreeflight.se/class-rules). That the lubricant of an
// F1B motor counts is from memory.
#include <doctest/doctest.h>

#include <string>

#include "plan/read.h"
#include "support/printed.h"
#include "support/templates.h"

using namespace loopledger;
using test::printed;

namespace {

constexpr Counts kRubberAndLubricant{
    .rubber = true, .lubricant = true, .rings = false, .adhesive = false};

/// A plan whose only rule takes the template; `more` are further keys beside the take.
Result<plan::Plan> plan_with(const std::string& rule, const std::string& more = {}) {
  return plan::read_plan("format = 1\n[bench]\nscale_step = \"1 mg\"\n[rules.event]\ntake = \"" +
                             rule + "\"\n" + more +
                             "[strips.sport]\nwidth = \"3/32 in\"\nthickness = \"1 mm\"\n"
                             "[[motors]]\nid = \"TH\"\nmass = \"limit\"\nrule = \"event\"\n"
                             "strip = \"sport\"\n",
                         "plan.toml", test::template_sources());
}

plan::Rule rule_of(const std::string& name) {
  const auto plan = plan_with(name);
  CAPTURE(render(plan.diagnostics()));
  REQUIRE(plan.ok());
  REQUIRE(plan->rules.size() == 1);
  return plan->rules[0];
}

}  // namespace

TEST_CASE("class limits: motors of the classes as read, lubricant counted") {
  struct Row {
    const char* file;
    const char* grams;
  };
  for (const Row& row : {Row{"fai-f1b", "30"}, Row{"fai-f1d", "0.4"}, Row{"fai-f1d-2014", "0.6"},
                         Row{"fai-f1g", "10"}, Row{"us-p30", "10"}}) {
    CAPTURE(row.file);
    const plan::Rule rule = rule_of(row.file);
    CHECK(rule.limit.value.in_g() == printed(row.grams));
    CHECK(rule.counts.given);
    CHECK(rule.counts.value == kRubberAndLubricant);
    CHECK(rule.weighed.value == Weighed::fresh);
  }
}

TEST_CASE("class limits: where no source says what F1M counts, the plan has to") {
  const auto silent = plan_with("fai-f1m");
  REQUIRE_FALSE(silent.ok());
  REQUIRE(silent.diagnostics().size() == 1);
  CHECK(render(silent.diagnostics()).find("counts") != std::string::npos);

  const auto said = plan_with("fai-f1m", "counts = [\"rubber\", \"lubricant\", \"rings\"]\n");
  REQUIRE(said.ok());
  CHECK(said->rules[0].limit.value.in_g() == printed("1.5"));
  CHECK(said->rules[0].counts.value.rings);
}

TEST_CASE("every class says where it was read and to check the edition in force") {
  for (const char* file : {"fai-f1b", "fai-f1d", "fai-f1d-2014", "fai-f1g", "fai-f1m", "us-p30"}) {
    CAPTURE(file);
    const auto plan =
        plan_with(file, std::string(file) == "fai-f1m" ? "counts = [\"rubber\"]\n" : "");
    REQUIRE(plan.ok());
    CHECK(plan->rules[0].source.find("read") + plan->rules[0].source.find("quoted") !=
          2 * std::string::npos);
    CHECK(plan->rules[0].check.find("check the edition in force") != std::string::npos);
  }
}
