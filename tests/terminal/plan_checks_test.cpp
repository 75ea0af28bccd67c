// SPDX-License-Identifier: MIT
//
// What check and print refuse and warn of alike.
#include <doctest/doctest.h>

#include <filesystem>
#include <string>

#include "support/cli_run.h"
#include "support/done.h"

using namespace loopledger;
using test::done;
using test::has;
using test::run;
using test::TempFolder;

namespace {

/// A plan with something above its tables and something in its motors' table.
std::string plan_with(const std::string& top, const std::string& motors,
                      const std::string& counts = "\"rubber\"") {
  return "format = 1\n" + top +
         "\nbench = { scale_step = \"1 mg\" }\nrules.club = { limit = \"1.8 g\", counts = [" +
         counts +
         "] }\nstrips.tan = { width = \"1/8 in\", samples = [[\"500 mm\", \"1.31 g\"], [\"800 "
         "mm\", "
         "\"2.096 g\"], [\"1 m\", \"2.62 g\"]] }\n[[motors]]\nid = \"AB\"\nrule = \"club\"\n" +
         motors + "\n";
}

constexpr const char* kLimit = "mass = \"limit\"";

}  // namespace

TEST_CASE("check refuses the names that print refuses, with the same codes") {
  const TempFolder folder;
  folder.write("broken.toml", "this is no stock\n");
  for (const char* top :
       {"paper = \"a44\"", "labels = \"a4-3x8-70x38\"", "slip = \"slipp\"",
        "labels = \"broken.toml\"", "slip = \"broken.toml\"", "labels = \"absent.toml\""}) {
    CAPTURE(top);
    const std::string plan = folder.write("night.toml", plan_with(top, kLimit));
    const auto checked = run({"check", plan});
    const auto printed = run({"print", plan, "--records", folder.path("records")});
    CHECK(checked.code != 0);
    CHECK(checked.code == printed.code);
    CHECK(checked.err == printed.err);
    CHECK(checked.out.empty());
    CHECK_FALSE(folder.holds("records"));
  }
}

TEST_CASE("a rule that counts what the motors don't name is warned of, and stands on the sheet") {
  const TempFolder folder;
  const std::string plan =
      folder.write("night.toml", plan_with("", kLimit, "\"rubber\", \"lubricant\""));
  const auto checked = run({"check", plan});
  CHECK(checked.code == 0);
  CHECK(has(checked.err, "rule \"club\" counts lubricant, and the motors name none"));
  CHECK(has(checked.err, "[rule-parts]"));
  CHECK(has(checked.err, "[lubricants.oil] uptake = "));
  const auto printed = run({"print", plan, "--records", folder.path("records")});
  CHECK(printed.code == 0);
  CHECK(has(printed.err, "[rule-parts]"));
  const auto rubber = done(run({"check", folder.write("night.toml", plan_with("", kLimit))}));
  CHECK(rubber.err.empty());
}

TEST_CASE("figures that no record takes are refused where the plan brings them") {
  const TempFolder folder;
  const auto tiny = folder.write(
      "tiny.toml",
      "format = 1\nbench = { scale_step = \"1 mg\", winder_ratio = 0.005 }\nstrips.tan = { width = "
      "\"2.5 mm\", thickness = \"1.1 mm\" }\n[[motors]]\nid = \"AB\"\nloop = \"330 mm\"\n");
  for (const char* command : {"check", "print"}) {
    const auto ran = run({command, tiny});
    CHECK(ran.code == 1);
    CHECK(has(ran.err, "winder_ratio: expected at least 0.1 and at most 100, found 0.005"));
    CHECK_FALSE(folder.holds("records"));
  }
  // The most turns that a plan can ask for, by a winder that is slower than the hook.
  const auto cranks = folder.write(
      "cranks.toml",
      "format = 1\nbench = { scale_step = \"1 mg\", winder_ratio = 0.5 }\nstrips.tan = { width = "
      "\"0.5 mm\", thickness = \"0.3 mm\" }\n[recipes.half]\nsteps = [{ turns = \"50 %\" }]\n"
      "[[motors]]\nid = \"AB\"\nloop = \"19 m\"\nrecipe = \"half\"\n");
  for (const char* command : {"check", "print"}) {
    const auto ran = run({command, cranks});
    CHECK(ran.code == 1);
    CHECK(has(ran.err, "cranks.toml:2:"));
    CHECK(has(ran.err, "AB-01: its record could not be read again: cranks: expected"));
    CHECK(has(ran.err, "[plan-record]"));
    CHECK_FALSE(folder.holds("records"));
  }
}

TEST_CASE("an eighth of an inch is 3.18 mm wherever it is shown") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", plan_with("", kLimit));
  const std::string records = folder.path("records");
  CHECK(has(run({"check", plan}).out, " 3.18 mm"));
  REQUIRE(run({"print", plan, "--records", records}).code == 0);
  CHECK(has(run({"show", "ab1", "--records", records}).out, "3.18 mm wide"));
}

TEST_CASE("a plan that is too large is refused alike, a little and far too large") {
  const TempFolder folder;
  const auto large = [&](std::size_t megabytes) {
    return run({"check", folder.write("night.toml",
                                      "format = 1\n#" + std::string(megabytes * 1048576U, 'x'))});
  };
  const auto little = large(5);
  const auto far = large(17);
  CHECK(little.code == 3);
  CHECK(far.code == 3);
  CHECK(little.err == far.err);
  CHECK(has(little.err, "larger than the 4 MB that are read"));
}

TEST_CASE("a record that is a link is read and told, and never written through") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", plan_with("", kLimit));
  const std::string records = folder.path("records");
  REQUIRE(run({"print", plan, "--records", records}).code == 0);
  std::filesystem::rename(records + "/AB-01.toml", folder.path("elsewhere.toml"));
  std::filesystem::create_symlink(folder.path("elsewhere.toml"), records + "/AB-01.toml");
  const std::string before = folder.read("elsewhere.toml");

  const auto shown = run({"show", "ab1", "--records", records});
  CHECK(shown.code == 0);
  CHECK(has(shown.err, "the record is a link to another file"));
  for (const std::vector<std::string>& command :
       {std::vector<std::string>{"log", "ab1", "note", "dry", "--records", records},
        {"mend", records + "/AB-01.toml", "--accept"},
        {"print", plan, "--records", records}}) {
    CAPTURE(command[0]);
    const auto ran = run(command);
    CHECK(ran.code == 3);
    CHECK(has(ran.err, "nothing is written through it"));
    CHECK(has(ran.err, "[disk-link]"));
    CHECK(folder.read("elsewhere.toml") == before);
  }
  // A hard link is the file itself.
  std::filesystem::remove(records + "/AB-01.toml");
  std::filesystem::create_hard_link(folder.path("elsewhere.toml"), records + "/AB-01.toml");
  CHECK(run({"log", "ab1", "note", "dry", "--records", records}).code == 0);
}

TEST_CASE(
    "paper and labels of the command line are no defaults: the sheets are as if the plan said it") {
  const TempFolder said;
  const TempFolder asked;
  const std::string top = "paper = \"letter\"\nlabels = \"a4-3x8-70x37\"";
  REQUIRE(run({"print", said.write("night.toml", plan_with(top, kLimit))}).code == 0);
  REQUIRE(run({"print", asked.write("night.toml", plan_with("", kLimit)), "--paper", "letter",
               "--labels", "a4-3x8-70x37"})
              .code == 0);
  CHECK(said.read("out/cut-sheet.pdf") == asked.read("out/cut-sheet.pdf"));
}
