// SPDX-License-Identifier: MIT
#include "support/read_json.h"

#include <doctest/doctest.h>

#include <cstdlib>
#include <sstream>

#include "support/cli_run.h"

namespace loopledger::test {
namespace {

#ifdef LOOPLEDGER_JSON_PYTHON

/// Lines that the reader prints.
std::vector<std::string> answers(const TempFolder& folder, const std::string& arguments) {
  const std::string command = "'" LOOPLEDGER_JSON_PYTHON "' '" LOOPLEDGER_SOURCE_DIR
                              "/tests/support/read_json.py' " +
                              arguments + " > " + folder.path("said");
  REQUIRE(std::system(command.c_str()) == 0);  // NOLINT(concurrency-mt-unsafe)
  std::istringstream lines(folder.read("said"));
  std::vector<std::string> out;
  for (std::string line; std::getline(lines, line);) {
    out.push_back(line);
  }
  return out;
}

bool is_number(const std::string& value) {
  return !value.empty() && value.find_first_of("0123456789") <= 1 && value.front() != '"' &&
         value.front() != '[';
}

bool is_as_expected(const std::string& value, const std::string& expected) {
  if (expected == "number") {
    return is_number(value);
  }
  return expected == "text" ? value.starts_with('"') && value != "\"\"" : value == expected;
}

#endif

}  // namespace

#ifdef LOOPLEDGER_JSON_PYTHON

void check_is_json(const std::vector<std::pair<std::string, std::string>>& texts) {
  const TempFolder folder;
  std::string arguments = "check";
  for (std::size_t i = 0; i < texts.size(); ++i) {
    arguments += " " + folder.write(std::to_string(i), texts[i].second);
  }
  const auto verdicts = answers(folder, arguments);
  REQUIRE(verdicts.size() == texts.size());
  for (std::size_t i = 0; i < texts.size(); ++i) {
    CHECK_MESSAGE(verdicts[i] == "sound", texts[i].first << ": " << texts[i].second);
  }
}

void check_json(const std::string& json,
                const std::vector<std::pair<std::string, std::string>>& expected) {
  const TempFolder folder;
  std::string paths;
  for (const auto& [path, value] : expected) {
    paths += path + "\n";
  }
  const std::string file = folder.write("json", json);
  const auto values = answers(folder, "values " + file + " " + folder.write("paths", paths));
  REQUIRE(values.size() == expected.size());
  for (std::size_t i = 0; i < values.size(); ++i) {
    CHECK_MESSAGE(is_as_expected(values[i], expected[i].second),
                  expected[i].first << " is " << values[i] << ", expected " << expected[i].second);
  }
}

#else

void check_is_json(const std::vector<std::pair<std::string, std::string>>& texts) {
  WARN_MESSAGE(texts.empty(), "python3 not found: JSON is not read");
}

void check_json(const std::string& json,
                const std::vector<std::pair<std::string, std::string>>& /*expected*/) {
  WARN_MESSAGE(json.empty(), "python3 not found: JSON is not read");
}

#endif

}  // namespace loopledger::test
