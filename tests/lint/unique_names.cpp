// SPDX-License-Identifier: MIT
#include "lint/unique_names.h"

#include <map>
#include <optional>
#include <regex>
#include <sstream>
#include <utility>

namespace loopledger::lint {
namespace {

/// What a line that begins a declaration declares: a type, a constant or a function.
std::optional<std::string> declared(const std::string& line) {
  static const std::regex kType("^(struct|class|enum class) ([A-Za-z_]\\w*)");
  static const std::regex kConstant(
      "^(?:constexpr|const|inline constexpr) [^=({]*?\\b(k[A-Z]\\w*)");
  static const std::regex kVariable("^[A-Za-z_][\\w:<>, ]* ([a-z]\\w*)(?:\\{.*\\})?;");
  static const std::regex kFunction("^[A-Za-z_][\\w:<>,&* ]*?[ &*]([a-z]\\w*)\\(");
  std::smatch found;
  if (std::regex_search(line, found, kType)) {
    return found[2];
  }
  for (const std::regex* form : {&kConstant, &kVariable, &kFunction}) {
    if (std::regex_search(line, found, *form)) {
      return found[1];
    }
  }
  return std::nullopt;
}

bool is_start(const std::string& line) {
  return !line.empty() && line.front() != ' ' && line.front() != '}' && line.front() != '/' &&
         line.front() != '#' && line.rfind("using ", 0) != 0 && line.rfind("template", 0) != 0;
}

}  // namespace

std::vector<std::string> equal_names(const std::vector<SourceFile>& files) {
  std::map<std::pair<std::string, std::string>, std::string> first;  // by folder and name
  std::vector<std::string> faults;
  for (const SourceFile& file : files) {
    if (file.path.rfind("src/", 0) != 0 || !std::regex_search(file.path, std::regex("\\.cpp$"))) {
      continue;
    }
    const std::string folder = file.path.substr(0, file.path.rfind('/'));
    bool inside = false;
    std::istringstream in(file.text);
    for (std::string line; std::getline(in, line);) {
      if (line == "namespace {" || line == "}  // namespace") {
        inside = line == "namespace {";
      } else if (const auto name = inside && is_start(line) ? declared(line) : std::nullopt) {
        const auto [at, is_new] = first.try_emplace({folder, *name}, file.path);
        if (!is_new && at->second != file.path) {
          faults.push_back(at->second + " and " + file.path + " both have " + *name);
        }
      }
    }
  }
  return faults;
}

}  // namespace loopledger::lint
