// SPDX-License-Identifier: MIT
//
// What scripts may rely on: every command that answers has --json, says `format` 1 and
// `diagnostics` whether it was done or refused, and nothing else is on standard output then.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "ledger_bench.h"
#include "support/read_json.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

using Words = std::vector<std::string>;
/// What was printed, by the command that did it.
using Printed = std::vector<std::pair<std::string, std::string>>;

/// One JSON object whose first member is the format, and nothing around it.
void check_promise(const Ran& ran, const Words& words, int code, Printed& printed) {
  std::string command;
  for (const std::string& word : words) {
    command += word + " ";
  }
  CAPTURE(command);
  printed.emplace_back(command, ran.out);
  CHECK_MESSAGE(ran.code == code, ran.err);
  const bool on_lines = ran.out.starts_with("{\n  \"format\": 1");
  CHECK_MESSAGE((on_lines || ran.out.starts_with("{\"format\": 1")), ran.out);
  CHECK(ran.out.ends_with("}\n"));
  CHECK(ran.out.find("\n{") == std::string::npos);
}

}  // namespace

TEST_CASE("--json says its format with every command, done or refused") {
  const LedgerBench ledger;
  const std::string plan = ledger.folder.path("night.toml");
  const std::string records = ledger.folder.path("records");
  const std::string out = ledger.folder.path("out");
  const std::string none = ledger.folder.path("none.toml");
  Printed printed;
  for (const Words& words :
       std::vector<Words>{{"new", ledger.folder.path("fresh.toml")},
                          {"check", plan},
                          {"print", plan},
                          {"print", plan, "--test-page", "--labels", "a4-3x8-70x37"},
                          {"label", "th1", "--records", records, "--out", out},
                          {"label", "--stale", "--records", records, "--out", out},
                          {"card", "th1", "--records", records, "--out", out},
                          {"log", "th1", "note", "hi", "--records", records},
                          {"show", "th1", "--records", records},
                          {"scan", "-", "--records", records},
                          {"list", "--records", records},
                          {"fit", "May", "--records", records},
                          {"mend", "th1", "--records", records},
                          {"sources"}}) {
    Words with = words;
    with.emplace_back("--json");
    check_promise(run(with, "th1\n"), with, 0, printed);
  }
  for (const auto& [words, code] : std::vector<std::pair<Words, int>>{
           {{"new", plan}, 3},
           {{"check", none}, 3},
           {{"print", none}, 3},
           {{"print"}, 2},
           {{"print", none, "--test-page"}, 3},
           {{"label", "zz1", "--records", records, "--out", out}, 4},
           {{"label", "--pieces", none, "--out", out}, 3},
           {{"label"}, 2},
           {{"card", "zz1", "--records", records, "--out", out}, 4},
           {{"card"}, 2},
           {{"log", "zz1", "note", "hi", "--records", records}, 4},
           {{"log", "th1", "nte", "hi", "--records", records}, 1},
           {{"log", "--from", none, "--records", records}, 3},
           {{"log"}, 2},
           {{"show", "zz1", "--records", records}, 4},
           {{"show", "th1", "--temperature", "warm", "--records", records}, 1},
           {{"scan", none, "--records", records}, 3},
           {{"list", "--records", plan}, 3},
           {{"match", "2", "--records", records}, 4},
           {{"match", "5", "--records", plan}, 3},
           {{"fit", "June", "--records", records}, 4},
           {{"fit", "May", "--plan", none}, 3},
           {{"mend", none}, 3},
           {{"mend", "zz1", "--records", records}, 4},
           {{"check"}, 2},
           {{"chek", plan}, 2},
           {{"check", plan, "--strict"}, 2},
           {{"schema"}, 2}}) {
    Words with = words;
    with.emplace_back("--json");
    const Ran ran = run(with);
    check_promise(ran, with, code, printed);
    CHECK(has(ran.out, "\"diagnostics\": ["));
    CHECK(has(ran.out, "\"severity\": \"error\""));
  }
  for (const Words& words : std::vector<Words>{{"schema"}, {"schema", "--shelf"}}) {
    const Ran ran = run(words);
    CHECK(ran.code == 0);
    printed.emplace_back(words.back(), ran.out);
  }
  check_is_json(printed);
}
