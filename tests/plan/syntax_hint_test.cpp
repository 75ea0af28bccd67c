// SPDX-License-Identifier: MIT
#include "plan/syntax_hint.h"

#include <doctest/doctest.h>

#include <string>

#include "plan/tree.h"
#include "support/plan_text.h"

using namespace loopledger;

namespace {

struct Slip {
  const char* typed;
  const char* hint;  ///< of it, a part
};

constexpr Slip kSlips[] = {
    {"title = \"Club night\nformat = 1\n", "a quote is missing in line 1"},
    {"title = Club night\"\nformat = 1\n", "a quote is missing in line 1"},
    {"[bench]\nscale_step = 1 mg\"\n", "a quote is missing in line 2"},
    {"[bench]\nscale_step = 1 mg\n", "stand in double quotes"},
    {"[strips.tan]\nsamples = [[\"500 mm\", \"1.31 g\"]\nlot = \"a\"\n",
     "a ] is missing in line 2"},
    {"[strips.tan]\nsamples = [\"500 mm\", \"1.31 g\"]]\n", "a [ is missing in line 2"},
    {"bench = { scale_step = \"1 mg\"\nformat = 1\n", "a } is missing in line 1"},
    {"[[motors]\nid = \"AB\"\n", "[[motors]] has two on each side"},
    {"[motors]]\nid = \"AB\"\n", "[[motors]] has two on each side"},
    {"[bench\nscale_step = \"1 mg\"\n", "a bracket is missing in line 1"},
    {"[[motors]]\nid = \"AB\"\ncount = 4\nid = \"AC\"\n", "`id` is in line 2 already"},
    {"[bench]\nscale_step = \"1 mg\"\n[bench]\nruler_step = \"1 mm\"\n", "[bench] stands twice"},
    {"[motors]\nid = \"AB\"\n[motors]\nid = \"AC\"\n", "begins with [[motors]]"},
    {"[[motors]]\ncount: 4\n", "write = for the colon: count = …"},
    {"[[motors]]\nid: \"AB\"\n", "write = for the colon: id = …"},
    {"[[motors]]\ncount 4\n", "such as count = 4"},
    {"[strips.red tan]\nwidth = \"2 mm\"\n", "[strips.\"red tan\"]"},
};

std::string said_of(const std::string& text) { return render(test::read(text).diagnostics()); }

}  // namespace

TEST_CASE("what a tired person types wrong has a hint of its own") {
  for (const Slip& slip : kSlips) {
    CAPTURE(slip.typed);
    const auto tree = plan::parse_tree(slip.typed, "p.toml");
    REQUIRE_FALSE(tree.ok());
    REQUIRE(tree.diagnostics().size() == 1);
    CAPTURE(tree.diagnostics().front().message);
    CAPTURE(tree.diagnostics().front().hint);
    CHECK(tree.diagnostics().front().hint.find(slip.hint) != std::string::npos);
  }
}

TEST_CASE("a hint is found whatever the text is, and its place") {
  for (const char* text : {"", "\n", "\"", "[", "= :", "\\\"", "a\0b"}) {
    for (const int line : {-1, 0, 1, 2, 100}) {
      CHECK_FALSE(plan::syntax_hint(text, line, "").empty());
    }
  }
}

TEST_CASE("[motors] for [[motors]] is told as that, once") {
  const std::string said = said_of(test::with_head("[motors]\nid = \"AB\"\nmass = \"1.6 g\"\n"));
  CHECK(said.find("expected [[motors]], found [motors]") != std::string::npos);
  CHECK(said.find("error", said.find("error") + 1) == std::string::npos);
}

TEST_CASE("a key of the top that stands below a table is told where it belongs") {
  const std::string said =
      said_of(test::with_head("[bench]\n") + "[[motors]]\nid = \"AB\"\nmass = \"1.6 g\"\n");
  CHECK_FALSE(said.empty());  // [bench] twice
  const std::string below = said_of(
      test::with_head("[[motors]]\nid = \"AB\"\nmass = \"1.6 g\"\ntitle = \"Club night\"\n"));
  CHECK(below.find("`title` is no key of this table") != std::string::npos);
  CHECK(below.find("`title` stands at the top, above the first line in [ ]") != std::string::npos);
}

TEST_CASE("a shelf file that can't be read is told, and not what it would have given") {
  const std::string plan =
      "format = 1\ntake = [\"shelf.toml\"]\n[[motors]]\nid = \"AB\"\nstrip = \"tan\"\nrule = "
      "\"club\"\nmass = \"limit\"\n";
  const std::string shelf =
      "bench = { scale_step = \"1 mg\" }\nrules.club = { limit = \"1.8 g\", counts = [\"rubber\"] "
      "}\nstrips.tan = { width = \"2.5 mm\", samples = [[\"500 mm\", \"1.31 g\"]] }\n";
  CHECK(test::read(plan, {{"shelf.toml", shelf}}));
  for (const std::string& broken :
       {shelf + "lot = \"amber\n", "bench = { scale_step = 1 mg }\n" + shelf}) {
    const auto read = test::read(plan, {{"shelf.toml", broken}});
    REQUIRE(read.diagnostics().size() == 1);
    CHECK(read.diagnostics()[0].code == "toml-syntax");
    CHECK(read.diagnostics()[0].place.file == "shelf.toml");
  }
}
