// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>

#include "support/cli_run.h"

using loopledger::test::has;
using loopledger::test::run;
using loopledger::test::TempFolder;

TEST_CASE("new writes about ten lines that check takes as they stand") {
  const TempFolder folder;
  const std::string plan = folder.path("night.toml");
  const auto made = run({"new", plan});
  CHECK(made.code == 0);
  CHECK(made.out ==
        "Wrote " + plan + ". Put your figures in, then: loopledger check " + plan + "\n");
  const std::string text = folder.read("night.toml");
  CHECK(std::ranges::count(text, '\n') == 13);
  CHECK(text.starts_with("#:schema " LOOPLEDGER_SOURCE_DIR "/templates/schema/plan.schema.json\n"));
  const auto checked = run({"check", plan});
  CHECK(checked.code == 0);
  CHECK(checked.out.find("AB-01…04") != std::string::npos);
}

TEST_CASE("where no schema is installed new names none") {
  const TempFolder folder;
  const std::string plan = folder.path("night.toml");
  REQUIRE(run({"new", plan}, {}, {{"LOOPLEDGER_DATA", folder.path()}}).code == 0);
  CHECK(folder.read("night.toml").starts_with("# A batch plan."));
}

TEST_CASE("new never writes over a file") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", "mine");
  const auto made = run({"new", plan});
  CHECK(made.code == 3);
  CHECK(made.err == plan +
                        ": error: there is a file of this name already; it stays as it is "
                        "[disk-exists]\n  hint: give another name\n");
  CHECK(folder.read("night.toml") == "mine");
}

TEST_CASE("new in a folder that is not there is an error of the disk") {
  const TempFolder folder;
  CHECK(run({"new", folder.path("no/such/night.toml")}).code == 3);
}

TEST_CASE("new - writes the plan to standard output") {
  const auto ran = run({"new", "-"});
  CHECK(ran.code == 0);
  CHECK(has(ran.out, "\nformat = 1\n"));
  CHECK(run({"check", "-"}, ran.out).code == 0);
}

TEST_CASE("new - --json is refused: a plan and JSON would share one stream") {
  const TempFolder folder;
  const auto ran = run({"new", "-", "--json"});
  CHECK(ran.code == 2);
  CHECK(has(ran.err, "expected - or --json, found both [usage-both]"));
  CHECK(has(ran.out, "\"code\": \"usage-both\""));
  CHECK_FALSE(std::filesystem::exists("-"));
}
