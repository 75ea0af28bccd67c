// SPDX-License-Identifier: MIT
#include "posix/files.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <filesystem>
#include <istream>
#include <system_error>
#include <utility>

#include "posix/posix.h"

namespace loopledger::posix {
namespace {

namespace fs = std::filesystem;

Diagnostic too_big(const std::string& path, std::uint64_t max_bytes) {
  return error("disk-size",
               fmt::format("the file is larger than the {} MB that are read", max_bytes >> 20),
               "is this the right file?", {path, 0, 0});
}

Result<std::string> read_stream(std::istream& in, std::uint64_t max_bytes) {
  std::string bytes;
  std::array<char, 65536> buffer{};
  while (in.read(buffer.data(), buffer.size()) || in.gcount() > 0) {
    bytes.append(buffer.data(), static_cast<std::size_t>(in.gcount()));
    if (bytes.size() > max_bytes) {
      return too_big(commands::kStandardInput, max_bytes);
    }
  }
  if (in.bad()) {
    return error("disk-read", "standard input can't be read", {}, {commands::kStandardInput, 0, 0});
  }
  return bytes;
}

constexpr std::string_view kTemporary = ".tmp-loopledger-";
constexpr std::size_t kTemporaryEnd = 6;  // what mkostemp fills in

bool is_removed(int fd) {
  struct stat info {};
  return ::fstat(fd, &info) == 0 && info.st_nlink == 0;
}

/// "labels.pdf.tmp-loopledger-aB3dE6"
bool is_temporary(const std::string& name, const std::string& begin) {
  const std::size_t mark = name.rfind(kTemporary);
  return mark != std::string::npos && name.size() == mark + kTemporary.size() + kTemporaryEnd &&
         (begin.empty() || name.substr(0, mark) == begin);
}

}  // namespace

Result<std::string> read_file(const std::string& path, std::uint64_t max_bytes) {
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (file.get() < 0) {
    return cannot("open the file", path, errno);
  }
  struct stat info {};
  if (::fstat(file.get(), &info) != 0) {
    return cannot("read the file", path, errno);
  }
  if (S_ISDIR(info.st_mode)) {
    return error("disk-folder", "this is a folder, not a file", {}, {path, 0, 0});
  }
  if (S_ISREG(info.st_mode) && static_cast<std::uint64_t>(info.st_size) > max_bytes) {
    return too_big(path, max_bytes);
  }
  std::string bytes;
  std::array<char, 65536> buffer;  // not cleared: a ledger has many small files
  while (true) {
    const ssize_t n = ::read(file.get(), buffer.data(), buffer.size());
    if (n < 0 && errno == EINTR) {
      continue;
    }
    if (n < 0) {
      return cannot("read the file", path, errno);
    }
    if (n == 0) {
      return bytes;
    }
    bytes.append(buffer.data(), static_cast<std::size_t>(n));
    if (bytes.size() > max_bytes) {
      return too_big(path, max_bytes);
    }
  }
}

Result<std::string> read_file(const std::string& path, std::uint64_t max_bytes, std::istream& in) {
  return path == "-" ? read_stream(in, max_bytes) : read_file(path, max_bytes);
}

void remove_left_overs(const std::string& folder, const std::string& path) {
  const std::string begin = fs::path(path).filename().string();
  std::error_code problem;
  for (fs::directory_iterator at(folder, problem), end; !problem && at != end;
       at.increment(problem)) {
    if (!is_temporary(at->path().filename().string(), begin)) {
      continue;
    }
    const Descriptor file(::open(at->path().c_str(), O_RDWR | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK));
    if (file.get() >= 0 && ::flock(file.get(), LOCK_EX | LOCK_NB) == 0) {
      ::unlink(at->path().c_str());
    }
  }
}

PendingFile::PendingFile(std::string path, std::string temporary, Descriptor lock)
    : path_(std::move(path)), temporary_(std::move(temporary)), lock_(std::move(lock)) {}

PendingFile::PendingFile(PendingFile&& other) noexcept
    : path_(std::move(other.path_)),
      temporary_(std::exchange(other.temporary_, {})),
      lock_(std::move(other.lock_)) {}

PendingFile& PendingFile::operator=(PendingFile&& other) noexcept {
  std::swap(path_, other.path_);
  std::swap(temporary_, other.temporary_);
  std::swap(lock_, other.lock_);
  return *this;
}

PendingFile::~PendingFile() {
  if (!temporary_.empty()) {
    ::unlink(temporary_.c_str());
  }
}

Result<PendingFile> PendingFile::write(const std::string& path, std::string_view bytes) {
  remove_left_overs(folder_of(path), path);
  return write_alone(path, bytes);
}

Result<PendingFile> PendingFile::write_alone(const std::string& path, std::string_view bytes) {
  std::string temporary;
  Descriptor file(-1);
  do {  // another run may have taken it for a left-over before it was locked
    temporary = path + std::string(kTemporary) + "XXXXXX";
    file = Descriptor(::mkostemp(temporary.data(), O_CLOEXEC));
    if (file.get() < 0) {
      return cannot("write here", path, errno);
    }
    (void)::flock(file.get(), LOCK_EX);  // where the disk grants none, nothing is removed either
  } while (is_removed(file.get()));
  PendingFile pending(path, temporary, Descriptor(::fcntl(file.get(), F_DUPFD_CLOEXEC, 0)));
  const bool ok = make_readable(file.get()) && write_all(file.get(), bytes) && flush(file.get()) &&
                  file.close();
  if (!ok) {
    return cannot("write the file", path, errno);
  }
  return pending;
}

Diagnostics PendingFile::commit() {
  if (::rename(temporary_.c_str(), path_.c_str()) != 0) {
    return {cannot("put the file in place", path_, errno)};
  }
  temporary_.clear();
  lock_ = Descriptor(-1);
  flush_names(folder_of(path_));
  return {};
}

Diagnostics PendingFile::commit_new() {
  if (::link(temporary_.c_str(), path_.c_str()) == 0) {
    return {};  // the temporary name goes with this
  }
  const bool no_links = errno == EPERM || errno == EOPNOTSUPP || errno == ENOSYS;
  if (!no_links) {
    return {cannot("make the file", path_, errno)};
  }
  // A file system without links: rename, after a look that another writer could only beat in the
  // moment between the two calls.
  if (::access(path_.c_str(), F_OK) == 0) {
    return {cannot("make the file", path_, EEXIST)};
  }
  if (::rename(temporary_.c_str(), path_.c_str()) != 0) {
    return {cannot("make the file", path_, errno)};
  }
  temporary_.clear();
  return {};
}

Diagnostics make_folder(const std::string& path) {
  std::error_code problem;
  fs::create_directories(path, problem);
  if (problem) {
    return {cannot("make the folder", path, problem.value())};
  }
  if (!fs::is_directory(path, problem)) {
    return {error("disk-folder", "expected a folder here", {}, {path, 0, 0})};
  }
  return {};
}

}  // namespace loopledger::posix
