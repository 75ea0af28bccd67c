// SPDX-License-Identifier: MIT
#include "posix/data_folders.h"

#include <algorithm>
#include <string_view>
#include <system_error>

namespace loopledger::posix {
namespace {

namespace fs = std::filesystem;

constexpr const char* kOwnName = "loopledger";

/// A variable's value; what is empty counts as not set.
std::string value_of(const Environment& env, const char* name) {
  return env(name).value_or(std::string());
}

bool is_folder(const fs::path& path) {
  std::error_code ignored;
  return fs::is_directory(path, ignored);
}

/// Beside the program: as installed, else in `share` here or in one of the two folders above, which
/// are a build's own and the one that it keeps its tests in. Where none is, the first of these.
fs::path beside_program() {
  std::error_code ignored;
  const fs::path program = fs::read_symlink("/proc/self/exe", ignored);
  if (program.empty()) {
    return {};
  }
  fs::path above = program.parent_path();
  std::vector<fs::path> places{above / LOOPLEDGER_DATA_FROM_PROGRAM};
  for (int level = 0; level < 3; ++level) {
    places.push_back(above / "share" / kOwnName);
    above = above.parent_path();
  }
  const auto found = std::ranges::find_if(
      places, [](const fs::path& place) { return is_folder(place / "fonts"); });
  return (found == places.end() ? places.front() : *found).lexically_normal();
}

/// The parts of a list with colons. Relative ones are to be ignored, as the list's rule says.
std::vector<fs::path> absolute_paths(std::string_view list) {
  std::vector<fs::path> paths;
  while (!list.empty()) {
    const std::size_t end = std::min(list.find(':'), list.size());
    const fs::path path(list.substr(0, end));
    if (path.is_absolute()) {
      paths.push_back(path);
    }
    list.remove_prefix(std::min(end + 1, list.size()));
  }
  return paths;
}

void add_folder(std::vector<DataFolder>& folders, const fs::path& path, bool shipped) {
  std::error_code ignored;
  const bool known = std::ranges::any_of(folders, [&](const DataFolder& folder) {
    return fs::equivalent(folder.path, path, ignored);
  });
  if (!known && is_folder(path)) {
    folders.push_back({path, shipped});
  }
}

/// The user's folder that a variable names, else the usual one below HOME.
std::string own_folder(const Environment& env, const char* variable, const char* below_home) {
  const fs::path named = value_of(env, variable);
  if (named.is_absolute()) {
    return (named / kOwnName).string();
  }
  const fs::path home = value_of(env, "HOME");
  return home.empty() ? std::string() : (home / below_home / kOwnName).string();
}

std::vector<DataFolder> all_places(const Environment& env) {
  if (const std::string only = value_of(env, "LOOPLEDGER_DATA"); !only.empty()) {
    return {{only, true}};
  }
  std::vector<DataFolder> places;
  if (const std::string own = own_data_folder(env); !own.empty()) {
    places.push_back({own, false});
  }
  if (const fs::path beside = beside_program(); !beside.empty()) {
    places.push_back({beside, true});
  }
  const std::string listed = value_of(env, "XDG_DATA_DIRS");
  for (const fs::path& path :
       absolute_paths(listed.empty() ? "/usr/local/share:/usr/share" : listed)) {
    places.push_back({path / kOwnName, false});
  }
  return places;
}

}  // namespace

std::string own_data_folder(const Environment& env) {
  return own_folder(env, "XDG_DATA_HOME", ".local/share");
}

std::string own_settings_folder(const Environment& env) {
  return own_folder(env, "XDG_CONFIG_HOME", ".config");
}

std::vector<DataFolder> data_folders(const Environment& env) {
  std::vector<DataFolder> folders;
  for (const DataFolder& place : all_places(env)) {
    add_folder(folders, place.path, place.shipped);
  }
  return folders;
}

std::string places_asked(const Environment& env) {
  std::string out;
  for (const DataFolder& place : all_places(env)) {
    out += (out.empty() ? "" : ", ") + place.path.string();
  }
  const bool only = !value_of(env, "LOOPLEDGER_DATA").empty();
  return only ? "LOOPLEDGER_DATA (" + out + ")" : out;
}

std::string font_folder(const std::vector<DataFolder>& folders) {
  for (const bool shipped : {true, false}) {
    for (const DataFolder& folder : folders) {
      if (folder.shipped == shipped && is_folder(folder.path / "fonts")) {
        return (folder.path / "fonts").string();
      }
    }
  }
  return {};
}

}  // namespace loopledger::posix
