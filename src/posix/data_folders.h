// SPDX-License-Identifier: MIT
//
// Where templates and fonts are looked for. LOOPLEDGER_DATA names one folder that stands for all.
// Else, in this order: the user's own folder (XDG_DATA_HOME/loopledger, else
// ~/.local/share/loopledger), what was installed with the program (found from where the program
// lies, so that a moved tree works; the build's folder has a link to the sources), and
// loopledger in each of XDG_DATA_DIRS.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "posix/environment.h"

namespace loopledger::posix {

/// One of the places, and what to call a file in it.
struct DataFolder {
  std::filesystem::path path;
  bool shipped = false;  ///< came with the program: its files are known by their names within it
};

/// The folders that exist, each once, the first to be asked first.
[[nodiscard]] std::vector<DataFolder> data_folders(const Environment& env);

/// All places that data_folders asks, whether they exist or not, for a message: "LOOPLEDGER_DATA
/// (/my/data)", or "/a/loopledger, /b/loopledger".
[[nodiscard]] std::string places_asked(const Environment& env);

/// The folder of the fonts; what came with the program is asked first, because texts are set for
/// those very fonts. Empty when there is none.
[[nodiscard]] std::string font_folder(const std::vector<DataFolder>& folders);

/// The user's own folder, whether it exists or not. Empty when none can be told.
[[nodiscard]] std::string own_data_folder(const Environment& env);

/// The user's folder for settings, whether it exists or not: XDG_CONFIG_HOME/loopledger, else
/// ~/.config/loopledger. A relative XDG_CONFIG_HOME is ignored, as its rule says. Empty when none
/// can be told.
[[nodiscard]] std::string own_settings_folder(const Environment& env);

}  // namespace loopledger::posix
