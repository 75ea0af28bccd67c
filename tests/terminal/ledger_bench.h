// SPDX-License-Identifier: MIT
//
// A ledger of three motors of an invented club, made by `print`, for the tests of the commands
// that work on it.
#pragma once

#include <doctest/doctest.h>

#include <filesystem>
#include <string>
#include <vector>

#include "support/cli_run.h"

namespace loopledger::test {

class LedgerBench {
 public:
  LedgerBench() {
    std::filesystem::copy(a_printed_night(), folder.path(),
                          std::filesystem::copy_options::recursive);
  }
  /// The command with --records of this ledger.
  [[nodiscard]] Ran operator()(std::vector<std::string> arguments) const {
    arguments.push_back("--records");
    arguments.push_back(folder.path("records"));
    return run(arguments);
  }
  [[nodiscard]] std::string record() const { return folder.read("records/TH-01.toml"); }
  [[nodiscard]] std::string last_line() const {
    const std::string text = record();
    const std::size_t at = text.rfind('\n', text.size() - 2);
    return text.substr(at + 1);
  }
  /// `text` with the folder's name as DIR and random key characters as ????.
  [[nodiscard]] std::string told(std::string text) const {
    const std::string dir = folder.path();
    for (std::size_t at = text.find(dir); at != std::string::npos; at = text.find(dir)) {
      text.replace(at, dir.size(), "DIR");
    }
    const std::string time = "20260501T100000Z-";
    for (std::size_t at = text.find(time); at != std::string::npos; at = text.find(time, at + 1)) {
      text.replace(at + time.size(), 4, "????");
    }
    return text;
  }

  TempFolder folder;

 private:
  /// Printed once for all ledgers of a run: the sheets take longer than most of what is tested.
  static std::string a_printed_night() {
    static const TempFolder night;
    static const Ran printed = test::run({"print", night.write("night.toml", kPlan)});
    REQUIRE_MESSAGE(printed.code == 0, printed.err);
    return night.path();
  }
  static constexpr const char* kPlan = R"(format = 1
title = "Invented night"
date = 2026-02-05
bench = { scale_step = "1 mg", winder_ratio = 10 }
recipes.two = { steps = [{ stretch = 5.0, hold = "5 min" }, { turns = "50 %", torque = "75 %", hold = "2 min", rest = "1 h", repeat = 2 }] }
rules.club = { limit = "1.5 g", counts = ["rubber"] }
rings.small = { weighed = 10, mass = "60 mg", spread = "0.3 mg" }
[strips.tan]
lot = "May"
width = "2.4 mm"
samples = [["1 m", "2 g"], ["1 m", "2 g"], ["1 m", "2 g"]]
[[motors]]
id = "TH"
count = 2
for = "Heron"
owner = "ANNA"
rule = "club"
rings = "small"
mass = "limit"
[[motors]]
id = "QX"
owner = "BEN"
loop = "200 mm"
recipe = "two"
)";
};

}  // namespace loopledger::test
