// SPDX-License-Identifier: MIT
#include "terminal/completion.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace loopledger::terminal {
namespace {

// Words and options mean the same in every command.
constexpr std::array<std::string_view, 9> kFiles{
    "PLAN", "FILE", "IMAGE", "--from", "--labels", "--layout", "--paper", "--pieces", "--plan"};
constexpr std::array<std::string_view, 2> kFolders{"--out", "--records"};
constexpr std::array<std::string_view, 2> kMotors{"ID", "--only"};

template <std::size_t N>
bool is_one_of(const std::array<std::string_view, N>& names, const std::string& name) {
  return std::ranges::find(names, name) != names.end();
}

std::vector<std::string> split(std::string_view text) {
  std::vector<std::string> parts(1);
  for (const char c : text) {
    if (c == ',') {
      parts.emplace_back();
    } else {
      parts.back() += c;
    }
  }
  return parts;
}

}  // namespace

std::vector<std::string> names_of(const OptionHelp& option) { return split(option.name); }

Completed completed_by(const OptionHelp& option, const std::string& name) {
  Completed completed;
  completed.list = option.many && !option.by_place;
  const std::size_t from = option.value.find('{');
  const std::size_t to = option.value.find('}');
  if (from != std::string::npos && to != std::string::npos) {
    completed.kind = Completed::Kind::words;
    completed.words = split(std::string_view(option.value).substr(from + 1, to - from - 1));
  } else if (is_one_of(kFiles, name)) {
    completed.kind = Completed::Kind::files;
  } else if (is_one_of(kFolders, name)) {
    completed.kind = Completed::Kind::folders;
  } else if (is_one_of(kMotors, name)) {
    completed.kind = Completed::Kind::motors;
  }
  return completed;
}

}  // namespace loopledger::terminal
