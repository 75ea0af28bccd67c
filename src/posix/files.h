// SPDX-License-Identifier: MIT
//
// Files as the commands need them: read whole with a size limit, written so that a reader sees the
// old file or the new one and never half of it. Errors carry codes that begin with "disk-".
#pragma once

#include <cstdint>
#include <iosfwd>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "commands/world.h"
#include "posix/posix.h"

namespace loopledger::posix {

/// The whole file ("-": `in`). Errors: disk-missing, disk-folder, disk-permission, disk-size,
/// disk-read.
[[nodiscard]] Result<std::string> read_file(const std::string& path, std::uint64_t max_bytes,
                                            std::istream& in);
[[nodiscard]] Result<std::string> read_file(const std::string& path, std::uint64_t max_bytes);

/// Takes temporary files away that a killed run left in the folder: those of `path` alone, or all.
/// One that a running program is still at is locked, and stays; so do all of them where the disk
/// grants no locks.
void remove_left_overs(const std::string& folder, const std::string& path = {});

/// Writes and flushes `path` + ".tmp-…" beside it, to be put in place by `commit`. Dropped without
/// `commit` it removes the temporary file.
class PendingFile {
 public:
  /// Takes the left-overs of `path` away first.
  [[nodiscard]] static Result<PendingFile> write(const std::string& path, std::string_view bytes);
  /// The same without a look for left-overs, which reads the whole folder.
  [[nodiscard]] static Result<PendingFile> write_alone(const std::string& path,
                                                       std::string_view bytes);
  PendingFile(PendingFile&& other) noexcept;
  PendingFile& operator=(PendingFile&& other) noexcept;
  PendingFile(const PendingFile&) = delete;
  PendingFile& operator=(const PendingFile&) = delete;
  ~PendingFile();
  /// Renames into place and flushes the folder. Empty when done, else the error.
  [[nodiscard]] Diagnostics commit();
  /// Puts it in place unless something is there (disk-exists). The folder is not flushed.
  [[nodiscard]] Diagnostics commit_new();

 private:
  PendingFile(std::string path, std::string temporary, Descriptor lock);
  std::string path_;
  std::string temporary_;
  Descriptor lock_;  ///< held while the temporary file is ours
};

/// Creates the folder and its parents; no error when it is there.
[[nodiscard]] Diagnostics make_folder(const std::string& path);

}  // namespace loopledger::posix
