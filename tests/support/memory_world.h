// SPDX-License-Identifier: MIT
//
// A world that lies in memory, for tests of commands as functions: files in a map, the ledger's
// disk of support/memory_disk.h, templates as given or those of the tree, a clock and an
// environment that are set by hand. Paths are taken as they are typed ("a/./b" is "a/b").
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "commands/world.h"
#include "support/memory_disk.h"

namespace loopledger::test {

enum class FileCall { read, files_in, make_folder, write, commit };

class MemoryFiles : public commands::Files {
 public:
  std::map<std::string, std::string> files;  ///< by path; what was written is here once committed
  std::set<std::string> folders;             ///< those without files too
  std::set<std::string> links;               ///< paths that are links to nowhere
  std::string input;                         ///< what "-" reads
  std::vector<std::string> committed;        ///< paths, in their order

  /// From now on that call fails there, with disk-io.
  void fail(FileCall call, const std::string& path) { failing_.emplace(call, path); }

  Result<std::string> read(const std::string& path, std::uint64_t max_bytes) override;
  commands::AtPath look(const std::string& path, std::size_t head_bytes) override;
  bool is_there(const std::string& path) override;
  bool is_folder(const std::string& path) override;
  Result<std::vector<std::string>> files_in(const std::string& folder) override;
  Diagnostics make_folder(const std::string& folder) override;
  Result<std::unique_ptr<commands::NewFile>> write(const std::string& path,
                                                   std::string_view bytes) override;

 private:
  class Pending;
  [[nodiscard]] bool fails(FileCall call, const std::string& path) const {
    return failing_.contains({call, path});
  }

  std::set<std::pair<FileCall, std::string>> failing_;
};

class MemoryTemplates : public commands::Templates {
 public:
  std::map<std::string, std::string> texts;  ///< by "rules/fai-f1d"
  std::string font_folder = LOOPLEDGER_SOURCE_DIR "/fonts";
  std::string schema;
  std::string printer;

  /// All of the tree's templates/ beside those that are there.
  void take_tree();

  std::vector<std::string> names(const std::string& kind) override;
  Result<std::optional<plan::Loaded>> find(const std::string& kind,
                                           const std::string& name) override;
  std::optional<plan::Loaded> font(const std::string& file) override;
  std::string schema_file() override { return schema; }
  std::vector<std::string> folders() override { return {"templates"}; }
  std::string places_asked() override { return "templates"; }
  std::string printer_file() override { return printer; }
};

/// @code MemoryWorld world; world.files.files["night.toml"] = …; check(request, world.get());
class MemoryWorld {
 public:
  MemoryWorld();
  MemoryWorld(const MemoryWorld&) = delete;
  MemoryWorld& operator=(const MemoryWorld&) = delete;
  [[nodiscard]] commands::World& get() { return world_; }

  /// Opens records for all motors of a plan, which may take what the tree's templates/ hold.
  void open_records(std::string_view plan, const std::string& folder = "records");

  MemoryFiles files;
  MemoryDisk disk;
  MemoryTemplates templates;
  Moment now{1777629600};  ///< 2026-05-01 10:00 UTC
  std::map<std::string, std::string> env;
  int keys_given = 0;  ///< "aaaa", "aaab" …

 private:
  commands::World world_;
};

}  // namespace loopledger::test
