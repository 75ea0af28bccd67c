// SPDX-License-Identifier: MIT
//
// The command line: commands, their options, help and usage errors. A thin layer over the options
// library, which only command_line.cpp knows; the options that several commands share have their
// names and their help here, once.
#pragma once

#include <functional>
#include <iosfwd>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "base/quantity_text.h"

namespace CLI {  // NOLINT(readability-identifier-naming): the package's own name
class App;
}

namespace loopledger::commands {
struct LabelSheetOptions;
}

namespace loopledger::terminal {

/// One command while it is being described. What the values go into must live as long as the
/// command line: commands keep them in a shared_ptr that their action holds.
class Command {
 public:
  explicit Command(CLI::App& app) : app_(app) {}

  /// A word that must be there, by its place.
  Command& needed(const std::string& name, std::string& to, const std::string& help);
  /// A word that may be there, by its place.
  Command& word(const std::string& name, std::string& to, const std::string& help);
  Command& needed(const std::string& name, std::vector<std::string>& to, const std::string& help);
  /// A whole number that must be there, by its place.
  Command& needed(const std::string& name, int& to, int low, int high, const std::string& help);
  /// Any number of further words.
  Command& words(const std::string& name, std::vector<std::string>& to, const std::string& help);

  Command& option(const std::string& name, std::string& to, const std::string& help);
  /// Words separated by commas.
  Command& list(const std::string& name, std::vector<std::string>& to, const std::string& help);
  Command& choice(const std::string& name, std::string& to, const std::vector<std::string>& of,
                  const std::string& help);
  /// Some of the words, separated by commas.
  Command& choices(const std::string& name, std::vector<std::string>& to,
                   const std::vector<std::string>& of, const std::string& help);
  Command& number(const std::string& name, int& to, int low, int high, const std::string& help);
  Command& flag(const std::string& name, bool& to, const std::string& help);
  /// The two options can't be given together. @pre both are described already
  Command& either_or(const std::string& a, const std::string& b);

  /// --records, --units and --json, as every command has them.
  Command& records(std::string& to);
  Command& units(std::optional<Units>& to);
  Command& json(bool& to, const std::string& what);
  /// --labels, --layout, --start and --copies of the commands that print labels.
  Command& label_sheet(commands::LabelSheetOptions& to);

  /// Text below the command's help.
  Command& footer(const std::string& text);
  /// What the command does. Call it last.
  void action(std::function<void()> run);

 private:
  CLI::App& app_;
};

/// What --help says of one option or word of a command, for the manual.
struct OptionHelp {
  std::string name;   ///< "--records", "--help,-h"; a word by its place: "ID"
  std::string value;  ///< "TEXT", "INT in [1 - 3]"; empty for a flag
  std::string help;
  bool by_place = false;
  bool needed = false;
  bool many = false;
};

struct CommandHelp {
  std::string name;
  std::string help;
  std::string footer;
  std::vector<OptionHelp> options;  ///< words by their place first
};

class CommandLine {
 public:
  /// @param version what --version prints, asked for only then
  CommandLine(const std::string& about, std::function<std::string()> version,
              const std::string& footer);
  CommandLine(CommandLine&&) noexcept;
  CommandLine& operator=(CommandLine&&) noexcept;
  ~CommandLine();

  Command add(const std::string& name, const std::string& help);

  /// Runs the action of the command that the words choose, or prints help or the version to `out`
  /// where that was asked for. Not empty: the words were not understood, and nothing was run.
  [[nodiscard]] Diagnostics run(int argc, const char* const* argv, std::ostream& out);

  /// The program itself (its name is "loopledger"), then all commands in their order.
  [[nodiscard]] std::vector<CommandHelp> described() const;

 private:
  [[nodiscard]] Diagnostics unknown_command(int argc, const char* const* argv) const;

  std::unique_ptr<CLI::App> app_;
};

}  // namespace loopledger::terminal
