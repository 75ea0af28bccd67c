// SPDX-License-Identifier: MIT
#include "cli/libraries.h"

#include <fmt/format.h>

#include <vector>

#include "base/libraries.h"
#include "base/text.h"
#include "calc/libraries.h"
#include "cli/command_line.h"
#include "cli/data_folders.h"
#include "pdf/libraries.h"
#include "plan/libraries.h"
#include "tag/libraries.h"

namespace loopledger::cli {

std::string version_text(const Context& context) {
  std::string text = "loopledger " LOOPLEDGER_VERSION "\n";
  for (const auto& room : {pdf::libraries(), tag::libraries(), plan::libraries(), base_libraries(),
                           calc::libraries(), command_line_libraries()}) {
    for (const Library& library : room) {
      text += fmt::format("  {} {}\n", library.name, library.version);
    }
  }
  const std::vector<DataFolder> folders = data_folders(context);
  text += folders.empty() ? "no folder with templates and fonts was found" : "templates in";
  for (const DataFolder& folder : folders) {
    text += "\n  " + printable((folder.path / "templates").string());
  }
  return text;
}

}  // namespace loopledger::cli
