// SPDX-License-Identifier: MIT
//
// A command line that is not understood: each fault in the form of all other diagnostics, with what
// was expected, what was found and what to type; and every exit code.
#include <doctest/doctest.h>

#include <stdexcept>
#include <string>
#include <vector>

#include "commands/exit_code.h"
#include "ledger_bench.h"
#include "posix/native_world.h"
#include "terminal/command.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

std::string not_understood(const std::vector<std::string>& words) {
  const Ran ran = run(words);
  CHECK(ran.code == 2);
  CHECK(ran.out.empty());
  return ran.err;
}

}  // namespace

TEST_CASE("every fault of the command line says what was expected, what was found and a hint") {
  using Words = std::vector<std::string>;
  const std::vector<std::pair<Words, std::string>> faults{
      {{},
       "loopledger: error: expected a command, found none [usage-command]\n"
       "  hint: `loopledger --help` lists the commands\n"},
      {{"chek", "x.toml"},
       "loopledger: error: expected a command, found \"chek\" [usage-command]\n"
       "  hint: did you mean `loopledger check`?\n"},
      {{"check"},
       "loopledger: error: `loopledger check` expects PLAN, found nothing [usage-missing]\n"
       "  hint: PLAN: The plan, or - for standard input\n"},
      {{"check", "--jsno"},
       "loopledger: error: expected an option of `loopledger check`, found \"--jsno\" "
       "[usage-option]\n"
       "  hint: did you mean --json?\n"},
      {{"list", "--reocrds=x"},
       "loopledger: error: expected an option of `loopledger list`, found \"--reocrds=x\" "
       "[usage-option]\n"
       "  hint: did you mean --records?\n"},
      {{"list", "--zzzzzz"},
       "loopledger: error: expected an option of `loopledger list`, found \"--zzzzzz\" "
       "[usage-option]\n"
       "  hint: `loopledger list --help` lists what it takes\n"},
      {{"check", "a.toml", "b.toml"},
       "loopledger: error: expected nothing more, found \"b.toml\" [usage-word]\n"
       "  hint: `loopledger check --help` lists what it takes\n"},
      {{"list", "--records"},
       "loopledger: error: expected a word after --records, found nothing [usage-missing]\n"
       "  hint: --records: Folder of the records\n"},
      {{"list", "--records", "a", "--records", "b"},
       "loopledger: error: expected --records once, found it again [usage-twice]\n"
       "  hint: leave one of them out\n"},
      {{"check", "x.toml", "--units", "inhc"},
       "loopledger: error: --units: expected metric or inch, found \"inhc\" [usage-value]\n"
       "  hint: did you mean inch?\n"},
      {{"check", "x.toml", "--units", "furlong"},
       "loopledger: error: --units: expected metric or inch, found \"furlong\" [usage-value]\n"
       "  hint: `loopledger check --help` lists what it takes\n"},
      {{"label", "th1", "--copies", "0"},
       "loopledger: error: --copies: expected a whole number from 1 to 100, found \"0\" "
       "[usage-value]\n"
       "  hint: `loopledger label --help` lists what it takes\n"},
      {{"label", "th1", "--copies", "2.5"},
       "loopledger: error: --copies: expected a whole number from 1 to 100, found \"2.5\" "
       "[usage-value]\n"
       "  hint: `loopledger label --help` lists what it takes\n"},
      {{"print", "x.toml", "--new", "--only", "th1"},
       "loopledger: error: expected --only or --new, found both [usage-both]\n"
       "  hint: leave one of them out\n"},
      {{"list", "--json=x"},
       "loopledger: error: expected --json without a value [usage-value]\n"
       "  hint: --json: The list as JSON\n"},
      {{"label"},
       "loopledger: error: expected ids, --stale, or --pieces PLAN [usage-missing]\n"
       "  hint: loopledger label th1 th2\n"},
      {{"card"},
       "loopledger: error: expected ids, or one of --owner, --class and --lot [usage-missing]\n"
       "  hint: loopledger card th1 th2\n"},
      {{"log"},
       "loopledger: error: expected ID and KIND, or --from FILE [usage-missing]\n"
       "  hint: loopledger log th1 weighed washed 1.774\n"},
      {{"print"},
       "loopledger: error: expected a plan [usage-missing]\n"
       "  hint: loopledger print night.toml\n"},
      {{"bench", "-"},
       "loopledger: error: expected a plan's file: standard input brings the readings "
       "[usage-value]\n"
       "  hint: loopledger bench night.toml\n"}};
  for (const auto& [words, said] : faults) {
    CHECK(not_understood(words) == said);
  }
}

TEST_CASE("a hostile word of the command line can't drive the terminal") {
  for (const std::vector<std::string>& words : {std::vector<std::string>{"\x1b[2J"},
                                                {"list", "--\x1b[2J"},
                                                {"list", "--units", "\x1b[2J"}}) {
    const std::string said = not_understood(words);
    CHECK_FALSE(has(said, "\x1b"));
    CHECK(has(said, "\\x1b"));
  }
}

TEST_CASE("help and version are no errors, for the program and for each command") {
  for (const std::vector<std::string>& words :
       {std::vector<std::string>{"--help"}, {"--version"}, {"check", "--help"}, {"--help-all"}}) {
    const Ran ran = run(words);
    CHECK(ran.code == 0);
    CHECK(ran.err.empty());
    CHECK_FALSE(ran.out.empty());
  }
}

TEST_CASE("the exit code says what went wrong, and is what the manual says") {
  const LedgerBench ledger;
  CHECK(ledger({"list"}).code == commands::kDone);
  CHECK(ledger({"show", "th1j"}).code == 0);
  CHECK(run({"check", ledger.folder.write("bad.toml", "format = 2\n")}).code == 1);
  CHECK(ledger({"show", "th1x"}).code == 1);  // a wrong check character
  CHECK(ledger({"list", "--sort"}).code == 2);
  CHECK(run({"check", ledger.folder.path("none.toml")}).code == 3);
  CHECK(ledger({"show", "zz1"}).code == 4);
  CHECK(ledger({"scan", ledger.folder.path("night.toml")}).code != 0);
  const std::string help = run({"--help"}).out;
  for (const char* part : {"0 done", "1 the input has errors", "2 usage", "3 disk or environment",
                           "4 nothing found", "70 a fault of ours"}) {
    CHECK(has(help, part));
  }
}

TEST_CASE("a fault of ours is caught, told in the usual form, and has a code of its own") {
  std::istringstream in;
  std::ostringstream out;
  std::ostringstream err;
  posix::NativeWorld world(
      in, [](const char*) -> std::optional<std::string> { return {}; },
      []() -> Moment { throw std::runtime_error("no clock"); });
  terminal::Context context{in, out, err, world.get()};
  const LedgerBench ledger;
  const std::string records = ledger.folder.path("records");
  const std::vector<const char*> words{"loopledger", "log",       "th1",          "note",
                                       "hello",      "--records", records.c_str()};
  CHECK(terminal::run(static_cast<int>(words.size()), words.data(), context) ==
        commands::kInternal);
  CHECK(err.str() ==
        "loopledger: error: internal error: no clock [internal]\n"
        "  hint: this is a fault of the program, not of your plan; please report it\n");
}
