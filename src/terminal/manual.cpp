// SPDX-License-Identifier: MIT
#include "terminal/manual.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>

#include "base/text.h"

namespace loopledger::terminal {
namespace {

constexpr std::string_view kCommandsLine = "\n@COMMANDS@\n";

/// Characters that troff would set as others, or take for its own.
std::string troff_character(char32_t c) {
  switch (c) {
    case U'\\':
      return "\\e";
    case U'-':
      return "\\-";
    case U'\'':
      return "\\(aq";
    case U'`':
      return "\\(ga";
    case U'^':
      return "\\(ha";
    case U'~':
      return "\\(ti";
    case U'"':
      return "\\(dq";
    default:
      return c > 0x7e ? fmt::format("\\[u{:04X}]", static_cast<std::uint32_t>(c))
                      : std::string(1, static_cast<char>(c));
  }
}

/// A full stop that begins a line would be a request.
std::string troff_lines(std::string_view text) {
  std::string out;
  bool starts = true;
  for (const char c : troff_text(text)) {
    out += starts && c == '.' ? "\\&." : std::string(1, c);
    starts = c == '\n';
  }
  return out + "\n";
}

std::string usage_of(const CommandHelp& command) {
  std::string words =
      command.options.empty() || command.options.back().by_place ? "" : " [options]";
  for (const OptionHelp& option : command.options) {
    if (option.by_place) {
      const std::string name = troff_text(option.name) + (option.many ? " ..." : "");
      words += option.needed ? " " + name : " [" + name + "]";
    }
  }
  return words;
}

/// "--help,-h" of the library as "--help, -h".
std::string names_of(const OptionHelp& option) {
  std::string names;
  for (const char c : option.name) {
    names += c == ',' ? ", " : std::string(1, c);
  }
  return names;
}

std::string entry_of(const OptionHelp& option) {
  std::string name = fmt::format("\\fB{}\\fR", troff_text(names_of(option)));
  if (!option.by_place && !option.value.empty()) {
    name += fmt::format(" \\fI{}\\fR", troff_text(option.value));
  }
  return fmt::format(".TP\n{}\n{}", name, troff_lines(option.help));
}

bool is_named(const CommandHelp& command, const std::string& name) {
  return std::ranges::any_of(command.options,
                             [&](const OptionHelp& option) { return option.name == name; });
}

}  // namespace

std::string troff_text(std::string_view text) {
  std::string out;
  for (const char32_t c : code_points(text)) {
    out += troff_character(c);
  }
  return out;
}

std::string manual_commands(const std::vector<CommandHelp>& commands) {
  std::string out;
  for (const CommandHelp& command : commands) {
    const bool program = &command == &commands.front();
    if (program) {
      out += ".SS Options of the program itself\n";
    } else {
      out += fmt::format(".SS \"{}{}\"\n{}", command.name, usage_of(command),
                         troff_lines(command.help));
    }
    for (const OptionHelp& option : command.options) {
      if (program || !is_named(commands.front(), option.name)) {
        out += entry_of(option);
      }
    }
    if (!program && !command.footer.empty() && command.footer != commands.front().footer) {
      out += fmt::format(".PP\n.nf\n{}.fi\n", troff_lines(command.footer));
    }
  }
  return out;
}

std::string manual(std::string_view page, const std::vector<CommandHelp>& commands) {
  const std::size_t at = page.find(kCommandsLine);
  if (at == std::string_view::npos) {
    return {};
  }
  return fmt::format("{}\n{}{}", page.substr(0, at), manual_commands(commands),
                     page.substr(at + kCommandsLine.size()));
}

}  // namespace loopledger::terminal
