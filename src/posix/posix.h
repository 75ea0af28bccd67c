// SPDX-License-Identifier: MIT
//
// The few calls of the operating system that files.cpp and posix_disk.cpp share, with errors as
// values.
#pragma once

#include <string>
#include <string_view>

#include "base/diagnostic.h"

namespace loopledger::posix {

/// Closes the file at the end of its scope.
class Descriptor {
 public:
  explicit Descriptor(int fd) : fd_(fd) {}
  Descriptor(Descriptor&& other) noexcept;
  Descriptor& operator=(Descriptor&& other) noexcept;
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor();
  [[nodiscard]] int get() const { return fd_; }
  /// Whether closing reported no error; some disks tell of a failed write only then.
  bool close();

 private:
  int fd_;
};

/// "can't DOING: reason" about `path`, with the code for that errno: disk-missing,
/// disk-permission, disk-full, disk-exists, else disk-io.
[[nodiscard]] Diagnostic cannot(const std::string& doing, const std::string& path, int number);

/// Writes all of it, however many writes that takes. False: see errno.
[[nodiscard]] bool write_all(int fd, std::string_view bytes);

/// Makes what was written certain. False: see errno.
[[nodiscard]] bool flush(int fd);

/// The folder that a path is in; "." when it names none.
[[nodiscard]] std::string folder_of(const std::string& path);

/// Makes the names in a folder certain, where the file system can.
void flush_names(const std::string& folder);

/// A file is made private at first; this makes it as readable as any new file. False: see errno.
[[nodiscard]] bool make_readable(int fd);

}  // namespace loopledger::posix
