// SPDX-License-Identifier: MIT
#include "calc/work_out.h"

#include <doctest/doctest.h>

#include "support/plan_text.h"

using namespace loopledger;
using doctest::Approx;

namespace {

constexpr const char* kNight = R"(format = 1
bench = { scale_step = "1 mg" }
[strips.tan]
samples = [["1 m", "2 g"], ["1 m", "2 g"], ["1 m", "2 g"]]
pieces = [{ tag = "a", length = "1300 mm" }, { tag = "b", length = "1 m", mass = "2.2 g" }]
keep = "100 mm"
[[motors]]
id = "TH"
count = 3
loop = "300 mm"
knot = "0 mm"
allowance = "0 mm"
)";

plan::Plan plan_of(const std::string& text) {
  auto plan = test::read(text);
  REQUIRE_MESSAGE(plan.ok(), render(plan.diagnostics()));
  return *plan;
}

}  // namespace

TEST_CASE("each motor carries the linear density of the piece it is cut from") {
  const auto batch = calc::work_out(plan_of(kNight));
  REQUIRE_MESSAGE(batch.ok(), render(batch.diagnostics()));
  REQUIRE(batch->motors.size() == 3);
  int from_b = 0;
  for (const auto& motor : batch->motors) {
    const bool b = motor.planned.piece == "b";
    from_b += b ? 1 : 0;
    CHECK(motor.planned.linear_density.value.in_g_per_m() == Approx(b ? 2.2 : 2.0));
    CHECK(motor.planned.aim.in_g() == Approx(b ? 1.32 : 1.2));
    CHECK(motor.energy.value.in_joule() > 0);
  }
  CHECK(from_b == 1);
  CHECK(batch->cutting.made);
  CHECK(batch->cutting.proven);
  // 2 x 600 mm of a, 600 mm of b: 100 mm and 400 mm stay, b's mass in proportion.
  REQUIRE(batch->cutting.after.size() == 1);
  const auto& after = batch->cutting.after[0].pieces;
  REQUIRE(after.size() == 2);
  CHECK(after[0].length.in_mm() == Approx(100));
  CHECK_FALSE(after[0].mass.has_value());
  CHECK(after[1].length.in_mm() == Approx(400));
  CHECK(after[1].mass->in_g() == Approx(0.88));
  REQUIRE(batch->cutting.more.size() == 1);
  CHECK(batch->cutting.more[0].count == 0);
}

TEST_CASE("a remnant exactly as long as what is kept is no scrap, and stays on the shelf") {
  for (int loop = 100; loop < 400; loop += 5) {
    for (int count = 1; count <= 4; ++count) {
      const int cut = 2 * loop + 26;
      const plan::Plan plan = plan_of(
          "format = 1\nbench = { scale_step = \"1 mg\" }\n[strips.a]\n"
          "samples = [[\"1 m\", \"2.4 g\"]]\npieces = [{ tag = \"p\", length = \"" +
          std::to_string((count + 1) * cut) +
          " mm\" }]\n[[motors]]\nid = \"AA\"\ncount = " + std::to_string(count) +
          "\nwindow = \"40 mg\"\nloop = \"" + std::to_string(loop) + " mm\"\n");
      CAPTURE(loop);
      CAPTURE(count);
      const auto batch = calc::work_out(plan);
      REQUIRE(batch.ok());
      CHECK_FALSE(batch->cutting.pieces.at(0).scrap);
      CHECK(batch->cutting.after.at(0).pieces.size() == 1);
    }
  }
}

TEST_CASE("where the effort is used up, no plan found is not told as no plan possible") {
  // 2 x 3 motors that fill two pieces to the last hundredth of a millimetre, in one way only.
  std::string text =
      "format = 1\nbench = { scale_step = \"1 mg\" }\n[strips.a]\n"
      "samples = [[\"1 m\", \"2.4 g\"]]\nkeep = \"100 mm\"\n"
      "pieces = [{ tag = \"p\", length = \"1000 mm\" }, "
      "{ tag = \"q\", length = \"1000 mm\" }]\n";
  for (const auto& [id, cut] :
       {std::pair{"AA", 501.13}, std::pair{"AB", 397.19}, std::pair{"AC", 377.31},
        std::pair{"AD", 322.79}, std::pair{"AE", 225.49}, std::pair{"AF", 176.08}}) {
    text += "[[motors]]\nid = \"" + std::string(id) + "\"\nknot = \"0 mm\"\nwindow = \"20 mg\"\n" +
            "allowance = \"0 mm\"\nloop = \"" + std::to_string(cut / 2) + " mm\"\n";
  }
  const plan::Plan plan = plan_of(text);
  calc::WorkOptions hasty;
  hasty.cutting_effort = 8;
  const auto batch = calc::work_out(plan, hasty);
  REQUIRE_FALSE(batch.ok());
  const Diagnostic& d = batch.diagnostics().back();
  CHECK(d.message ==
        "strip \"a\": the best plan that was found cuts 5 of 6 motors, without AF-01; whether 1 "
        "more can be cut is not settled: the strip only just suffices, or not quite");
  CHECK(d.hint ==
        "add a piece or a few mm of strip, plan fewer motors, or --short prints the 5 that can be "
        "cut");
  CHECK(calc::work_out(plan).ok());
}

TEST_CASE("pieces too short name the shortfall and the best that can be cut") {
  std::string text = kNight;
  text.replace(text.find("count = 3"), 9, "count = 5");
  const plan::Plan plan = plan_of(text);
  const auto batch = calc::work_out(plan);
  REQUIRE_FALSE(batch.ok());
  const Diagnostic& d = batch.diagnostics().back();
  CHECK(d.code == "pieces-short");
  CHECK(d.message ==
        "strip \"tan\": its pieces give 3 of 5 motors; TH-04, TH-05 can't be cut, 1200 mm of strip "
        "is missing (longest remnant 400 mm)");
  CHECK(d.hint == "add pieces, plan fewer motors, or --short prints the 3 that can be cut");

  const auto cut = calc::work_out(plan, {true, std::nullopt});
  REQUIRE(cut.ok());
  CHECK_FALSE(cut->motors[4].cut);
  CHECK(cut->cutting.shortfall.in_mm() == Approx(1200));
}

TEST_CASE("only some motors of a plan can be worked out") {
  const auto batch = calc::work_out(plan_of(kNight), {false, std::vector<MotorId>{{"TH", 2}}});
  REQUIRE(batch.ok());
  REQUIRE(batch->motors.size() == 1);
  CHECK(printed(batch->motors[0].id) == "TH-02");
}

TEST_CASE("fewer than three samples is a note that asks for three") {
  std::string text = kNight;
  text.replace(text.find("samples = "), 58, "samples = [[\"1 m\", \"2 g\"]]");
  const auto batch = calc::work_out(plan_of(text));
  REQUIRE_MESSAGE(batch.ok(), render(batch.diagnostics()));
  REQUIRE(batch.diagnostics().size() == 1);
  CHECK(batch.diagnostics()[0].severity == Severity::note);
  CHECK(batch.diagnostics()[0].hint == "measure and weigh three lengths from different places");
}

TEST_CASE("a recipe's step past the limit is told once for a strip, with what all pieces allow") {
  // Each piece has a linear density of its own, and is known less well than the strip by samples.
  const std::string text = R"(format = 1
bench = { scale_step = "10 mg", scale_error = "25 mg" }
[strips.tan]
samples = [["5 m", "10 g"], ["5 m", "10 g"], ["5 m", "10 g"]]
pieces = [{ tag = "a", length = "1300 mm", mass = "2.66 g" },
          { tag = "b", length = "650 mm", mass = "1.3 g" },
          { tag = "c", length = "700 mm", mass = "1.38 g" }]
[recipes.hard]
steps = [{ turns = "50 %" }, { turns = "85.46 %" }, { turns = "85.48 %" }]
[[motors]]
id = "TH"
count = 2
loop = "300 mm"
recipe = "hard"
[[motors]]
id = "JR"
loop = "250 mm"
recipe = "hard"
)";
  const auto batch = calc::work_out(plan_of(text));
  REQUIRE_FALSE(batch.ok());
  std::vector<std::string> told;
  for (const Diagnostic& d : batch.diagnostics()) {
    CHECK(d.code == "recipe-past-limit");
    CHECK(d.hint == "at most 85 % for strip \"tan\"");
    told.push_back(d.message);
  }
  REQUIRE(told.size() == 4);
  CHECK(told[0].find("motors \"TH\", recipe \"hard\": 85.46 % of the largest turns is 1360 turns, "
                     "past \"do not pass\" at 1359 turns") == 0);
  CHECK(told[1].find("motors \"TH\", recipe \"hard\": 85.48 %") == 0);
  CHECK(told[2].find("motors \"JR\", recipe \"hard\": 85.46 %") == 0);
  CHECK(told[3].find("motors \"JR\", recipe \"hard\": 85.48 %") == 0);
}
