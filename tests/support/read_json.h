// SPDX-License-Identifier: MIT
//
// JSON read by another program (python3): what the program prints is held against a reader that is
// not its own. Where python3 is missing nothing is checked, and that is told.
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace loopledger::test {

/// Each text must be JSON: UTF-8, no key twice in an object, no number that JSON has not.
/// @param texts  each with what printed it
void check_is_json(const std::vector<std::pair<std::string, std::string>>& texts);

/// Checks values by their paths, "motors[0].wind_to_turns", against JSON on one line: "1054",
/// "\"TH-01\"", "null", "[1, 2]"; "nothing" where there must be no such key. "motors[*].id" is the
/// list of all ids, "motors.#" how many there are. "number" is any number, "text" any text.
void check_json(const std::string& json,
                const std::vector<std::pair<std::string, std::string>>& expected);

}  // namespace loopledger::test
