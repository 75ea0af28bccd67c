// SPDX-License-Identifier: MIT
#include "terminal/command_line.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <charconv>
#include <ostream>
#include <sstream>
#include <string_view>
#include <utility>

#include "base/text.h"
#include "commands/label_sheet.h"
#include "commands/outcome.h"
#include "terminal/text_table.h"

namespace loopledger::terminal {
namespace {

/// What follows an option's name in the command's help.
std::string value_help(const CLI::Option& option) {
  return option.get_expected_max() == 0 ? std::string() : option.get_type_name();
}

CommandHelp described_command(const CLI::App& app) {
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

/// A validator of the library says what is wrong as text; the hint stands behind this.
constexpr char kHintMark = '\n';

std::string in_quotes(std::string_view word) { return fmt::format("\"{}\"", shortened(word, 60)); }

std::string either_of(const std::vector<std::string>& words) {
  return either(std::vector<std::string_view>(words.begin(), words.end()));
}

std::string nearest_of(std::string_view word, const std::vector<std::string>& words) {
  return std::string(nearest(word, std::vector<std::string_view>(words.begin(), words.end())));
}

CLI::Validator one_of(const std::vector<std::string>& words) {
  return {[words](std::string& found) {
            if (std::ranges::find(words, found) != words.end()) {
              return std::string();
            }
            const std::string near = nearest_of(found, words);
            return fmt::format(
                "expected {}, found {}{}", either_of(words), in_quotes(found),
                near.empty() ? "" : fmt::format("{}did you mean {}?", kHintMark, near));
          },
          fmt::format("{{{}}}", fmt::join(words, ","))};
}

CLI::Validator whole_between(int low, int high) {
  return {[low, high](std::string& found) {
            int value = 0;
            const char* const end = found.data() + found.size();
            const auto [to, code] = std::from_chars(found.data(), end, value);
            const bool good = code == std::errc{} && to == end && value >= low && value <= high;
            return good ? std::string()
                        : fmt::format("expected a whole number from {} to {}, found {}", low, high,
                                      in_quotes(found));
          },
          fmt::format("in [{} - {}]", low, high)};
}

/// The command that the words chose; the program itself when they chose none.
const CLI::App& chosen(const CLI::App& app) {
  const auto commands = app.get_subcommands();
  return commands.empty() ? app : *commands.front();
}

std::string help_of(const CLI::App& command) {
  return fmt::format("`loopledger{} --help` lists {}",
                     command.get_parent() == nullptr ? "" : " " + command.get_name(),
                     command.get_parent() == nullptr ? "the commands" : "what it takes");
}

/// The first word that the command has no use for.
Diagnostic unexpected(const CLI::App& command, const std::string& word) {
  if (!word.starts_with('-')) {
    return commands::usage_error(
        "word", fmt::format("expected nothing more, found {}", in_quotes(word)), help_of(command));
  }
  std::vector<std::string> names;
  for (const CLI::Option* option : command.get_options()) {
    names.push_back(option->get_name());
  }
  const std::string near = nearest_of(word.substr(0, word.find('=')), names);
  return commands::usage_error(
      "option",
      fmt::format("expected an option of `loopledger {}`, found {}", command.get_name(),
                  in_quotes(word)),
      near.empty() ? help_of(command) : fmt::format("did you mean {}?", near));
}

/// "--records: Folder of the records" for the option of that name.
std::string described_in(const CLI::App& command, const std::string& name) {
  for (const CLI::Option* option : command.get_options()) {
    if (option->get_name() == name) {
      return fmt::format("{}: {}", name, option->get_description());
    }
  }
  return help_of(command);
}

Diagnostic missing_word(const CLI::App& command, const std::string& name) {
  const std::vector<std::string> left = command.remaining();
  const auto option =
      std::ranges::find_if(left, [](const std::string& word) { return word.starts_with('-'); });
  if (option != left.end()) {
    return unexpected(command, *option);  // what is missing may follow from that
  }
  return command.get_parent() == nullptr
             ? commands::usage_error("command", "expected a command, found none", help_of(command))
             : commands::usage_error("missing",
                                     fmt::format("`loopledger {}` expects {}, found nothing",
                                                 command.get_name(), name),
                                     described_in(command, name));
}

/// The option that the library speaks of: the first word with dashes, else the first of all.
std::string spoken_of(const std::string& said) {
  const std::size_t dashes = said.find("--");
  const std::size_t from = dashes == std::string::npos ? 0 : dashes;
  return said.substr(from, said.find_first_of(": ", from) - from);
}

/// The library's help in the terminal's width: what goes on stands below where it began.
std::string fitted_help(const std::string& help) {
  constexpr int kHelpColumn = 30;  // of the library: where what an option does begins
  std::istringstream lines(help);
  std::string out;
  for (std::string line; std::getline(lines, line);) {
    out += wrapped(line, line.starts_with("  ") ? kHelpColumn : 0);
  }
  return out;
}

/// What the library found, in our words.
Diagnostic in_our_words(const CLI::ParseError& e, const CLI::App& app) {
  const CLI::App& command = chosen(app);
  const std::string said = e.what();
  const std::string name = spoken_of(said);
  const std::string kind = e.get_name();
  if (const auto left = command.remaining();
      dynamic_cast<const CLI::ExtrasError*>(&e) != nullptr && !left.empty()) {
    return unexpected(command, left.front());
  }
  if (kind == "RequiredError") {
    return missing_word(command, name);
  }
  if (kind == "ExcludesError") {
    return commands::usage_error(
        "both",
        fmt::format("expected {} or {}, found both", name, said.substr(said.find_last_of(' ') + 1)),
        "leave one of them out");
  }
  if (kind == "ArgumentMismatch" && said.find("At Most") != std::string::npos) {
    return commands::usage_error("twice", fmt::format("expected {} once, found it again", name),
                                 "leave one of them out");
  }
  if (kind == "ArgumentMismatch" && said.find("missing") != std::string::npos) {
    return commands::usage_error("missing",
                                 fmt::format("expected a word after {}, found nothing", name),
                                 described_in(command, name));
  }
  if (kind == "ConversionError") {
    return commands::usage_error("value", fmt::format("expected {} without a value", name),
                                 described_in(command, name));
  }
  const std::size_t mark = said.find(kHintMark);
  return commands::usage_error(
      "value", said.substr(0, mark),
      mark == std::string::npos ? help_of(command) : said.substr(mark + 1));
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
  app_.add_option(name, to, help)->required()->check(whole_between(low, high));
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
  app_.add_option(name, to, help)->check(one_of(of));
  return *this;
}

Command& Command::choices(const std::string& name, std::vector<std::string>& to,
                          const std::vector<std::string>& of, const std::string& help) {
  // One word list after the option: what follows it is the command's own.
  app_.add_option(name, to, help)->delimiter(',')->allow_extra_args(false)->check(one_of(of));
  return *this;
}

Command& Command::number(const std::string& name, int& to, int low, int high,
                         const std::string& help) {
  app_.add_option(name, to, help)->check(whole_between(low, high));
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

Command& Command::label_sheet(commands::LabelSheetOptions& to) {
  return option("--labels", to.stock, "Label stock: a name in templates/stock, or a .toml file")
      .option("--layout", to.layout, "What stands on them: a name in templates/layouts, or a file")
      .number("--start", to.start, 1, commands::kMaxStart,
              "First free label of a part-used sheet, from 1")
      .number("--copies", to.copies, 1, sheets::kMaxCopies, "Of each label, one behind the other");
}

Command& Command::units(std::optional<Units>& to) {
  app_.add_option_function<std::string>(
          "--units",
          [&to](const std::string& word) { to = word == "inch" ? Units::inch : Units::metric; },
          "Units that lead: metric or inch")
      ->check(one_of({"metric", "inch"}));
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
  std::vector<CommandHelp> all{described_command(*app_)};
  for (const CLI::App* command : app_->get_subcommands([](const CLI::App*) { return true; })) {
    all.push_back(described_command(*command));
  }
  return all;
}

Diagnostics CommandLine::unknown_command(int argc, const char* const* argv) const {
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
  const std::string near = nearest_of(word, names);
  return {commands::usage_error("command",
                                fmt::format("expected a command, found {}", in_quotes(word)),
                                near.empty() ? fmt::format("commands are {}", either_of(names))
                                             : fmt::format("did you mean `loopledger {}`?", near))};
}

Diagnostics CommandLine::run(int argc, const char* const* argv, std::ostream& out) {
  if (Diagnostics unknown = unknown_command(argc, argv); !unknown.empty()) {
    return unknown;
  }
  try {
    app_->parse(argc, argv);
  } catch (const CLI::CallForVersion& e) {
    app_->exit(e, out, out);
  } catch (const CLI::Success& e) {
    std::ostringstream help;
    app_->exit(e, help, help);
    out << fitted_help(help.str());
  } catch (const CLI::ParseError& e) {
    return {in_our_words(e, *app_)};
  }
  return {};
}

}  // namespace loopledger::terminal
