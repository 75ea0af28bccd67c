// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include "plan/sections.h"
#include "support/plan_text.h"

using namespace loopledger;
using test::read;
using test::said;
using test::with_head;

namespace {

std::string faults(const std::string& keys) {
  const auto plan = read(with_head("[[motors]]\n" + keys + "\n"));
  std::string out;
  for (const Diagnostic& d : plan.diagnostics()) {
    out += d.message + " | " + d.hint + "\n";
  }
  return out;
}

}  // namespace

TEST_CASE("references are resolved, and a wrong name gets the nearest one") {
  CHECK(faults("id = \"A\"\nloop = \"300 mm\"\nrule = \"clubb\"") ==
        "rule: expected the name of a table [rules.NAME], found \"clubb\" | did you mean "
        "\"club\"?\n");
  CHECK(faults("id = \"A\"\nloop = \"300 mm\"\nrings = \"tube\"") ==
        "rings: expected the name of a table [rings.NAME], found \"tube\" | add a table "
        "[rings.tube]\n");
}

TEST_CASE("with one strip and one rule neither needs naming") {
  const auto plan = read(with_head("[[motors]]\nid = \"A\"\nmass = \"limit\"\n"));
  REQUIRE_MESSAGE(plan.ok(), said(plan.diagnostics()));
  CHECK(plan->motors.front().rule == 0u);
}

TEST_CASE("a mass that is not the limit has no rule unless it names one") {
  const auto plan = read(with_head("[[motors]]\nid = \"A\"\nmass = \"1.4 g\"\n"));
  REQUIRE(plan.ok());
  CHECK_FALSE(plan->motors.front().rule.has_value());
}

TEST_CASE("strands are even, ids short, counts at least one") {
  CHECK(faults("id = \"A\"\nloop = \"300 mm\"\nstrands = 5") ==
        "strands: expected an even number, found 5 | a loop has 2 strands, a skein 4 or 6\n");
  CHECK(faults("id = \"A-1\"\nloop = \"300 mm\"") ==
        "id: expected 1 to 8 letters or digits, found \"A-1\" | such as id = \"TH\"; the number is "
        "added\n");
  CHECK(faults("id = \"A\"\nloop = \"300 mm\"\ncount = 0") ==
        "count: expected at least 1 and at most 10000, found 0 | check the number and its unit\n");
  CHECK(faults("id = \"A\"\nloop = \"300 mm\"\nfirst = 9999\ncount = 2") ==
        "2 motors from number 9999 on pass the last number 9999 | use another stem\n");
}

TEST_CASE("text with control characters or too much of it is refused") {
  CHECK(faults("id = \"A\"\nloop = \"300 mm\"\nowner = \"a\\u001b[31m\"") ==
        "owner: expected plain text, found control characters | take out line breaks, tabs and "
        "direction marks\n");
  CHECK(faults("id = \"A\"\nloop = \"300 mm\"\nowner = \"" + std::string(61, 'x') + "\"") ==
        "owner: expected at most 60 characters, found 61 | shorten the text\n");
}

TEST_CASE("the default window is the larger of 3 mg and two scale steps") {
  std::string text = with_head("[[motors]]\nid = \"A\"\nloop = \"300 mm\"\n");
  text.replace(text.find("1 mg"), 4, "10 mg");
  const auto plan = read(text);
  REQUIRE(plan.ok());
  CHECK(plan->motors.front().window.value == Mass::mg(20));
}
