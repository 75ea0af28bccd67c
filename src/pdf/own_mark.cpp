// SPDX-License-Identifier: MIT
#include "pdf/own_mark.h"

#include <fmt/format.h>

namespace loopledger::pdf {
namespace {

/// The mark as it stands in a file of that size.
std::string mark_for(std::uint64_t size) {
  return fmt::format("/{} ({:012} bytes)", kMarkKey, size);
}

}  // namespace

bool put_mark(std::string& file) {
  const std::string blank = fmt::format("/{} ({})", kMarkKey, kMarkBlank);
  const std::string mark = mark_for(file.size());
  const std::size_t at = std::string_view(file).substr(0, kMarkWithin).find(blank);
  if (at == std::string::npos || mark.size() != blank.size()) {
    return false;
  }
  file.replace(at, blank.size(), mark);
  return true;
}

bool has_mark(std::string_view head, std::uint64_t size) {
  return head.starts_with("%PDF-") &&
         head.substr(0, kMarkWithin).find(mark_for(size)) != std::string_view::npos;
}

}  // namespace loopledger::pdf
