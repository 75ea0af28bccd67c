// SPDX-License-Identifier: MIT
#include "plan/sections.h"

#include <doctest/doctest.h>

#include "support/plan_text.h"

using namespace loopledger;
using test::read;
using test::said;
using test::with_head;

namespace {

const std::string kMotor = "[[motors]]\nid = \"A\"\nstrip = \"tan\"\nloop = \"300 mm\"\n";

Result<plan::Plan> with_table(const std::string& table, const test::Texts& texts = {}) {
  return read(with_head(table + "\n" + kMotor), texts);
}

std::string fault(const std::string& table, const test::Texts& texts = {}) {
  const auto plan = with_table(table, texts);
  CHECK_FALSE(plan.ok());
  return plan.ok() ? std::string{} : plan.diagnostics().front().message;
}

}  // namespace

TEST_SUITE("strips") {
  TEST_CASE("all keys of a strip are read") {
    const auto plan = with_table(R"([strips.full]
lot = "L1"
width = "3/32 in"
thickness = "1.05 mm"
density = "0.95 g/cm3"
samples = [["500 mm", "1.214 g"], ["800 mm", "1.940 g"]]
samples_washed = false
talc = "0.8 % ± 0.3 %"
pieces = [{ tag = "a", length = "4.20 m" }, { tag = "b", mass = "2.08 g" }, { length = "1 m", mass = "2.5 g" }]
keep = "250 mm"
ends = "5 mm"
turns_factor = "11.2 ± 0.6"
torque_factor = "0.55 MPa ± 0.1 MPa")");
    REQUIRE_MESSAGE(plan.ok(), said(plan.diagnostics()));
    const plan::Strip& strip = plan->strips.back();
    CHECK(strip.width.value.in_in() == doctest::Approx(3.0 / 32));
    CHECK(strip.samples.size() == 2);
    CHECK_FALSE(strip.samples_washed.value);
    CHECK(strip.talc.value.u.in_percent() == doctest::Approx(0.3));
    REQUIRE(strip.pieces.size() == 3);
    CHECK_FALSE(strip.pieces[1].length.has_value());
    CHECK(strip.pieces[2].tag == "3");
    CHECK(strip.turns_factor.value.u == doctest::Approx(0.6));
    CHECK(strip.torque_factor.value.value.in_mpa() == doctest::Approx(0.55));
  }

  TEST_CASE("a bare number is a factor without an uncertainty of its own") {
    const auto plan =
        with_table("strips.b = { samples = [[\"1 m\", \"2 g\"]], turns_factor = 11.5 }");
    REQUIRE_MESSAGE(plan.ok(), said(plan.diagnostics()));
    CHECK(plan->strips.back().turns_factor.value.value == 11.5);
    CHECK(plan->strips.back().turns_factor.value.u == 0);
  }

  TEST_CASE("a strip needs samples, or width and thickness") {
    CHECK(fault("strips.b = { width = \"3 mm\" }") ==
          "strip \"b\": expected `samples`, or `width` and `thickness`, found neither");
    CHECK(fault("strips.b = { samples = [] }") == "strip \"b\": samples holds none");
  }

  TEST_CASE("a piece needs a length or a mass, and a tag of its own") {
    CHECK(fault("strips.b = { samples = [[\"1 m\", \"2 g\"]], pieces = [{ tag = \"a\" }] }") ==
          "piece: expected a length or a mass, found neither");
    CHECK(
        fault("strips.b = { samples = [[\"1 m\", \"2 g\"]], pieces = [{ tag = \"a\", length = \"1 "
              "m\" }, { tag = \"a\", length = \"2 m\" }] }") ==
        "strip \"b\": two pieces have the tag \"a\"");
  }

  TEST_CASE("a piece without a tag gets a number that no other piece was given") {
    const auto plan = with_table(
        "strips.b = { samples = [[\"1 m\", \"2 g\"]], pieces = [{ tag = \"2\", length = \"1 m\" }, "
        "{ length = \"3 m\" }, { length = \"4 m\" }, { tag = \"4\", length = \"5 m\" }] }");
    REQUIRE_MESSAGE(plan.ok(), said(plan.diagnostics()));
    std::string tags;
    for (const plan::Piece& piece : plan->strips.back().pieces) {
      tags += piece.tag + " ";
    }
    CHECK(tags == "2 3 5 4 ");
  }

  TEST_CASE(
      "what stands behind a ± is at most the value, or what the value may be if it may be 0") {
    const auto strip = [](const std::string& key) {
      return "strips.b = { samples = [[\"1 m\", \"2 g\"]], " + key + " }";
    };
    CHECK(fault(strip("turns_factor = \"11.0 ± 90\"")) ==
          "turns_factor: expected at most 11 behind the ±, found \"11.0 ± 90\"");
    CHECK(fault(strip("torque_factor = \"0.6 MPa ± 0.7 MPa\"")) ==
          "torque_factor: expected at most 0.6 MPa behind the ±, found \"0.6 MPa ± 0.7 MPa\"");
    CHECK(fault(strip("talc = \"0.9 % ± 30 %\"")) ==
          "talc: expected at most 20 % behind the ±, found \"0.9 % ± 30 %\"");
    CHECK(with_table(strip("turns_factor = \"11.0 ± 0.9\", talc = \"0 % ± 0.5 %\"")).ok());
  }
}

TEST_SUITE("rules") {
  TEST_CASE("a rule from a template keeps its source, and its own keys win") {
    const auto plan = with_table(
        "[rules.mine]\ntake = \"x\"\ncounts = [\"rubber\", \"rings\"]",
        {{"rules/x", "limit = \"0.4 g\"\ncounts = [\"rubber\"]\nsource = \"S\"\ncheck = \"C\"\n"}});
    REQUIRE_MESSAGE(plan.ok(), said(plan.diagnostics()));
    const plan::Rule& rule = plan->rules.back();
    CHECK(rule.limit.value.in_g() == doctest::Approx(0.4));
    CHECK(rule.counts.value.rings);
    CHECK_FALSE(rule.counts.value.lubricant);
    CHECK(rule.source == "S");
    CHECK(rule.check == "C");
  }

  TEST_CASE("what counts is the plan's to say when the template does not know") {
    CHECK(fault("rules.mine.take = \"x\"", {{"rules/x", "limit = \"1.5 g\"\n"}}) ==
          "rule \"mine\": expected the key `counts`, found none");
  }

  TEST_CASE("rubber always counts, and a misspelt part is named") {
    CHECK(fault("rules.r = { limit = \"1 g\", counts = [\"rings\"] }") ==
          "rule \"r\": rubber always counts");
    CHECK(fault("rules.r = { limit = \"1 g\", counts = [\"rubber\", \"rinks\"] }") ==
          "counts: \"rinks\" is not one of rubber, lubricant, rings or adhesive");
  }

  TEST_CASE("an unknown template is reported where it is taken") {
    const auto plan = with_table("[rules.r]\ntake = \"fai-x\"");
    REQUIRE_FALSE(plan.ok());
    CHECK(plan.diagnostics().front().place.column == 8);
  }
}

TEST_SUITE("rings, lubricants, adhesives, recipes") {
  TEST_CASE("what is left of a lubricant is its uptake unless the plan says otherwise") {
    const auto plan = with_table("lubricants.oil = { uptake = \"1.2 % ± 0.4 %\" }");
    REQUIRE(plan.ok());
    CHECK(plan->lubricants.front().left.value.value == Share::percent(1.2));
  }

  TEST_CASE("missing masses and shares are named") {
    CHECK(fault("rings.r = { weighed = 10 }") ==
          "rings \"r\": expected the key `mass`, found none");
    CHECK(fault("lubricants.o = {}") == "lubricant \"o\": expected the key `uptake`, found none");
    CHECK(fault("adhesives.a = {}") == "adhesive \"a\": expected the key `mass`, found none");
    CHECK(fault("recipes.x = {}") == "recipe \"x\": expected the key `steps`, found none");
  }

  TEST_CASE("a recipe's steps are read, and a step that says nothing is an error") {
    const auto plan = with_table(
        "recipes.r = { steps = [{ stretch = 5.0, hold = \"5 min\" }, { turns = \"50 %\", torque = "
        "\"75 %\", hold = \"2 min\", rest = \"1 h\", repeat = 2 }] }");
    REQUIRE_MESSAGE(plan.ok(), said(plan.diagnostics()));
    const plan::Recipe& recipe = plan->recipes.front();
    REQUIRE(recipe.steps.size() == 2);
    CHECK(recipe.steps[0].stretch == 5.0);
    CHECK(recipe.steps[1].repeat == 2);
    CHECK(recipe.steps[1].rest->in_h() == doctest::Approx(1));
    CHECK(fault("recipes.r = { steps = [{ repeat = 2 }] }") == "recipe step: says nothing to do");
    CHECK(fault("recipes.r = { steps = [{ stretch = 9 }] }") ==
          "stretch: expected at least 1 and at most 8, found 9");
  }
}

TEST_CASE("a section that is not a table says how to write one") {
  CHECK(fault("rings = \"x\"") == "rings: expected a table, found text");
  CHECK(fault("rings.x = 3") == "rings: expected a table [rings.NAME], found the key `x`");
}
