// SPDX-License-Identifier: MIT
//
// A disk that is a map. It can fail or be cut off at the Nth write and forget what was not flushed,
// so that the ledger is tested against what real disks do at the worst moment.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>

#include "records/disk.h"

namespace loopledger::test {

class MemoryDisk : public records::Disk {
 public:
  struct File {
    std::string bytes;
    bool name_flushed = false;
  };
  std::map<std::string, File> files;  ///< by path
  std::set<std::string> folders;
  bool cuts_fail = false;
  std::set<std::string> locked;  ///< locks that another program holds

  /// The `nth` write from now on (1 = the next) puts down only `bytes` of what it is given. With
  /// `dies` the program is gone after it: the short write stays, and every later call fails.
  void cut_write(int nth, std::size_t bytes, bool dies) {
    writes_left_ = nth;
    short_bytes_ = bytes;
    dies_ = dies;
  }
  /// Power is lost: names that were not flushed are gone. (Bytes are flushed by every call here.)
  void lose_power() {
    std::erase_if(files, [](const auto& f) { return !f.second.name_flushed; });
  }
  [[nodiscard]] int locks_taken() const { return locks_taken_; }

  Result<std::string> read(const std::string& path, std::uint64_t max_bytes) override {
    const auto at = files.find(path);
    if (dead_ || at == files.end()) {
      return error("disk-missing", path + ": no such file");
    }
    if (at->second.bytes.size() > max_bytes) {
      return error("disk-size", path + ": too large");
    }
    return at->second.bytes;
  }

  Result<std::vector<std::string>> list(const std::string& folder) override {
    if (!folders.contains(folder)) {
      return error("disk-missing", folder + ": no such folder");
    }
    std::vector<std::string> names;
    for (const auto& [path, file] : files) {
      if (path.starts_with(folder + "/")) {
        names.push_back(path.substr(folder.size() + 1));
      }
    }
    return names;
  }

  Result<std::unique_ptr<Lock>> lock(const std::string& path) override {
    if (!files.contains(path)) {
      return error("disk-missing", path + ": no such file");
    }
    if (locked.contains(path)) {
      return error("disk-lock", path + ": another program is writing to it");
    }
    ++locks_taken_;
    return std::unique_ptr<Lock>(std::make_unique<Held>(*this, path));
  }

  Diagnostics create(const std::string& path, std::string_view bytes) override {
    if (files.contains(path)) {
      return {error("disk-exists", path + ": is there already")};
    }
    if (const auto put = write(bytes); put < bytes.size()) {
      return {failed(path)};
    }
    files[path] = {std::string(bytes), false};
    return {};
  }

  Diagnostics append(const std::string& path, std::string_view bytes) override {
    const auto at = files.find(path);
    if (at == files.end()) {
      return {error("disk-missing", path + ": no such file")};
    }
    const std::size_t put = write(bytes);
    if (put == bytes.size() || dead_) {
      at->second.bytes += bytes.substr(0, put);
    }
    return put == bytes.size() ? Diagnostics{} : Diagnostics{failed(path)};
  }

  Diagnostics cut(const std::string& path, std::uint64_t size) override {
    const auto at = files.find(path);
    if (dead_ || at == files.end() || cuts_fail) {
      return {failed(path)};
    }
    at->second.bytes.resize(size);
    return {};
  }

  Diagnostics replace(const std::string& path, std::string_view bytes) override {
    if (const auto put = write(bytes); put < bytes.size()) {
      return {failed(path)};
    }
    files[path] = {std::string(bytes), true};
    return {};
  }

  Diagnostics rename(const std::string& from, const std::string& to) override {
    if (dead_ || !files.contains(from) || files.contains(to)) {
      return {failed(from)};
    }
    files[to] = files[from];
    files.erase(from);
    return {};
  }

  Diagnostics make_folder(const std::string& folder) override {
    folders.insert(folder);
    return {};
  }

  Diagnostics flush_folder(const std::string& folder) override {
    if (dead_) {
      return {failed(folder)};
    }
    for (auto& [path, file] : files) {
      file.name_flushed = file.name_flushed || path.starts_with(folder + "/");
    }
    return {};
  }

 private:
  class Held : public Lock {
   public:
    Held(MemoryDisk& disk, std::string path) : disk_(disk), path_(std::move(path)) {
      disk_.locked.insert(path_);
    }
    ~Held() override { disk_.locked.erase(path_); }

   private:
    MemoryDisk& disk_;
    std::string path_;
  };

  /// Bytes that get onto the disk.
  std::size_t write(std::string_view bytes) {
    if (dead_) {
      return 0;
    }
    if (writes_left_ > 0 && --writes_left_ == 0) {
      dead_ = dies_;
      return std::min(short_bytes_, bytes.size());
    }
    return bytes.size();
  }
  static Diagnostic failed(const std::string& path) {
    return error("disk-write", path + ": no space left");
  }

  int writes_left_ = 0;
  std::size_t short_bytes_ = 0;
  bool dies_ = false;
  bool dead_ = false;
  int locks_taken_ = 0;
};

}  // namespace loopledger::test
