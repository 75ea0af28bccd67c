// SPDX-License-Identifier: MIT
#include "support/memory_world.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <utility>

#include "calc/work_out.h"
#include "commands/paths.h"
#include "records/ledger.h"
#include "support/plan_text.h"
#include "tag/id.h"

namespace loopledger::test {
namespace {

namespace fs = std::filesystem;

/// "a/b" of "a/./b/"; "." of the current folder.
std::string plain(const std::string& path) {
  std::string out = fs::path(path).lexically_normal().string();
  if (out.size() > 1 && out.ends_with('/')) {
    out.pop_back();
  }
  return out.empty() ? "." : out;
}

Diagnostic told_to_fail(const std::string& path) {
  return error("disk-io", "can't do that: told to fail", {}, {path, 0, 0});
}

std::string numbered_four(int number) {
  std::string four(4, 'a');
  for (auto at = four.rbegin(); at != four.rend(); ++at, number /= 26) {
    *at = static_cast<char>('a' + number % 26);
  }
  return four;
}

}  // namespace

class MemoryFiles::Pending : public commands::NewFile {
 public:
  Pending(MemoryFiles& files, std::string path, std::string bytes)
      : files_(files), path_(std::move(path)), bytes_(std::move(bytes)) {}
  Diagnostics commit() override {
    if (files_.fails(FileCall::commit, path_)) {
      return {told_to_fail(path_)};
    }
    files_.links.erase(path_);
    files_.files[path_] = bytes_;
    files_.committed.push_back(path_);
    return {};
  }

 private:
  MemoryFiles& files_;
  std::string path_;
  std::string bytes_;
};

Result<std::string> MemoryFiles::read(const std::string& path, std::uint64_t max_bytes) {
  const std::string place = path == "-" ? commands::kStandardInput : path;
  const std::string at = plain(path);
  if (fails(FileCall::read, path == "-" ? path : at)) {
    return told_to_fail(place);
  }
  const auto found = files.find(at);
  if (path != "-" && found == files.end()) {
    return is_folder(path) ? error("disk-folder", "this is a folder, not a file", {}, {place, 0, 0})
                           : error("disk-missing", "can't open the file: No such file or directory",
                                   {}, {place, 0, 0});
  }
  const std::string& bytes = path == "-" ? input : found->second;
  if (bytes.size() > max_bytes) {
    return error("disk-size", "the file is too large", {}, {place, 0, 0});
  }
  return bytes;
}

commands::AtPath MemoryFiles::look(const std::string& path, std::size_t head_bytes) {
  using What = commands::AtPath::What;
  commands::AtPath out;
  const auto found = files.find(plain(path));
  if (links.contains(plain(path))) {
    out.what = What::link;
  } else if (found != files.end()) {
    out = {What::file, found->second.size(), found->second.substr(0, head_bytes)};
  } else if (is_folder(path)) {
    out.what = What::folder;
  }
  return out;
}

bool MemoryFiles::is_there(const std::string& path) {
  return files.contains(plain(path)) || is_folder(path);
}

bool MemoryFiles::is_folder(const std::string& path) {
  const std::string at = plain(path);
  const auto within = [&at](const std::string& other) { return other.starts_with(at + "/"); };
  return at == "." || at == "/" || folders.contains(at) || std::ranges::any_of(folders, within) ||
         std::ranges::any_of(files, [&](const auto& file) { return within(file.first); });
}

Result<std::vector<std::string>> MemoryFiles::files_in(const std::string& folder) {
  const std::string at = plain(folder);
  if (fails(FileCall::files_in, at) || !is_folder(folder)) {
    return error("disk-folder", "can't read the folder", {}, {folder, 0, 0});
  }
  std::vector<std::string> out;
  for (const auto& [path, bytes] : files) {
    if (plain(commands::folder_part(path)) == at) {
      out.push_back(commands::joined(folder, fs::path(path).filename().string()));
    }
  }
  return out;
}

Diagnostics MemoryFiles::make_folder(const std::string& folder) {
  const std::string at = plain(folder);
  if (fails(FileCall::make_folder, at)) {
    return {told_to_fail(folder)};
  }
  if (files.contains(at)) {
    return {error("disk-folder", "expected a folder here", {}, {folder, 0, 0})};
  }
  folders.insert(at);
  return {};
}

Result<std::unique_ptr<commands::NewFile>> MemoryFiles::write(const std::string& path,
                                                              std::string_view bytes) {
  const std::string at = plain(path);
  if (fails(FileCall::write, at)) {
    return told_to_fail(path);
  }
  if (!is_folder(commands::folder_part(path))) {
    return error("disk-missing", "can't write the file: No such file or directory", {},
                 {path, 0, 0});
  }
  return {std::make_unique<Pending>(*this, at, std::string(bytes))};
}

void MemoryTemplates::take_tree() {
  for (const auto& entry : fs::recursive_directory_iterator(LOOPLEDGER_SOURCE_DIR "/templates")) {
    const fs::path& path = entry.path();
    if (path.extension() == ".toml") {
      std::ifstream in(path, std::ios::binary);
      texts[path.parent_path().filename().string() + "/" + path.stem().string()] = {
          std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
    }
  }
}

std::vector<std::string> MemoryTemplates::names(const std::string& kind) {
  std::vector<std::string> out;
  for (const auto& [name, text] : texts) {
    if (name.starts_with(kind + "/")) {
      out.push_back(name.substr(kind.size() + 1));
    }
  }
  return out;
}

std::optional<plan::Loaded> MemoryTemplates::font(const std::string& file) {
  if (font_folder.empty()) {
    return std::nullopt;
  }
  const std::string path = font_folder + '/' + file;
  std::ifstream in(path, std::ios::binary);
  return plan::Loaded{path, {std::istreambuf_iterator<char>(in), {}}};
}

Result<std::optional<plan::Loaded>> MemoryTemplates::find(const std::string& kind,
                                                          const std::string& name) {
  std::string whole = kind;
  whole.append("/").append(name);
  const auto found = texts.find(whole);
  return found == texts.end()
             ? std::optional<plan::Loaded>()
             : std::optional(plan::Loaded{"templates/" + whole + ".toml", found->second});
}

MemoryWorld::MemoryWorld()
    : world_{.files = files,
             .disk = disk,
             .templates = templates,
             .now = [this] { return now; },
             .env = [this](const char* name) -> std::optional<std::string> {
               const auto found = env.find(name);
               return found == env.end() ? std::nullopt : std::optional(found->second);
             },
             .random_four = [this] { return numbered_four(keys_given++); },
             .progress = {},
             .threads = 1} {}

void MemoryWorld::open_records(std::string_view plan, const std::string& folder) {
  MemoryTemplates tree;
  tree.take_tree();
  const auto night = read(plan, tree.texts);
  REQUIRE_MESSAGE(night.ok(), said(night.diagnostics()));
  const auto batch = calc::work_out(*night);
  REQUIRE_MESSAGE(batch.ok(), said(batch.diagnostics()));
  std::vector<records::NewRecord> fresh;
  for (const calc::MotorFigures& motor : batch->motors) {
    fresh.push_back({motor.id, tag::check_character(motor.id), motor.planned});
  }
  const Diagnostics problems = records::Ledger(disk, folder).open(fresh);
  REQUIRE_MESSAGE(problems.empty(), said(problems));
}

}  // namespace loopledger::test
