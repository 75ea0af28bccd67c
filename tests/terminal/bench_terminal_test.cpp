// SPDX-License-Identifier: MIT
//
// The bench through a real terminal: the program itself behind a pseudo-terminal, its prompts and
// answers as a person sees them.
#include <doctest/doctest.h>

#include <csignal>
#include <string>

#include "support/cli_run.h"
#include "support/club_plan.h"
#include "support/terminal.h"

using namespace loopledger;
using test::has;
using test::TempFolder;
using test::Terminal;

namespace {

const std::string kAnnasNight = test::club_plan(2, "owner = \"Anna\"\n");

}  // namespace

TEST_CASE("on a terminal the bench says whose motor is next and what it should read") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", kAnnasNight);
  REQUIRE(test::run({"print", plan}).code == 0);
  Terminal terminal({"bench", plan});
  CHECK(has(terminal.until("> "), "TH-01 Anna: washed, g (1.496–1.498)> "));
  terminal.type("washed 1.500\n");
  const std::string over = terminal.until("(1.496–1.498)> ");
  CHECK(has(over, "TH-01 Anna: 2 mg over, snip 2 mm (washed 1.500 g)"));
  CHECK(has(over, "TH-01 Anna: washed, g"));  // it stays with a motor that has to be trimmed
  terminal.type("washed 1.497\n");
  CHECK(has(terminal.until("TH-02 Anna: washed, g (1.496–1.498)> "), "OK, within its window"));
  terminal.type("\n");
  CHECK(has(terminal.until("> "), "TH-01 Anna: loop as tied (366 mm)> "));
  // What was answered is on disk before the next prompt: pull the plug.
  CHECK(has(folder.read("records/TH-01.toml"), "1.497"));
  terminal.type("stop\n");
  CHECK(terminal.ended() == 0);
}

TEST_CASE("the end of input ends the bench, and it goes on where it stopped") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", kAnnasNight);
  REQUIRE(test::run({"print", plan}).code == 0);
  {
    Terminal terminal({"bench", plan});
    (void)terminal.until("> ");
    terminal.type("th1 washed 1.497\n");
    (void)terminal.until("> ");
    terminal.type("\x04");
    CHECK(terminal.ended() == 0);
  }
  Terminal again({"bench", plan});
  CHECK(has(again.until("> "), "TH-01 Anna: loop as tied"));
}

TEST_CASE("Ctrl-C keeps what was answered, says how much that is, and ends as by that signal") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", kAnnasNight);
  REQUIRE(test::run({"print", plan}).code == 0);
  {
    Terminal terminal({"bench", plan});
    (void)terminal.until("> ");
    terminal.type("\x03");
    CHECK(has(terminal.all(), "nothing was stored; `loopledger bench " + plan + "` goes on here"));
    CHECK(terminal.ended() == -SIGINT);
  }
  for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
    CAPTURE(signal);
    Terminal terminal({"bench", plan});
    (void)terminal.until("> ");
    terminal.type("th1 washed 1.497\n");
    (void)terminal.until("> ");
    terminal.type("th2 washed 1.49");  // not yet entered
    terminal.send(signal);
    CHECK(has(terminal.all(), "1 entry is stored and on disk; `loopledger bench "));
    CHECK(terminal.ended() == -signal);
    CHECK(has(folder.read("records/TH-01.toml"), "1.497"));
    CHECK_FALSE(has(folder.read("records/TH-02.toml"), "kind = \"weighed\""));
  }
}
