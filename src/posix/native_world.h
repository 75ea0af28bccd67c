// SPDX-License-Identifier: MIT
//
// The world of a program on a POSIX system: its files and standard input, the ledger's disk, the
// folders of templates and fonts, the clock, the environment, the system's random source.
#pragma once

#include <functional>
#include <iosfwd>
#include <memory>
#include <string>
#include <vector>

#include "commands/world.h"
#include "posix/environment.h"
#include "posix/posix_disk.h"

namespace loopledger::posix {

/// Files as they are; "-" is `in`.
class NativeFiles : public commands::Files {
 public:
  explicit NativeFiles(std::istream& in) : in_(in) {}
  Result<std::string> read(const std::string& path, std::uint64_t max_bytes) override;
  commands::AtPath look(const std::string& path, std::size_t head_bytes) override;
  bool is_there(const std::string& path) override;
  bool is_folder(const std::string& path) override;
  Result<std::vector<std::string>> files_in(const std::string& folder) override;
  Diagnostics make_folder(const std::string& folder) override;
  Result<std::unique_ptr<commands::NewFile>> write(const std::string& path,
                                                   std::string_view bytes) override;

 private:
  std::istream& in_;
};

/// Found in the folders of posix/data_folders.h.
class NativeTemplates : public commands::Templates {
 public:
  explicit NativeTemplates(Environment env) : env_(std::move(env)) {}
  std::vector<std::string> names(const std::string& kind) override;
  Result<std::optional<plan::Loaded>> find(const std::string& kind,
                                           const std::string& name) override;
  std::optional<plan::Loaded> font(const std::string& file) override;
  std::string schema_file() override;
  std::vector<std::string> folders() override;
  std::string places_asked() override;
  std::string printer_file() override;

 private:
  Environment env_;
};

class NativeWorld {
 public:
  /// @param in what "-" reads; it must outlive the world
  NativeWorld(std::istream& in, Environment env, std::function<Moment()> now);
  NativeWorld(const NativeWorld&) = delete;
  NativeWorld& operator=(const NativeWorld&) = delete;
  [[nodiscard]] commands::World& get() { return world_; }

 private:
  NativeFiles files_;
  PosixDisk disk_;
  NativeTemplates templates_;
  commands::World world_;
};

}  // namespace loopledger::posix
