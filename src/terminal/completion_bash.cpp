// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <fmt/ranges.h>

#include "terminal/completion.h"

namespace loopledger::terminal {
namespace {

using Kind = Completed::Kind;

constexpr const char* kBashHelpers =
    R"bash(# Completion of loopledger for bash, made from its commands.

_loopledger_motors() {
  local file
  for file in "${LOOPLEDGER_RECORDS:-records}"/*.toml; do
    file=${file##*/}
    [[ $file == '*.toml' ]] || printf '%s\n' "${file%.toml}"
  done
}

# Offers what goes on with `word`, which is what was typed: files, folders, motors, or the words
# behind $2. If $2 is not empty it is a list, of which the last is looked at.
_loopledger_offer() {
  local kind=$1 list=$2 head=
  shift 2
  [[ -n $list && $word == *,* ]] && head=${word%,*},
  local typed=${word#"$head"}
  case $kind in
    files | folders)
      compopt -o filenames 2>/dev/null
      [[ $kind == files ]] && kind=-f || kind=-d
      mapfile -t COMPREPLY < <(compgen "$kind" -- "$typed")
      ;;
    motors)
      mapfile -t COMPREPLY < <(compgen -P "$head" -W "$(_loopledger_motors)" -- "${typed^^}")
      ;;
    words)
      mapfile -t COMPREPLY < <(compgen -P "$head" -W "$*" -- "$typed")
      ;;
  esac
}

# Which of a command's words by their place is typed; $1: the options that take a value.
_loopledger_place() {
  local i place=1
  for ((i = 2; i < COMP_CWORD; i++)); do
    if [[ ${COMP_WORDS[i]} != -?* ]]; then
      ((place++))
    elif [[ ${COMP_WORDS[i + 1]} == = ]]; then
      ((i += 2))
    elif [[ " $1 " == *" ${COMP_WORDS[i]} "* ]]; then
      ((i++))
    fi
  done
  printf '%s\n' "$place"
}

_loopledger() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} command=${COMP_WORDS[1]}
  COMPREPLY=()
  # The shell takes --units=inch for three words.
  if [[ $word == = ]]; then
    word=
  elif [[ $before == = ]]; then
    before=${COMP_WORDS[COMP_CWORD - 2]}
  fi
)bash";

std::string bash_offer(const Completed& completed) {
  const char* const list = completed.list ? "list" : "''";
  switch (completed.kind) {
    case Kind::words:
      return fmt::format("_loopledger_offer words {} {}", list, fmt::join(completed.words, " "));
    case Kind::files:
      return fmt::format("_loopledger_offer files {}", list);
    case Kind::folders:
      return fmt::format("_loopledger_offer folders {}", list);
    case Kind::motors:
      return fmt::format("_loopledger_offer motors {}", list);
    case Kind::nothing:
      break;
  }
  return ":";
}

/// Names of the options; `with_value`: of those alone that take one.
std::string bash_options(const CommandHelp& command, bool with_value) {
  std::vector<std::string> all;
  for (const OptionHelp& option : command.options) {
    if (!option.by_place && (!with_value || !option.value.empty())) {
      const auto names = names_of(option);
      all.insert(all.end(), names.begin(), names.end());
    }
  }
  return fmt::format("{}", fmt::join(all, " "));
}

std::string bash_values(const CommandHelp& command) {
  std::string out;
  for (const OptionHelp& option : command.options) {
    if (option.by_place || option.value.empty()) {
      continue;
    }
    for (const std::string& name : names_of(option)) {
      out += fmt::format("    '{} {}')\n      {}\n      return\n      ;;\n", command.name, name,
                         bash_offer(completed_by(option, name)));
    }
  }
  return out;
}

std::string bash_places(const CommandHelp& command) {
  std::string out;
  int place = 0;
  for (const OptionHelp& option : command.options) {
    if (option.by_place) {
      ++place;
      const std::string which = option.many ? "*" : fmt::format("{}", place);
      out += fmt::format("    '{} '{}) {} ;;\n", command.name, which,
                         bash_offer(completed_by(option, option.name)));
    }
  }
  return out;
}

}  // namespace

std::string bash_completion(const std::vector<CommandHelp>& commands) {
  std::string names;
  std::string values;
  std::string options;
  std::string places;
  for (const CommandHelp& command : commands) {
    if (&command == &commands.front()) {
      continue;
    }
    names += command.name + " ";
    values += bash_values(command);
    options += fmt::format("    {})\n      options='{}'\n      taking='{}'\n      ;;\n",
                           command.name, bash_options(command, false), bash_options(command, true));
    places += bash_places(command);
  }
  return fmt::format(
      "{}  if ((COMP_CWORD == 1)); then\n    _loopledger_offer words '' {}{}\n    return\n  "
      "fi\n"
      "  case \"$command $before\" in\n{}  esac\n"
      "  local options= taking=\n  case $command in\n{}  esac\n"
      "  if [[ $word == -* ]]; then\n    _loopledger_offer words '' $options\n    return\n  "
      "fi\n"
      "  case \"$command $(_loopledger_place \"$taking\")\" in\n{}  esac\n}}\n\n"
      "complete -F _loopledger loopledger\n",
      kBashHelpers, names, bash_options(commands.front(), false), values, options, places);
}

}  // namespace loopledger::terminal
