// SPDX-License-Identifier: MIT
#include "cli/files.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <filesystem>
#include <istream>
#include <system_error>
#include <utility>

#include "cli/posix.h"

namespace loopledger::cli {
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
      return too_big("standard input", max_bytes);
    }
  }
  return bytes;
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

PendingFile::PendingFile(std::string path, std::string temporary)
    : path_(std::move(path)), temporary_(std::move(temporary)) {}

PendingFile::PendingFile(PendingFile&& other) noexcept
    : path_(std::move(other.path_)), temporary_(std::exchange(other.temporary_, {})) {}

PendingFile& PendingFile::operator=(PendingFile&& other) noexcept {
  std::swap(path_, other.path_);
  std::swap(temporary_, other.temporary_);
  return *this;
}

PendingFile::~PendingFile() {
  if (!temporary_.empty()) {
    ::unlink(temporary_.c_str());
  }
}

Result<PendingFile> PendingFile::write(const std::string& path, const std::string& bytes) {
  std::string temporary = path + ".tmp-XXXXXX";
  Descriptor file(::mkostemp(temporary.data(), O_CLOEXEC));
  if (file.get() < 0) {
    return cannot("write here", path, errno);
  }
  PendingFile pending(path, temporary);
  const bool ok = make_readable(file.get()) && write_all(file.get(), bytes) &&
                  ::fsync(file.get()) == 0 && file.close();
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
  flush_names(folder_of(path_));
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

std::string records_folder(const std::string& option, const std::string& from_plan,
                           const Context& context) {
  if (!option.empty()) {
    return option;
  }
  if (const auto env = context.env("LOOPLEDGER_RECORDS"); env && !env->empty()) {
    return *env;
  }
  return from_plan.empty() ? "records" : from_plan;
}

std::string data_folder(const Context& context) {
  std::error_code ignored;
  if (const auto env = context.env("LOOPLEDGER_DATA"); env && !env->empty()) {
    return *env;
  }
  const fs::path program = fs::read_symlink("/proc/self/exe", ignored);
  const fs::path installed = program.parent_path().parent_path() / "share" / "loopledger";
  if (!program.empty() && fs::is_directory(installed / "fonts", ignored)) {
    return installed.string();
  }
  if (fs::is_directory(fs::path(LOOPLEDGER_DATA_SOURCE) / "fonts", ignored)) {
    return LOOPLEDGER_DATA_SOURCE;
  }
  return {};
}

}  // namespace loopledger::cli
