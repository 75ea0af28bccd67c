// SPDX-License-Identifier: MIT
#include "commands/paths.h"

namespace loopledger::commands {

std::string joined(std::string_view folder, std::string_view name) {
  if (folder.empty() || name.starts_with('/')) {
    return std::string(name);
  }
  std::string out(folder);
  if (!out.ends_with('/')) {
    out += '/';
  }
  return out.append(name);
}

std::string folder_part(std::string_view path) {
  const std::size_t end = path.rfind('/');
  if (end == std::string_view::npos) {
    return {};
  }
  // The root is its own folder; "a//b" lies in "a".
  const std::size_t last = path.find_last_not_of('/', end);
  return std::string(last == std::string_view::npos ? path.substr(0, 1) : path.substr(0, last + 1));
}

std::string stem_of(std::string_view path) {
  const std::size_t slash = path.rfind('/');
  const std::string_view name = slash == std::string_view::npos ? path : path.substr(slash + 1);
  const std::size_t dot = name.rfind('.');
  return std::string(dot == std::string_view::npos || dot == 0 ? name : name.substr(0, dot));
}

std::string beside(const std::string& plan_path, const std::string& relative) {
  return plan_path == "-" ? relative : joined(folder_part(plan_path), relative);
}

}  // namespace loopledger::commands
