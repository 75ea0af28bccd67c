// SPDX-License-Identifier: MIT
//
// What the ledger needs of a disk, as an interface, so that this room never touches one: the real
// one is posix/posix_disk.h, tests use a map that can lose what was not flushed. Errors are values
// with codes that begin with "disk-"; a call that returns an error has left the file as it was,
// unless it says otherwise.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace loopledger::records {

class Disk {
 public:
  /// Held for as long as it lives.
  class Lock {
   public:
    Lock() = default;
    Lock(const Lock&) = delete;
    Lock& operator=(const Lock&) = delete;
    virtual ~Lock() = default;
  };

  Disk() = default;
  Disk(const Disk&) = delete;
  Disk& operator=(const Disk&) = delete;
  virtual ~Disk() = default;

  /// The whole file; a note disk-link where the path is a link. Errors: disk-missing, disk-folder,
  /// disk-permission, disk-size (more than `max_bytes`), disk-io.
  virtual Result<std::string> read(const std::string& path, std::uint64_t max_bytes) = 0;

  /// The names in a folder, sorted, without "." and "..". Errors: disk-missing, disk-permission,
  /// disk-io.
  virtual Result<std::vector<std::string>> list(const std::string& folder) = 0;

  /// The only writer's right to the file, against other programs that ask too; waits a few seconds
  /// for it. Errors: disk-missing, disk-permission, disk-lock (another one has it, or the file
  /// system knows no locks), disk-link (links are not followed for writing).
  virtual Result<std::unique_ptr<Lock>> lock(const std::string& path) = 0;

  /// Makes a file that must not be there yet. It appears whole and flushed, or not at all; its
  /// name is certain only after flush_folder. Errors: disk-exists, disk-permission, disk-full,
  /// disk-io.
  virtual Diagnostics create(const std::string& path, std::string_view bytes) = 0;

  /// Adds the bytes at the end in one write and flushes them. A short write is taken back; where
  /// even that fails the error says so, and the file ends in a torn line. Errors: disk-missing,
  /// disk-permission, disk-full, disk-io.
  virtual Diagnostics append(const std::string& path, std::string_view bytes) = 0;

  /// Takes what stands behind `size` bytes off the end again and flushes: what append() added.
  /// Errors: disk-missing, disk-permission, disk-io.
  virtual Diagnostics cut(const std::string& path, std::uint64_t size) = 0;

  /// Puts a file of these bytes in the place of one that is there: a reader sees the old or the
  /// new, before and after a crash. Errors: disk-missing, disk-permission, disk-full, disk-io.
  virtual Diagnostics replace(const std::string& path, std::string_view bytes) = 0;

  /// Gives a file another name that must not be there yet. Errors: disk-missing, disk-exists,
  /// disk-permission, disk-full, disk-io.
  virtual Diagnostics rename(const std::string& from, const std::string& to) = 0;

  /// Makes the folder and its parents; no error when it is there.
  virtual Diagnostics make_folder(const std::string& folder) = 0;

  /// Makes the names of a folder certain. Errors: disk-missing, disk-io.
  virtual Diagnostics flush_folder(const std::string& folder) = 0;
};

}  // namespace loopledger::records
