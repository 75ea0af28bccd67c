// SPDX-License-Identifier: MIT
#include "terminal/libraries.h"

#include <fmt/format.h>

#include <vector>

#include "base/libraries.h"
#include "base/text.h"
#include "calc/libraries.h"
#include "pdf/libraries.h"
#include "plan/libraries.h"
#include "posix/data_folders.h"
#include "tag/libraries.h"
#include "terminal/command_line.h"

namespace loopledger::terminal {

std::string version_text(const Context& context) {
  std::string text = "loopledger " LOOPLEDGER_VERSION "\n";
  for (const auto& room : {pdf::libraries(), tag::libraries(), plan::libraries(), base_libraries(),
                           calc::libraries(), command_line_libraries()}) {
    for (const Library& library : room) {
      text += fmt::format("  {} {}\n", library.name, library.version);
    }
  }
  const std::vector<posix::DataFolder> folders = posix::data_folders(context.world.env);
  text += folders.empty() ? "no folder with templates and fonts was found" : "templates in";
  for (const posix::DataFolder& folder : folders) {
    text += "\n  " + printable((folder.path / "templates").string());
  }
  return text;
}

}  // namespace loopledger::terminal
