// SPDX-License-Identifier: MIT
//
// Two people, one ledger: their additions meet through a real git, and what a synced folder or a
// half-done merge leaves is named and never touched.
#include <doctest/doctest.h>

#include <cstdlib>

#include "ledger_bench.h"
#include "support/done.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

bool git(const LedgerBench& ledger, const std::string& words) {
  const std::string line =
      "git -C '" + ledger.folder.path() +
      "' -c user.name=x -c user.email=x@example.org -c init.defaultBranch=one " + words +
      " >/dev/null 2>&1";
  return std::system(line.c_str()) == 0;
}

}  // namespace

TEST_CASE("git merges what two people added to one motor line by line, nothing lost") {
  const LedgerBench ledger;
  if (!git(ledger, "--version")) {
    MESSAGE("git is not installed: not tested");
    return;
  }
  done(ledger({"log", "th1", "tied", "loop=366 mm"}));
  REQUIRE(git(ledger, "init"));
  REQUIRE(git(ledger, "add -A"));
  REQUIRE(git(ledger, "commit -m printed"));
  REQUIRE(git(ledger, "checkout -b two"));
  done(ledger({"log", "th1", "wound", "900", "30 gf.cm"}));
  done(ledger({"log", "th1", "flown", "7:20"}));
  REQUIRE(git(ledger, "commit -am two"));
  REQUIRE(git(ledger, "checkout one"));
  done(ledger({"log", "th1", "weighed", "washed", "1.497"}));
  REQUIRE(git(ledger, "commit -am one"));
  REQUIRE(git(ledger, "merge two"));
  const Ran shown = ledger({"show", "th1"});
  CHECK(shown.code == 0);
  CHECK(shown.err.empty());
  CHECK(has(shown.out, "weighed washed: 1.497 g\n"));
  CHECK(has(shown.out, "wound to 900 turns at 30 gf.cm\n"));
  CHECK(has(shown.out, "flown 7 min 20 s\n"));
}

TEST_CASE("conflict marks are named with their line, the entries between them still read") {
  const LedgerBench ledger;
  done(ledger({"log", "th1", "tied", "loop=366 mm"}));
  done(ledger({"log", "th1", "flown", "7:20"}));
  const std::string line = ledger.last_line();
  std::string text = ledger.record();
  text.replace(text.size() - line.size(), line.size(),
               "<<<<<<< one\n" + line + "=======\n>>>>>>> two\n");
  ledger.folder.write("records/TH-01.toml", text);
  const Ran shown = ledger({"show", "th1"});
  CHECK(shown.code == 0);
  CHECK(has(shown.out, "flown 7 min 20 s\n"));
  CHECK(has(shown.err, "warning: a mark that an unfinished merge left here [record-conflict]"));
  CHECK(has(shown.err, "| <<<<<<< one\n"));
  CHECK(ledger.record() == text);
}

TEST_CASE("a conflict copy of a synced folder is named and passed over") {
  const LedgerBench ledger;
  const std::string copy = "records/TH-01 (copy of somebody).toml";
  ledger.folder.write(copy, ledger.record());
  const Ran listed = ledger({"list"});
  CHECK(listed.code == 0);
  CHECK(has(listed.err, "looks like another copy of TH-01's record; passed over [record-copy]"));
  CHECK(has(listed.err, "paste its entries at the end of TH-01.toml"));
  CHECK(has(listed.out, "3 motors"));
}
