// SPDX-License-Identifier: MIT
#include "base/diagnostic.h"

#include <doctest/doctest.h>

#include <string>

#include "base/paint.h"
#include "base/result.h"

using namespace loopledger;

TEST_CASE("a diagnostic prints its place, its source line, a caret and a hint") {
  Diagnostics all{error("plan-unit", "expected a length such as \"300 mm\", found \"300 g\"",
                        "units of length are mm, cm, m, in, ft", {"plan.toml", 2, 8})};
  add_source_lines(all, "plan.toml", "format = 1\nloop = \"300 g\"\n");
  CHECK(render(all) ==
        "plan.toml:2:8: error: expected a length such as \"300 mm\", found \"300 g\" [plan-unit]\n"
        "    2 | loop = \"300 g\"\n"
        "      |        ^\n"
        "  hint: units of length are mm, cm, m, in, ft\n");
}

TEST_CASE("what is not known is left out") {
  CHECK(render(note("a-b", "no samples")) == "note: no samples [a-b]\n");
  CHECK(render(warning("a-b", "m", "h")) == "warning: m [a-b]\n  hint: h\n");
  CHECK(render(error("a-b", "m", {}, {"f.toml", 0, 0})) == "f.toml: error: m [a-b]\n");
  CHECK(render(error("a-b", "m", {}, {"f.toml", 7, 0})) == "f.toml:7: error: m [a-b]\n");
}

TEST_CASE("the caret stands under its character behind tabs, accents and wide characters") {
  const auto caret_line = [](const std::string& line, int column) {
    Diagnostics all{error("c", "m", {}, {"f", 1, column})};
    add_source_lines(all, "f", line);
    return render(all);
  };
  CHECK(caret_line("\tloop = 1", 2) == "f:1:2: error: m [c]\n    1 |  loop = 1\n      |  ^\n");
  CHECK(caret_line("żółć = 1", 8) == "f:1:8: error: m [c]\n    1 | żółć = 1\n      |        ^\n");
  CHECK(caret_line("日 = 1", 3) == "f:1:3: error: m [c]\n    1 | 日 = 1\n      |    ^\n");
  // Just behind the end of the line: something is missing there.
  CHECK(caret_line("a =", 4) == "f:1:4: error: m [c]\n    1 | a =\n      |    ^\n");
  // Far behind it no caret can stand.
  CHECK(caret_line("a =", 40) == "f:1:40: error: m [c]\n    1 | a =\n");
}

TEST_CASE("a hostile line can not drive the terminal, and the caret still stands right") {
  Diagnostics all{error("c", "found \"\x1b]0;x\x07\"", "\x1b[2J", {"f\x1b.toml", 1, 3})};
  add_source_lines(all, "f\x1b.toml", "\x1bx = 1");
  CHECK(render(all) ==
        "f\\x1b.toml:1:3: error: found \"\\x1b]0;x\\x07\" [c]\n"
        "    1 | \\x1bx = 1\n"
        "      |      ^\n"
        "  hint: \\x1b[2J\n");
}

TEST_CASE("a very long line is cut in the print") {
  Diagnostics all{error("c", "m", {}, {"f", 1, 9000})};
  add_source_lines(all, "f", std::string(10000, 'x'));
  CHECK(render(all).size() < 300);
}

TEST_CASE("faults in a very long line hold what is shown of it, not all of it each") {
  Diagnostics all(2000, error("c", "m", {}, {"f", 1, 3}));
  std::string line = "a😀";
  while (line.size() < 1'000'000) {
    line += "😀";
  }
  add_source_lines(all, "f", line);
  std::size_t bytes = 0;
  for (const Diagnostic& d : all) {
    bytes += d.source_line.size();
  }
  CHECK(bytes < 2'000'000);
  std::string shown = "a";
  for (int i = 1; i < 160; ++i) {
    shown += "😀";
  }
  CHECK(render(all[0]) == "f:1:3: error: m [c]\n    1 | " + shown + "\n      |    ^\n");
}

TEST_CASE("source lines go to the diagnostics of that file only, whatever the line ends") {
  Diagnostics all{error("c", "m", {}, {"a", 2, 1}), error("c", "m", {}, {"b", 2, 1}),
                  error("c", "m", {}, {"a", 9, 1}), error("c", "m", {}, {"a", 0, 0})};
  add_source_lines(all, "a", "one\r\ntwo\r\n");
  CHECK(all[0].source_line == "two");
  CHECK(all[1].source_line.empty());
  CHECK(all[2].source_line.empty());
  CHECK(all[3].source_line.empty());
}

TEST_CASE("only errors count as errors, and lists join in order") {
  Diagnostics all{note("n", "x"), warning("w", "y")};
  CHECK_FALSE(has_errors(all));
  append(all, {error("e", "z")});
  CHECK(has_errors(all));
  CHECK(render(all) == "note: x [n]\nwarning: y [w]\nerror: z [e]\n");
}

TEST_CASE("a result holds a value, perhaps with warnings, or the reasons why there is none") {
  const Result<int> plain = 3;
  CHECK(plain.ok());
  CHECK(plain.value() == 3);
  const Result<int> warned{4, {warning("w", "m")}};
  CHECK(warned.ok());
  CHECK(warned.diagnostics().size() == 1);
  const Result<int> failed = error("e", "m");
  CHECK_FALSE(failed.ok());
  CHECK(has_errors(failed.diagnostics()));
}

TEST_CASE("in colour only the words error and warning are coloured, and plain is the default") {
  const Diagnostics all{error("e", "z", "h", {"f", 0, 0}), warning("w", "y"), note("n", "x")};
  CHECK(render(all) == "f: error: z [e]\n  hint: h\nwarning: y [w]\nnote: x [n]\n");
  CHECK(render(all, Paint::coloured) ==
        "f: \x1b[1;31merror\x1b[0m: z [e]\n  hint: h\n\x1b[1;35mwarning\x1b[0m: y [w]\nnote: x "
        "[n]\n");
}
