// SPDX-License-Identifier: MIT
//
// Completion for bash, zsh and fish: scripts made of the program's own commands and options, so
// that a command completes as soon as it is described. The build runs manual_main.cpp to make them.
// What a value completes to follows from what describes it: its choices, or, by its name, files,
// folders or the ids of the motors that have a record.
#pragma once

#include <string>
#include <vector>

#include "terminal/command_line.h"

namespace loopledger::terminal {

/// What may stand at one place of the command line.
struct Completed {
  enum class Kind { nothing, words, files, folders, motors };
  Kind kind = Kind::nothing;
  std::vector<std::string> words;
  bool list = false;  ///< several, separated by commas
};

/// @param name one name of the option, "--rule", or the word's
[[nodiscard]] Completed completed_by(const OptionHelp& option, const std::string& name);

/// "--help,-h" as two names.
[[nodiscard]] std::vector<std::string> names_of(const OptionHelp& option);

/// @pre the program itself comes first, as CommandLine::described() has it
[[nodiscard]] std::string bash_completion(const std::vector<CommandHelp>& commands);
[[nodiscard]] std::string zsh_completion(const std::vector<CommandHelp>& commands);
[[nodiscard]] std::string fish_completion(const std::vector<CommandHelp>& commands);

}  // namespace loopledger::terminal
