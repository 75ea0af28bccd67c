// SPDX-License-Identifier: MIT
//
// What lies outside the program, as interfaces: files, the ledger's disk, templates and fonts, the
// clock, the environment, chance, and whoever watches how far the work has come. A front end brings
// its own world: posix/native_world.h is the one of a terminal, tests use one that lies in memory
// (tests/support/memory_world.h). Nothing else reaches a command from outside but its request.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/date.h"
#include "base/result.h"
#include "plan/read.h"
#include "plan/tree.h"
#include "records/disk.h"

namespace loopledger::commands {

inline constexpr std::uint64_t kMaxTextFile = plan::kMaxTomlBytes;  ///< plans, shelves, templates
inline constexpr const char* kStandardInput = "<standard input>";   ///< where messages place "-"

/// What stands at a path; a link is not followed.
struct AtPath {
  enum class What { nothing, file, folder, link, other, unreadable };
  What what = What::nothing;
  std::uint64_t size = 0;  ///< bytes of a file
  std::string head;        ///< its first bytes, as many as were asked for
};

/// A file that is written and flushed beside its place. Dropped without `commit` it leaves nothing.
class NewFile {
 public:
  NewFile() = default;
  NewFile(const NewFile&) = delete;
  NewFile& operator=(const NewFile&) = delete;
  virtual ~NewFile() = default;
  /// Puts it in its place, over what is there. Empty when done, else an error disk-….
  [[nodiscard]] virtual Diagnostics commit() = 0;
};

/// Files by their paths, but those of the ledger. Errors have codes that begin with "disk-".
class Files {
 public:
  Files() = default;
  Files(const Files&) = delete;
  Files& operator=(const Files&) = delete;
  virtual ~Files() = default;

  /// The whole file ("-": standard input). Errors: disk-missing, disk-folder, disk-permission,
  /// disk-size, disk-read.
  [[nodiscard]] virtual Result<std::string> read(const std::string& path,
                                                 std::uint64_t max_bytes) = 0;
  /// @param head_bytes how much of a file is wanted to know it by
  [[nodiscard]] virtual AtPath look(const std::string& path, std::size_t head_bytes) = 0;
  /// Whether anything is there, and whether it is a folder; links are followed.
  [[nodiscard]] virtual bool is_there(const std::string& path) = 0;
  [[nodiscard]] virtual bool is_folder(const std::string& path) = 0;
  /// The paths of the files in a folder, sorted. Error disk-folder.
  [[nodiscard]] virtual Result<std::vector<std::string>> files_in(const std::string& folder) = 0;
  /// Makes the folder and its parents; no error when it is there.
  [[nodiscard]] virtual Diagnostics make_folder(const std::string& folder) = 0;
  [[nodiscard]] virtual Result<std::unique_ptr<NewFile>> write(const std::string& path,
                                                               std::string_view bytes) = 0;
};

/// The data that came with the program or that its user added.
class Templates {
 public:
  Templates() = default;
  Templates(const Templates&) = delete;
  Templates& operator=(const Templates&) = delete;
  virtual ~Templates() = default;

  /// The names of one kind ("stock", "rules" …), sorted, each once.
  [[nodiscard]] virtual std::vector<std::string> names(const std::string& kind) = 0;
  /// The first file of that kind and name: one that came with the program by its name within
  /// templates/, the user's own by its whole path. Empty: there is none. Errors: those of reading.
  [[nodiscard]] virtual Result<std::optional<plan::Loaded>> find(const std::string& kind,
                                                                 const std::string& name) = 0;
  /// A font's file by its name, with the path that messages give it; its text is empty when it
  /// can't be read. Nothing: there are no fonts at all.
  [[nodiscard]] virtual std::optional<plan::Loaded> font(const std::string& file) = 0;
  /// Where the plan's schema for editors lies; empty: nowhere.
  [[nodiscard]] virtual std::string schema_file() = 0;
  /// The folders that hold templates, the first to be asked first.
  [[nodiscard]] virtual std::vector<std::string> folders() = 0;
  /// All places that are asked, for a message.
  [[nodiscard]] virtual std::string places_asked() = 0;
  /// The user's own file of what the printer misses by, whether it is there or not; empty: none can
  /// be told.
  [[nodiscard]] virtual std::string printer_file() = 0;
};

/// Somebody who watches long work.
class Progress {
 public:
  Progress() = default;
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  virtual ~Progress() = default;
  /// One more is done. May be called from several threads at once.
  virtual void step() {}
  /// Takes back what is shown, for other output; the next step may show it again.
  virtual void hide() {}
};

/// @pre what it refers to outlives it
struct World {
  Files& files;
  records::Disk& disk;  ///< read() may be called from several threads at once
  Templates& templates;
  std::function<Moment()> now;
  std::function<std::optional<std::string>(const char*)> env;
  /// Four of a-z and 0-9, other ones at each call.
  std::function<std::string()> random_four;
  /// Work of so many steps begins: "reading records", 1200.
  std::function<std::unique_ptr<Progress>(std::string doing, std::size_t steps)> progress;
  unsigned threads = 1;  ///< how many may run at once

  /// Work of so many steps, whether anybody watches it or not.
  [[nodiscard]] std::unique_ptr<Progress> watched(std::string doing, std::size_t steps) const {
    return progress ? progress(std::move(doing), steps) : std::make_unique<Progress>();
  }
};

}  // namespace loopledger::commands
