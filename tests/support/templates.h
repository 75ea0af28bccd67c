// SPDX-License-Identifier: MIT
//
// The files of templates/ for tests, as plan/ asks for them.
#pragma once

#include <fstream>
#include <iterator>
#include <string>

#include "plan/read.h"

namespace loopledger::test {

/// Text of templates/FOLDER/NAME.toml, empty when there is none.
inline std::string template_text(const std::string& folder, const std::string& name) {
  std::ifstream in(std::string(LOOPLEDGER_SOURCE_DIR) + "/templates/" + folder + "/" + name +
                   ".toml");
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

/// Shelves are refused; templates come from the tree.
inline plan::Sources template_sources() {
  plan::Sources sources;
  sources.shelf = [](const std::string& path) -> Result<plan::Loaded> {
    return error("disk-missing", "no shelf here: " + path);
  };
  sources.from_templates = [](const std::string& folder,
                              const std::string& name) -> Result<plan::Loaded> {
    std::string text = template_text(folder, name);
    if (text.empty()) {
      return error("disk-missing", "no template " + folder + "/" + name);
    }
    return plan::Loaded{name + ".toml", std::move(text)};
  };
  return sources;
}

}  // namespace loopledger::test
