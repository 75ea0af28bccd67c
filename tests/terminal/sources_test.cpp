// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include "base/text.h"
#include "support/cli_run.h"

using namespace loopledger;
using test::has;
using test::run;

namespace {

std::string readme_text() {
  std::ifstream in(std::string(LOOPLEDGER_SOURCE_DIR) + "/README.md");
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

}  // namespace

TEST_CASE("sources prints defaults, intervals and sources on lines that fit the terminal") {
  const auto ran = run({"sources"});
  CHECK(ran.code == 0);
  CHECK(has(ran.out,
            "largest turns, N = k_N L/sqrt(A): k_N 11.0 (published 10.64 to 11.70); 95 % 9.4 to "
            "12.9\n"));
  CHECK(has(ran.out, "largest torque, Q = k_Q A^1.5: k_Q 0.6 MPa; 95 % 0.37 to 0.98 MPa\n"));
  CHECK(has(ran.out, "guard band under a limit: 1.645 u at 95 %"));
  CHECK(has(ran.out, "default: knot: 16 mm\n    common practice, no source\n"));
  std::istringstream lines(ran.out);
  for (std::string line; std::getline(lines, line);) {
    CHECK_MESSAGE(terminal_width(line) <= 100, line);
  }
  CHECK(has(run({"sources", "--json"}).out, "\"JCGM 106:2012\""));
  CHECK(run({"sources", "--json", "--markdown"}).code == 2);
}

TEST_CASE("the README holds the same table, row for row") {
  const std::string readme = readme_text();
  std::istringstream rows(run({"sources", "--markdown"}).out);
  for (std::string row; std::getline(rows, row);) {
    CHECK_MESSAGE(has(readme, row + "\n"), row);
  }
}

TEST_CASE("at least fifteen outside sources have a file of published checks") {
  int files = 0;
  for (const auto& entry : std::filesystem::directory_iterator(std::string(LOOPLEDGER_SOURCE_DIR) +
                                                               "/tests/published")) {
    const std::string name = entry.path().filename().string();
    files += name.ends_with("_test.cpp") && name != "common_practice_test.cpp" ? 1 : 0;
  }
  CHECK(files >= 15);
}
