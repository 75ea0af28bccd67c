// SPDX-License-Identifier: MIT
//
// Reading plans from text in tests, with shelf files and templates from a map.
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "plan/read.h"

namespace loopledger::test {

/// Files by the name that a plan uses; templates as "rules/NAME".
using Texts = std::map<std::string, std::string>;

inline Result<plan::Loaded> text_of(const Texts& texts, const std::string& name) {
  const auto found = texts.find(name);
  if (found == texts.end()) {
    return error("disk-missing", "can't open the file: " + name);
  }
  return plan::Loaded{name, found->second};
}

inline Result<plan::Plan> read(std::string_view text, const Texts& texts = {}) {
  plan::Sources sources;
  sources.shelf = [&](const std::string& name) { return text_of(texts, name); };
  sources.from_templates = [&](const std::string& folder, const std::string& name) {
    return text_of(texts, folder + "/" + name);
  };
  return plan::read_plan(text, "night.toml", sources);
}

/// All messages as printed.
inline std::string said(const Diagnostics& diagnostics) { return render(diagnostics); }

/// The shortest plan that works, up to its motors; tests add to it.
inline constexpr std::string_view kHead = R"(format = 1
bench = { scale_step = "1 mg" }
rules.club = { limit = "1.5 g", counts = ["rubber"] }
strips.tan = { width = "2.5 mm", samples = [["500 mm", "1.290 g"]] }
)";

inline std::string with_head(std::string_view rest) {
  return std::string(kHead) + std::string(rest);
}

}  // namespace loopledger::test
