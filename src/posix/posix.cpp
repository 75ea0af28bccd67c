// SPDX-License-Identifier: MIT
#include "posix/posix.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <system_error>
#include <utility>

#include "base/text.h"

namespace loopledger::posix {

Descriptor::Descriptor(Descriptor&& other) noexcept : fd_(std::exchange(other.fd_, -1)) {}

Descriptor& Descriptor::operator=(Descriptor&& other) noexcept {
  std::swap(fd_, other.fd_);
  return *this;
}

Descriptor::~Descriptor() {
  if (fd_ >= 0) {
    ::close(fd_);
  }
}

bool Descriptor::close() { return ::close(std::exchange(fd_, -1)) == 0; }

namespace {

/// How far the path is right.
std::string missing_hint(const std::string& path) {
  std::error_code ignored;
  const std::string folder = folder_of(path);
  const std::string shown = printable(shortened(folder, 200));
  return std::filesystem::is_directory(folder, ignored)
             ? fmt::format("look at its spelling; the folder {} is there",
                           folder == "." ? "where you are" : shown)
             : fmt::format("look at its spelling; there is no folder {}", shown);
}

}  // namespace

Diagnostic cannot(const std::string& doing, const std::string& path, int number) {
  std::string code = "disk-io";
  if (number == ENOENT) {
    code = "disk-missing";
  } else if (number == EACCES || number == EPERM || number == EROFS) {
    code = "disk-permission";
  } else if (number == ENOSPC || number == EDQUOT) {
    code = "disk-full";
  } else if (number == EEXIST) {
    code = "disk-exists";
  }
  const std::string reason = std::generic_category().message(number);
  const std::string hint = code == "disk-full"      ? "make room on that disk, then do it again"
                           : code == "disk-missing" ? missing_hint(path)
                                                    : "";
  return error(code, fmt::format("can't {}: {}", doing, reason), hint, {path, 0, 0});
}

bool write_all(int fd, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t n = ::write(fd, bytes.data(), bytes.size());
    if (n < 0) {
      if (errno == EINTR) {
        continue;
      }
      return false;
    }
    bytes.remove_prefix(static_cast<std::size_t>(n));
  }
  return true;
}

bool flush(int fd) {
  int done = 0;
  do {
    done = ::fsync(fd);
  } while (done != 0 && errno == EINTR);
  return done == 0;
}

std::string folder_of(const std::string& path) {
  const std::string parent = std::filesystem::path(path).parent_path().string();
  return parent.empty() ? "." : parent;
}

void flush_names(const std::string& folder) {
  const Descriptor names(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (names.get() >= 0) {
    // Some file systems can't flush a folder; the files themselves are safe by now.
    (void)::fsync(names.get());
  }
}

bool make_readable(int fd) {
  const mode_t mask = ::umask(0);
  ::umask(mask);
  return ::fchmod(fd, 0666 & ~mask) == 0;
}

}  // namespace loopledger::posix
