// SPDX-License-Identifier: MIT
#include "posix/posix_disk.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <chrono>
#include <filesystem>
#include <system_error>
#include <thread>

#include "posix/files.h"
#include "posix/posix.h"

namespace loopledger::posix {
namespace {

namespace fs = std::filesystem;

constexpr int kLockTries = 100;
constexpr auto kLockPause = std::chrono::milliseconds(30);

class FileLock : public records::Disk::Lock {
 public:
  explicit FileLock(Descriptor file) : file_(std::move(file)) {}

 private:
  Descriptor file_;  // closing it gives the lock back
};

/// Whether the open file is still the one of that name: `mend` may have put another in its place.
bool still_named(int fd, const std::string& path) {
  struct stat open_one {};
  struct stat named_one {};
  return ::fstat(fd, &open_one) == 0 && ::stat(path.c_str(), &named_one) == 0 &&
         open_one.st_dev == named_one.st_dev && open_one.st_ino == named_one.st_ino;
}

/// Many records are locked at once: as many files as the system lets one program open.
bool more_files() {
  rlimit files{};
  if (::getrlimit(RLIMIT_NOFILE, &files) != 0 || files.rlim_cur >= files.rlim_max) {
    return false;
  }
  files.rlim_cur = files.rlim_max;
  return ::setrlimit(RLIMIT_NOFILE, &files) == 0;
}

/// A regular file or nothing: a pipe or a device of a record's name would hang a reader.
Diagnostics not_regular(const std::string& path) {
  struct stat info {};
  if (::stat(path.c_str(), &info) != 0 || S_ISREG(info.st_mode) || S_ISDIR(info.st_mode)) {
    return {};  // opening it says what is wrong
  }
  return {error("disk-io", "expected a file, found a pipe or a device", {}, {path, 0, 0})};
}

/// Links are read and never written through: what they point to may be another ledger's record.
bool is_link(const std::string& path) {
  struct stat info {};
  return ::lstat(path.c_str(), &info) == 0 && S_ISLNK(info.st_mode);
}

/// To write; a link is not followed, also one that was put there this moment.
Result<Descriptor> open_to_write(const std::string& path, int flags) {
  const auto open_it = [&] { return ::open(path.c_str(), flags | O_NOFOLLOW | O_CLOEXEC); };
  int fd = open_it();
  if (fd < 0 && errno == EMFILE && more_files()) {
    fd = open_it();
  }
  if (fd >= 0) {
    return Descriptor(fd);
  }
  const int number = errno;
  if (number == ELOOP || is_link(path)) {
    return error("disk-link", "the record is a link to another file: nothing is written through it",
                 "put the file itself there in its place, or work in the folder that holds it",
                 {path, 0, 0});
  }
  return cannot("open the record for writing", path, number);
}

/// Takes what a failed append has left off the end again.
Diagnostics take_back(int fd, const std::string& path, off_t size, int number) {
  Diagnostics problems{cannot("add to the record", path, number)};
  if (::ftruncate(fd, size) != 0 || !flush(fd)) {
    problems.push_back(error("disk-io", "what was written in part could not be taken back",
                             "`loopledger mend` repairs the record", {path, 0, 0}));
  } else {
    problems.back().hint = "nothing was added; the record is as it was";
  }
  return problems;
}

}  // namespace

Result<std::string> PosixDisk::read(const std::string& path, std::uint64_t max_bytes) {
  if (Diagnostics problems = not_regular(path); !problems.empty()) {
    return problems;
  }
  auto text = read_file(path, max_bytes);
  if (text && is_link(path)) {
    text.diagnostics().push_back(note("disk-link",
                                      "the record is a link to another file: it is read, and "
                                      "nothing is written through it",
                                      {}, {path, 0, 0}));
  }
  return text;
}

Result<std::vector<std::string>> PosixDisk::list(const std::string& folder) {
  std::vector<std::string> names;
  std::error_code problem;
  for (fs::directory_iterator at(folder, problem), end; !problem && at != end;
       at.increment(problem)) {
    names.push_back(at->path().filename().string());
  }
  if (problem) {
    return cannot("list the folder", folder, problem.value());
  }
  std::ranges::sort(names);
  return names;
}

Result<std::unique_ptr<records::Disk::Lock>> PosixDisk::lock(const std::string& path) {
  if (Diagnostics problems = not_regular(path); !problems.empty()) {
    return problems;
  }
  for (int i = 0; i < kLockTries; ++i) {
    auto file = open_to_write(path, O_RDWR);
    if (!file) {
      return file.diagnostics();
    }
    if (::flock(file->get(), LOCK_EX | LOCK_NB) == 0) {
      if (still_named(file->get(), path)) {
        return std::unique_ptr<Lock>(std::make_unique<FileLock>(std::move(*file)));
      }
    } else if (errno == EWOULDBLOCK) {
      std::this_thread::sleep_for(kLockPause);
    } else if (errno != EINTR) {
      const int number = errno;
      return error(
          "disk-lock",
          fmt::format("this disk grants no lock: {}", std::generic_category().message(number)),
          "keep the ledger on a disk that can lock files", {path, 0, 0});
    }
  }
  return error("disk-lock", "another program is writing to this record",
               "nothing was added; try again", {path, 0, 0});
}

Diagnostics PosixDisk::create(const std::string& path, std::string_view bytes) {
  clean(folder_of(path));
  auto file = PendingFile::write_alone(path, bytes);
  return file ? file->commit_new() : file.diagnostics();
}

Diagnostics PosixDisk::append(const std::string& path, std::string_view bytes) {
  auto opened = open_to_write(path, O_WRONLY | O_APPEND);
  if (!opened) {
    return opened.diagnostics();
  }
  const Descriptor& file = *opened;
  struct stat before {};
  if (::fstat(file.get(), &before) != 0) {
    return {cannot("add to the record", path, errno)};
  }
  ssize_t put = 0;
  do {
    put = ::write(file.get(), bytes.data(), bytes.size());
  } while (put < 0 && errno == EINTR);
  if (put != static_cast<ssize_t>(bytes.size())) {
    return take_back(file.get(), path, before.st_size, put < 0 ? errno : ENOSPC);
  }
  if (!flush(file.get())) {
    return take_back(file.get(), path, before.st_size, errno);
  }
  return {};
}

Diagnostics PosixDisk::cut(const std::string& path, std::uint64_t size) {
  Descriptor file(::open(path.c_str(), O_WRONLY | O_CLOEXEC));
  if (file.get() < 0) {
    return {cannot("open the record for writing", path, errno)};
  }
  if (::ftruncate(file.get(), static_cast<off_t>(size)) != 0 || !flush(file.get())) {
    return {cannot("take back what was added to the record", path, errno)};
  }
  return {};
}

Diagnostics PosixDisk::replace(const std::string& path, std::string_view bytes) {
  auto file = PendingFile::write(path, std::string(bytes));
  return file ? file->commit() : file.diagnostics();
}

Diagnostics PosixDisk::rename(const std::string& from, const std::string& to) {
  if (::access(to.c_str(), F_OK) == 0) {
    return {cannot("rename the file", to, EEXIST)};
  }
  if (::rename(from.c_str(), to.c_str()) != 0) {
    return {cannot("rename the file", from, errno)};
  }
  flush_names(folder_of(to));
  return {};
}

Diagnostics PosixDisk::make_folder(const std::string& folder) {
  Diagnostics problems = posix::make_folder(folder);
  clean(folder);
  return problems;
}

void PosixDisk::clean(const std::string& folder) {
  if (cleaned_.insert(folder).second) {
    remove_left_overs(folder);
  }
}

Diagnostics PosixDisk::flush_folder(const std::string& folder) {
  flush_names(folder.empty() ? "." : folder);
  return {};
}

}  // namespace loopledger::posix
