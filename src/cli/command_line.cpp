// SPDX-License-Identifier: MIT
#include "cli/command_line.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <ostream>
#include <string_view>
#include <utility>

#include "base/text.h"
#include "cli/label_sheet.h"

namespace loopledger::cli {
namespace {

/// What follows an option's name in the command's help.
std::string value_help(const CLI::Option& option) {
  return option.get_expected_max() == 0 ? std::string() : option.get_type_name();
}

CommandHelp help_of(const CLI::App& app) {
  CommandHelp command{app.get_name(), app.get_description(), app.get_footer(), {}};
  for (const bool by_place : {true, false}) {
    for (const CLI::Option* option : app.get_options()) {
      if (option->get_positional() == by_place) {
        command.options.push_back({option->get_name(by_place, !by_place), value_help(*option),
                                   option->get_description(), by_place, option->get_required(),
                                   option->get_items_expected_max() > 1});
      }
    }
  }
  return command;
}

}  // namespace

Command& Command::needed(const std::string& name, std::string& to, const std::string& help) {
  app_.add_option(name, to, help)->required();
  return *this;
}

Command& Command::needed(const std::string& name, std::vector<std::string>& to,
                         const std::string& help) {
  app_.add_option(name, to, help)->required();
  return *this;
}

Command& Command::needed(const std::string& name, int& to, int low, int high,
                         const std::string& help) {
  app_.add_option(name, to, help)->required()->check(CLI::Range(low, high));
  return *this;
}

Command& Command::word(const std::string& name, std::string& to, const std::string& help) {
  app_.add_option(name, to, help);
  return *this;
}

Command& Command::words(const std::string& name, std::vector<std::string>& to,
                        const std::string& help) {
  app_.add_option(name, to, help);
  return *this;
}

Command& Command::option(const std::string& name, std::string& to, const std::string& help) {
  app_.add_option(name, to, help);
  return *this;
}

Command& Command::list(const std::string& name, std::vector<std::string>& to,
                       const std::string& help) {
  app_.add_option(name, to, help)->delimiter(',')->allow_extra_args(false);
  return *this;
}

Command& Command::choice(const std::string& name, std::string& to,
                         const std::vector<std::string>& of, const std::string& help) {
  app_.add_option(name, to, help)->check(CLI::IsMember(of));
  return *this;
}

Command& Command::choices(const std::string& name, std::vector<std::string>& to,
                          const std::vector<std::string>& of, const std::string& help) {
  // One word list after the option: what follows it is the command's own.
  app_.add_option(name, to, help)
      ->delimiter(',')
      ->allow_extra_args(false)
      ->check(CLI::IsMember(of));
  return *this;
}

Command& Command::number(const std::string& name, int& to, int low, int high,
                         const std::string& help) {
  app_.add_option(name, to, help)->check(CLI::Range(low, high));
  return *this;
}

Command& Command::flag(const std::string& name, bool& to, const std::string& help) {
  app_.add_flag(name, to, help);
  return *this;
}

Command& Command::either_or(const std::string& a, const std::string& b) {
  app_.get_option(a)->excludes(app_.get_option(b));
  return *this;
}

Command& Command::records(std::string& to) {
  return option("--records", to, "Folder of the records");
}

Command& Command::label_sheet(LabelSheetOptions& to) {
  return option("--labels", to.stock, "Label stock: a name in templates/stock, or a .toml file")
      .option("--layout", to.layout, "What stands on them: a name in templates/sheets, or a file")
      .number("--start", to.start, 1, kMaxStart, "First free label of a part-used sheet, from 1")
      .number("--copies", to.copies, 1, page::kMaxCopies, "Of each label, one behind the other");
}

Command& Command::units(std::optional<Units>& to) {
  app_.add_option_function<std::string>(
          "--units",
          [&to](const std::string& word) { to = word == "inch" ? Units::inch : Units::metric; },
          "Units that lead: metric or inch")
      ->check(CLI::IsMember({"metric", "inch"}));
  return *this;
}

Command& Command::json(bool& to, const std::string& what) {
  return flag("--json", to, what + " as JSON");
}

Command& Command::footer(const std::string& text) {
  app_.footer(text);
  return *this;
}

void Command::action(std::function<void()> run) { app_.callback(std::move(run)); }

std::vector<Library> command_line_libraries() { return {{"CLI11", CLI11_VERSION}}; }

CommandLine::CommandLine(const std::string& about, std::function<std::string()> version,
                         const std::string& footer)
    : app_(std::make_unique<CLI::App>(about, "loopledger")) {
  app_->footer(footer);
  app_->require_subcommand(1);
  app_->set_version_flag(
      "--version", std::move(version),
      "Versions of the program and its libraries, and\nwhere templates are looked for");
  app_->set_help_all_flag("--help-all", "Help of all commands");
}

CommandLine::CommandLine(CommandLine&&) noexcept = default;
CommandLine& CommandLine::operator=(CommandLine&&) noexcept = default;
CommandLine::~CommandLine() = default;

Command CommandLine::add(const std::string& name, const std::string& help) {
  return Command(*app_->add_subcommand(name, help));
}

std::vector<CommandHelp> CommandLine::described() const {
  std::vector<CommandHelp> all{help_of(*app_)};
  for (const CLI::App* command : app_->get_subcommands([](const CLI::App*) { return true; })) {
    all.push_back(help_of(*command));
  }
  return all;
}

std::string CommandLine::unknown_command(int argc, const char* const* argv) const {
  const std::string_view word = argc > 1 ? argv[1] : "";
  if (word.empty() || word.front() == '-') {
    return {};
  }
  std::vector<std::string> names;
  for (const CLI::App* command : app_->get_subcommands([](const CLI::App*) { return true; })) {
    if (command->get_name() == word) {
      return {};
    }
    names.push_back(command->get_name());
  }
  const std::vector<std::string_view> views(names.begin(), names.end());
  const std::string_view near = nearest(word, views);
  return fmt::format("loopledger: unknown command \"{}\"\n  hint: {}\n", printable(word),
                     near.empty() ? fmt::format("commands are {}", either(views))
                                  : fmt::format("did you mean `loopledger {}`?", near));
}

bool CommandLine::run(int argc, const char* const* argv, std::ostream& out, std::ostream& err) {
  if (const std::string unknown = unknown_command(argc, argv); !unknown.empty()) {
    err << unknown;
    return false;
  }
  try {
    app_->parse(argc, argv);
  } catch (const CLI::ParseError& e) {
    return app_->exit(e, out, err) == 0;
  }
  return true;
}

}  // namespace loopledger::cli
