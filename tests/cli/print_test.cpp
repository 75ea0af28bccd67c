// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <filesystem>

#include "support/cli_run.h"

using namespace loopledger;
using test::has;
using test::run;
using test::TempFolder;

namespace {

constexpr const char* kPrintPlan = R"(format = 1
title = "Invented night"
date = 2026-02-05
bench = { scale_step = "1 mg" }
rules.club = { limit = "1.5 g", counts = ["rubber"] }
[strips.tan]
width = "2.4 mm"
samples = [["1 m", "2 g"], ["1 m", "2 g"], ["1 m", "2 g"]]
[[motors]]
id = "TH"
count = 2
rule = "club"
mass = "limit"
)";

std::string changed(const std::string& from, const std::string& to) {
  std::string text = kPrintPlan;
  text.replace(text.find(from), from.size(), to);
  return text;
}

}  // namespace

TEST_CASE("print writes three PDFs and a record for each motor, beside the plan") {
  const TempFolder folder;
  const auto ran = run({"print", folder.write("night.toml", kPrintPlan)});
  REQUIRE_MESSAGE(ran.code == 0, ran.err);
  for (const char* name : {"out/cut-sheet.pdf", "out/break-in.pdf", "out/labels.pdf"}) {
    CHECK(folder.read(name).starts_with("%PDF-"));
  }
  CHECK(has(folder.read("records/TH-01.toml"), "format = 1"));
  CHECK(folder.holds("records/TH-02.toml"));
  CHECK(has(ran.out, "Opened 2 records in " + folder.path("records")));
}

TEST_CASE("the same plan printed again gives the same bytes and leaves the records alone") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", kPrintPlan);
  REQUIRE(run({"print", plan}).code == 0);
  const std::string sheet = folder.read("out/cut-sheet.pdf");
  const std::string labels = folder.read("out/labels.pdf");
  const std::string record = folder.read("records/TH-01.toml");
  const auto again = run({"print", plan});
  CHECK(again.code == 0);
  CHECK(has(again.out, "Opened 0 records"));
  CHECK(has(again.out, "2 were there already, unchanged"));
  CHECK(folder.read("out/cut-sheet.pdf") == sheet);
  CHECK(folder.read("out/labels.pdf") == labels);
  CHECK(folder.read("records/TH-01.toml") == record);
}

TEST_CASE("a record with other figures is refused, with the next free id, and nothing is written") {
  const TempFolder folder;
  REQUIRE(run({"print", folder.write("night.toml", kPrintPlan)}).code == 0);
  const std::string labels = folder.read("out/labels.pdf");
  for (const auto& [from, to] : {std::pair<std::string, std::string>{"\"1.5 g\"", "\"1.2 g\""},
                                 {"strips.tan", "strips.red"},
                                 {"[[motors]]\n", "[[motors]]\nallowance = \"25 mm\"\n"},
                                 {"[\"rubber\"]", "[\"rubber\", \"lubricant\"]"}}) {
    const auto ran = run({"print", folder.write("night.toml", changed(from, to))});
    CHECK(ran.code == 1);
    CHECK_MESSAGE(has(ran.err, "TH-01-J to TH-02-H (2 motors) have records with other figures"),
                  ran.err);
    CHECK(has(ran.err, "the next free one is TH-03: first = 3"));
    CHECK(folder.read("out/labels.pdf") == labels);
  }
  // What does not change the motor is no reason to refuse.
  CHECK(
      run({"print", folder.write("night.toml", changed("Invented night", "Another title"))}).code ==
      0);
}

TEST_CASE("nothing is written when the plan has a fault") {
  const TempFolder folder;
  const auto ran = run({"print", folder.write("night.toml", changed("\"2.4 mm\"", "\"2.4 g\""))});
  CHECK(ran.code == 1);
  CHECK_FALSE(folder.holds("out"));
  CHECK_FALSE(folder.holds("records"));
}

TEST_CASE("only some motors, or only those without a record, can be printed") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", kPrintPlan);
  REQUIRE(run({"print", plan, "--only", "th2"}).code == 0);
  CHECK_FALSE(folder.holds("records/TH-01.toml"));
  CHECK(folder.holds("records/TH-02.toml"));
  const auto rest = run({"print", plan, "--new"});
  CHECK(rest.code == 0);
  CHECK(has(rest.out, "Opened 1 record in"));
  const auto none = run({"print", plan, "--new"});
  CHECK(none.code == 1);
  CHECK(has(none.err, "every motor of the plan has a record"));
  const auto wrong = run({"print", plan, "--only", "th9"});
  CHECK(wrong.code == 1);
  CHECK(has(wrong.err, "the plan has no motor TH-09"));
}

TEST_CASE("an unknown stock names the nearest one at its place in the plan") {
  const TempFolder folder;
  const auto ran = run({"print", folder.write("night.toml", "labels = \"a4-3x8-70x36\"\n" +
                                                                std::string(kPrintPlan))});
  CHECK(ran.code == 1);
  CHECK(has(ran.err, ":1:10: error: there is no template \"a4-3x8-70x36\" in templates/stock"));
  CHECK(has(ran.err, "did you mean \"a4-3x8-70x37\"?"));
}

TEST_CASE("records and PDFs go where the options and the environment say") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", kPrintPlan);
  REQUIRE(run({"print", plan, "--out", folder.path("p")}, {},
              {{"LOOPLEDGER_RECORDS", folder.path("r")}})
              .code == 0);
  CHECK(folder.holds("p/labels.pdf"));
  CHECK(folder.holds("r/TH-01.toml"));
  REQUIRE(run({"print", plan, "--records", folder.path("q")}, {},
              {{"LOOPLEDGER_RECORDS", folder.path("r")}})
              .code == 0);
  CHECK(folder.holds("q/TH-01.toml"));
}

TEST_CASE("a folder that can't be written leaves no records behind") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", kPrintPlan);
  const auto ran = run({"print", plan, "--out", folder.write("blocked", "a file")});
  CHECK(ran.code == 3);
  CHECK_FALSE(folder.holds("records/TH-01.toml"));
  for (const auto& entry : std::filesystem::directory_iterator(folder.path())) {
    CHECK(entry.path().string().find(".tmp-") == std::string::npos);
  }
}
