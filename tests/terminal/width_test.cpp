// SPDX-License-Identifier: MIT
//
// What the terminal shows fits 100 columns, however long the names and notes are.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "base/text.h"
#include "support/cli_run.h"
#include "terminal/text_table.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

std::string long_words(std::size_t columns, const std::string& word = "Heron ") {
  std::string out;
  while (out.size() + word.size() <= columns) {
    out += word;
  }
  return out;
}

/// A night whose names are as long as a plan may have them.
std::string wordy_plan() {
  const std::string name = long_words(55);
  return R"(format = 1
title = ")" +
         long_words(110) + R"("
date = 2026-02-05
bench = { scale_step = "1 mg" }
[rules."club )" +
         name + R"("]
limit = "1.5 g"
counts = ["rubber"]
[strips."tan )" +
         name + R"("]
lot = "lot )" +
         name + R"("
samples = [["1 m", "2 g"], ["1 m", "2 g"], ["1 m", "2 g"]]
pieces = [{ tag = "a )" +
         name + R"(", length = "6 m" }]
ends = "5 mm"
[recipes."slow )" +
         name + R"("]
steps = [{ stretch = 4, hold = "5 min", note = ")" +
         long_words(80) + R"(" }]
[[motors]]
id = "TH"
count = 2
owner = ")" +
         long_words(40) + R"("
for = ")" +
         long_words(40) + R"("
recipe = "slow )" +
         name + R"("
mass = "limit"
hooks = "265 mm"
[[motors]]
id = "PA"
mass = "limit"
part = 0.55
hooks = "265 mm"
)";
}

}  // namespace

TEST_CASE("a line is broken between words, a word that is too long within it") {
  CHECK(terminal::wrapped("a line") == "a line\n");
  CHECK(terminal::wrapped("").size() == 1);
  const std::string full(100, 'a');
  CHECK(terminal::wrapped(full) == full + "\n");
  CHECK(terminal::wrapped(full + " b") == full + "\n    b\n");
  CHECK(terminal::wrapped(full + "b", 2) == full + "\n  b\n");
  CHECK(terminal::wrapped("  " + full) == "  " + std::string(98, 'a') + "\n    aa\n");
  CHECK(terminal::wrapped(std::string(98, 'a') + " b  c", 0) == std::string(98, 'a') + " b\nc\n");
  std::string wide;
  for (int i = 0; i < 120; ++i) {
    wide += "機";
  }
  CHECK(too_wide(terminal::wrapped(wide)).empty());
  CHECK_FALSE(first_bad_utf8(terminal::wrapped(wide)));
}

TEST_CASE("no help is wider than the terminal") {
  CHECK(too_wide(run({"--help"}).out).empty());
  CHECK(too_wide(run({"--help-all"}).out).empty());
  CHECK(has(run({"scan", "--help"}).out,
            "an image,\n                              or typed tags, one a line\n"));
}

TEST_CASE("long names and notes are no wider than the terminal, in both units") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", wordy_plan());
  const std::string records = folder.path("records");
  REQUIRE_MESSAGE(run({"print", plan, "--out", folder.path("out")}).code == 0,
                  run({"check", plan}).err);
  const auto narrow = [&](std::vector<std::string> words) {
    if (words.front() != "check") {
      words.insert(words.end(), {"--records", records});
    }
    const Ran ran = run(words);
    CHECK_MESSAGE(ran.code == 0, words.front() << ran.err);
    CHECK_MESSAGE(too_wide(ran.out).empty(), too_wide(ran.out));
    return ran.out;
  };
  narrow({"log", "--sure", "th1", "weighed", "washed", "1.497", "note=" + long_words(150)});
  narrow({"log", "--sure", "th1", "tied", "loop=300 mm", "note=" + std::string(150, 'x')});
  narrow({"log", "--sure", "th1", "wound", "turns=1200", "torque=41 gf.cm", "end=solid",
          "temperature=20 C", "note=" + long_words(150)});
  narrow({"log", "pa1", "retired", long_words(150)});
  for (const char* units : {"metric", "inch"}) {
    narrow({"check", plan, "--units", units});
    narrow({"show", "th1", "--all", "--units", units});
    narrow({"show", "th2", "--units", units});
    narrow({"show", "pa1", "--units", units});
    narrow({"list", "--units", units});
  }
  narrow({"fit", "lot " + long_words(55)});
  narrow({"log", "--from",
          folder.write("e.csv", "id,kind,text\nth1,note,\"" + long_words(150) + "\"\n")});
  std::string choosing = wordy_plan();
  choosing.replace(choosing.find("mass = \"limit\"\n"), 15, "");
  const Ran chosen = run({"check", folder.write("choose.toml", choosing)});
  CHECK(has(chosen.out, "no size yet"));
  CHECK_MESSAGE(too_wide(chosen.out).empty(), too_wide(chosen.out));
  const Ran bench = run({"bench", plan, "--records", records}, "?\n");
  CHECK(has(bench.out, "Enter: next motor"));
  CHECK(too_wide(bench.out).empty());
}
