// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <fstream>
#include <sstream>

#include "base/text.h"
#include "support/cli_run.h"
#include "support/club_plan.h"
#include "support/read_json.h"

using namespace loopledger;
using test::check_json;
using test::has;
using test::run;
using test::TempFolder;

namespace {

const std::string kExamples = std::string(LOOPLEDGER_SOURCE_DIR) + "/examples/";

constexpr const char* kCheckPlan = R"(format = 1
bench = { scale_step = "1 mg" }
rules.club = { limit = "1.5 g", counts = ["rubber"] }
[strips.tan]
samples = [["1 m", "2 g"], ["1 m", "2 g"], ["1 m", "2 g"]]
pieces = [{ tag = "a", length = "2 m" }]
[[motors]]
id = "TH"
count = 2
rule = "club"
mass = "limit"
)";

std::string whole_file(const std::string& path) {
  std::ifstream in(path);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

}  // namespace

TEST_CASE("check shows windows, lengths, turns and the cutting plan, and writes nothing") {
  const TempFolder folder;
  const auto ran = run({"check", folder.write("night.toml", kCheckPlan)});
  CHECK(ran.code == 0);
  CHECK(ran.err.empty());
  // u = 0.7071 mg, k = 1.645: the washed end is 1.49884 g.
  CHECK(has(ran.out, "TH-01…02        1.496  1.517  1.496–1.498"));
  CHECK(has(ran.out, "estimate"));
  CHECK(has(ran.out, "Cutting plan, mm from the clean end\n  tan a, 2000 mm; left "));
  CHECK(has(ran.out, "\n    TH-01 "));
  CHECK(has(ran.out, "Proven: least scrap, then fewest pieces touched"));
  CHECK(has(ran.out, "what stays on the shelf would give, each kind alone:\n    "));
  CHECK(has(ran.out, " more like TH-01…02\n"));
  CHECK_FALSE(folder.holds("out"));
  CHECK_FALSE(folder.holds("records"));
}

TEST_CASE("the tables of every example fit 100 columns, in both units") {
  for (const char* plan : {"club-night.toml", "school-cup.toml", "meadow-10g.toml"}) {
    for (const char* units : {"metric", "inch"}) {
      const auto ran = run({"check", kExamples + plan, "--units", units});
      CHECK(ran.code == 0);
      std::istringstream lines(ran.out);
      for (std::string line; std::getline(lines, line);) {
        CHECK_MESSAGE(terminal_width(line) <= 100, line);
      }
    }
  }
}

TEST_CASE("a group without a size gets a table over the strips of the shelf to choose from") {
  const TempFolder folder;
  (void)folder.write("shelf.toml", whole_file(kExamples + "shelf.toml"));
  const std::string plan =
      folder.write("choose.toml",
                   "format = 1\ntake = [\"shelf.toml\"]\n[[motors]]\nid = \"ch\"\ncount = 4\n"
                   "rule = \"hall-league\"\nhooks = \"265 mm\"\nlubricant = \"soap\"\n");
  const auto ran = run({"check", plan});
  CHECK(ran.code == 0);
  CHECK(has(ran.out,
            "CH, 4 motors: no size yet. At the limit of rule hall-league, 1.5 g, with 265 mm "
            "between the hooks\n"));
  CHECK(has(ran.out, "amber-24        2  2.4 mm  291 mm    26 mm     1113      1190"));
  CHECK(has(ran.out, "smoke-17        4  1.9 mm  202 mm   -63 mm"));
  CHECK(has(ran.out, "Write what you choose into the plan"));
  for (const char* units : {"metric", "inch"}) {
    std::istringstream lines(run({"check", plan, "--units", units}).out);
    for (std::string line; std::getline(lines, line);) {
      CHECK_MESSAGE(terminal_width(line) <= 100, line);
    }
  }
  const auto json = run({"check", plan, "--json"});
  CHECK(json.code == 0);
  check_json(json.out, {{"choices.#", "4"},
                        {"choices[0].strip", "\"amber-24\""},
                        {"choices[0].slack_mm", "number"}});
  const auto print = run({"print", plan});
  CHECK(print.code == 1);
  CHECK(has(print.err, "motors \"CH\" have no size yet"));
  CHECK_FALSE(folder.holds("out"));
}

TEST_CASE("check shows energies beside what good rubber returns, and the slack on the hooks") {
  const auto ran = run({"check", kExamples + "club-night.toml"});
  CHECK(has(ran.out, "Energy let out, estimates (good rubber returned 9.0 to 14.3 J/g)"));
  // 9.1 J/g of rubber in the loop; the knot's 16 mm of 598 hold none.
  CHECK(has(ran.out, "8.8           62–99 %"));
  CHECK(has(ran.out, "  slack  strands"));
}

TEST_CASE("check shows break-in steps with the interval of the torque, and what bounds a winding") {
  const auto ran = run({"check", kExamples + "club-night.toml"});
  CHECK(has(ran.out, "    626      41  44.6 gf·cm (27.3–72.8)  1 min  30 min      1\n"));
  // Only a torque stops this one: the turns never to pass are said.
  CHECK(has(ran.out, "BR-01…06     2           -  to 1630       -    34.3 gf·cm (21–56.1)"));
  CHECK(has(ran.out, "  six-times, step 1: lubricated\n"));
  CHECK(has(ran.out, "291 mm     300 mm  26 mm"));
  const auto json = run({"check", kExamples + "club-night.toml", "--json"});
  CHECK(has(json.out, "\"stop_torque_low_mNm\": 2."));
  CHECK(has(json.out, "\"note\": \"lubricated\""));
  CHECK(has(json.out, "\"loop_broken_in_mm\": 299."));
}

TEST_CASE(
    "a recipe past do not pass is refused once for each group, and not where nobody uses it") {
  const TempFolder folder;
  std::string plan =
      "format = 1\nbench = { scale_step = \"1 mg\" }\n[strips.tan]\nwidth = \"2 mm\"\n"
      "samples = [[\"1 m\", \"2 g\"], [\"1 m\", \"2 g\"], [\"1 m\", \"2 g\"]]\n"
      "pieces = [{ length = \"3 m\", mass = \"6.1 g\" }, { length = \"3 m\", mass = \"5.9 g\" }]\n"
      "[recipes.hasty]\nsteps = [{ turns = \"95 %\" }, { turns = \"50 %\" }]\n"
      "[[motors]]\nid = \"TH\"\ncount = 3\nloop = \"300 mm\"\n";
  CHECK(run({"check", folder.write("unused.toml", plan)}).code == 0);
  plan += "recipe = \"hasty\"\n";
  const auto ran = run({"check", folder.write("hasty.toml", plan)});
  CHECK(ran.code == 1);
  CHECK(
      has(ran.err,
          "motors \"TH\", recipe \"hasty\": 95 % of the largest turns is 1512 turns, past \"do not "
          "pass\" at 1360 turns [recipe-past-limit]"));
  CHECK(has(ran.err, "hint: at most 85 % for strip \"tan\""));
  std::size_t times = 0;
  for (std::size_t at = ran.err.find("[recipe-past-limit]"); at != std::string::npos;
       at = ran.err.find("[recipe-past-limit]", at + 1)) {
    ++times;
  }
  CHECK(times == 1);
}

TEST_CASE("check --json has the promised keys, null where nothing is known") {
  const TempFolder folder;
  const auto ran = run({"check", folder.write("night.toml", kCheckPlan), "--json"});
  CHECK(ran.code == 0);
  check_json(ran.out, {{"format", "1"},
                       {"motors[*].id", "[\"TH-01\", \"TH-02\"]"},
                       {"motors[*].check_char", "[\"J\", \"H\"]"},
                       {"motors[*].strands", "[2, 2]"},
                       {"motors[*].linear_density_g_per_m", "[2, 2]"},
                       {"motors[0].linear_density_u_g_per_m", "number"},
                       {"motors[*].limit_g", "[1.5, 1.5]"},
                       {"motors[0].stages.as_cut.about_g", "number"},
                       {"motors[0].stages.washed.guard_mg", "number"},
                       {"motors[0].cut_mm", "number"},
                       {"motors[0].cut_u_mm", "number"},
                       {"motors[0].stays_mm", "number"},
                       {"motors[0].mm_per_mg", "0.5"},
                       {"motors[0].loop_mm", "number"},
                       {"motors[*].width_mm", "[null, null]"},
                       {"motors[0].section_mm2", "number"},
                       {"motors[0].turns_max", "number"},
                       {"motors[0].turns_max_low", "number"},
                       {"motors[0].wind_to_turns", "number"},
                       {"motors[0].torque_max_mNm", "number"},
                       {"motors[0].energy_J", "number"},
                       {"motors[*].break_in", "[[], []]"},
                       {"motors[*].piece", "[\"a\", \"a\"]"},
                       {"cuts[*].piece", "[\"a\"]"},
                       {"cuts[0].piece_mm", "2000"},
                       {"cuts[0].motors", "[\"TH-01\", \"TH-02\"]"},
                       {"cuts[0].left_mm", "number"},
                       {"cuts[0].scrap", "true"},
                       {"cut_plan.proven", "true"},
                       {"cut_plan.gap_mm", "0"},
                       {"curve[0].turns_share", "0"},
                       {"curve[0].torque_share", "0"},
                       {"diagnostics", "[]"}});
}

TEST_CASE("faults go to standard error with exit code 1, and into the JSON") {
  const TempFolder folder;
  std::string text = kCheckPlan;
  text.replace(text.find("\"limit\""), 7, "\"9 g\"");
  const std::string plan = folder.write("night.toml", text);
  const auto ran = run({"check", plan});
  CHECK(ran.code == 1);
  CHECK(ran.out.empty());
  CHECK(has(ran.err, plan + ":11:8: error: too heavy for rule "));
  CHECK(has(ran.err, "   11 | mass = \"9 g\"\n"));
  const auto json = run({"check", plan, "--json"});
  CHECK(json.code == 1);
  check_json(json.out, {{"diagnostics[0].severity", "\"error\""},
                        {"diagnostics[0].file", "\"" + plan + "\""},
                        {"diagnostics[0].line", "11"},
                        {"diagnostics[0].column", "8"}});
}

TEST_CASE("a folder, a missing file and standard input") {
  const TempFolder folder;
  const auto is_folder = run({"check", folder.path()});
  CHECK(is_folder.code == 3);
  CHECK(is_folder.err == folder.path() + ": error: this is a folder, not a file [disk-folder]\n");
  CHECK(run({"check", folder.path("none.toml")}).code == 3);
  CHECK(run({"check", "-"}, kCheckPlan).code == 0);
  CHECK(has(run({"check", "-"}, "x = \n").err, "<standard input>:1:"));
}

TEST_CASE("a misspelt command names the nearest one, with the exit code of usage") {
  const auto ran = run({"chek", "x"});
  CHECK(ran.code == 2);
  CHECK(ran.err ==
        "loopledger: error: expected a command, found \"chek\" [usage-command]\n"
        "  hint: did you mean `loopledger check`?\n");
  CHECK(run({}).code == 2);
  CHECK(run({"--help"}).code == 0);
  CHECK(has(run({"--version"}).out, "loopledger "));
}

TEST_CASE("a link in which the id can't be found again is an error") {
  const TempFolder folder;
  const auto plan_with = [&](const std::string& link) {
    return run({"check", folder.write("n.toml", "link = \"" + link + "\"\n" + kCheckPlan)});
  };
  CHECK(plan_with("https://example.org/m/{id}").code == 0);
  const auto glued = plan_with("https://example.org/m-{id}");
  CHECK(glued.code == 1);
  CHECK(has(glued.err, "n.toml:1:8: error: link: the id can't be told from the rest"));
}

TEST_CASE("check --json has the cuts' places, and nulls where there is no cutting plan") {
  const TempFolder folder;
  std::string plan = test::club_plan(2);
  const std::string none = run({"check", folder.write("a.toml", plan), "--json"}).out;
  check_json(none, {{"cuts", "[]"},
                    {"cut_plan.proven", "null"},
                    {"cut_plan.gap_mm", "null"},
                    {"cut_plan.motors_gap", "null"},
                    {"cut_plan.pieces_gap", "null"},
                    {"cut_plan.longest_gap_mm", "null"}});
  plan.insert(plan.find("samples"),
              "pieces = [{ tag = \"a\", length = \"4 m\" }], ends = \"5 mm\", ");
  const std::string made = run({"check", folder.write("b.toml", plan), "--json"}).out;
  check_json(made, {{"cuts[*].ends_mm", "[5]"},
                    {"cuts[0].cut_at_mm.#", "2"},
                    {"cuts[0].cut_at_mm[0]", "number"},
                    {"cut_plan.motors_gap", "0"}});
}

TEST_CASE("pieces with a linear density of their own are told apart, others are one line") {
  const TempFolder folder;
  const std::string plan = R"(format = 1
bench = { scale_step = "1 mg" }
[strips.grey]
samples = [["1 m", "2 g"], ["1 m", "2.01 g"], ["1 m", "2 g"]]
pieces = [{ tag = "a", length = "2 m" }, { tag = "b", length = "2 m" }]
[[motors]]
id = "TH"
count = 5
mass = "1.2 g"
)";
  const std::string alike = run({"check", folder.write("night.toml", plan)}).out;
  CHECK(has(alike, "  strip grey: 2.0033 ± "));
  std::string weighed = plan;
  weighed.replace(weighed.find("length = \"2 m\""), 14, "length = \"2 m\", mass = \"4.2 g\"");
  const std::string apart = run({"check", folder.write("night.toml", weighed)}).out;
  CHECK(has(apart, "  strip grey, piece a: 2.1000 ± "));
  CHECK(has(apart, "  strip grey, piece b: 2.0033 ± "));
}

TEST_CASE("how sure a cut is stands beside it as an interval, as all else is") {
  const TempFolder folder;
  const auto ran = run({"check", folder.write("night.toml", R"(format = 1
bench = { scale_step = "1 mg" }
strips.tan = { width = "1/8 in", thickness = "1.05 mm" }
motors = [{ id = "TN", mass = "1.2 g" }]
)")});
  // 5 % of the 387 mm that hold 1.2 g, twice over: and so much the default allowance covers.
  CHECK(has(ran.out, "± 95 %"));
  CHECK(has(ran.out, "  426 mm   38 mm  "));
}
