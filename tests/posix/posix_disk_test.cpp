// SPDX-License-Identifier: MIT
#include "posix/posix_disk.h"

#include <doctest/doctest.h>
#include <fcntl.h>
#include <sys/file.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <csignal>
#include <filesystem>
#include <thread>

#include "support/cli_run.h"
#include "support/full_disk.h"

using namespace loopledger;
using posix::PosixDisk;
using test::FullDisk;
using test::TempFolder;

namespace {

std::string code_of(const Diagnostics& problems) {
  return problems.empty() ? std::string() : problems.front().code;
}

}  // namespace

TEST_CASE("a file is created whole, once, and leaves nothing beside it") {
  const TempFolder folder;
  PosixDisk disk;
  CHECK(disk.create(folder.path("a"), "one\n").empty());
  CHECK(folder.read("a") == "one\n");
  CHECK(code_of(disk.create(folder.path("a"), "two\n")) == "disk-exists");
  CHECK(folder.read("a") == "one\n");
  CHECK(*disk.list(folder.path()) == std::vector<std::string>{"a"});
  CHECK(code_of(disk.create(folder.path("none/a"), "x")) == "disk-missing");
}

TEST_CASE("lines are added at the end, and a short write is taken back") {
  const TempFolder folder;
  PosixDisk disk;
  const std::string path = folder.write("a", "0123456789\n");
  CHECK(disk.append(path, "more\n").empty());
  CHECK(folder.read("a") == "0123456789\nmore\n");
  {
    const FullDisk full(20);
    const auto problems = disk.append(path, "a line too long for it\n");
    REQUIRE(problems.size() == 1);
    CHECK(problems[0].hint == "nothing was added; the record is as it was");
  }
  CHECK(folder.read("a") == "0123456789\nmore\n");
  CHECK(code_of(disk.append(folder.path("b"), "x\n")) == "disk-missing");
  CHECK_FALSE(folder.holds("b"));
}

TEST_CASE("a file that can't be written whole is not created, and one is not replaced") {
  const TempFolder folder;
  PosixDisk disk;
  const std::string path = folder.write("a", "old\n");
  {
    const FullDisk full(20);
    CHECK_FALSE(disk.create(folder.path("b"), std::string(100, 'x')).empty());
    CHECK_FALSE(disk.replace(path, std::string(100, 'x')).empty());
  }
  CHECK(*disk.list(folder.path()) == std::vector<std::string>{"a"});
  CHECK(folder.read("a") == "old\n");
  CHECK(disk.replace(path, "new\n").empty());
  CHECK(folder.read("a") == "new\n");
}

TEST_CASE("reading tells a missing file, a folder and a pipe apart, and keeps its limit") {
  const TempFolder folder;
  PosixDisk disk;
  CHECK(code_of(disk.read(folder.path("none"), 10).diagnostics()) == "disk-missing");
  CHECK(code_of(disk.read(folder.path(), 10).diagnostics()) == "disk-folder");
  REQUIRE(::mkfifo(folder.path("pipe").c_str(), 0600) == 0);
  CHECK(code_of(disk.read(folder.path("pipe"), 10).diagnostics()) == "disk-io");
  CHECK(code_of(disk.lock(folder.path("pipe")).diagnostics()) == "disk-io");
  const std::string path = folder.write("a", "12345678901");
  CHECK(code_of(disk.read(path, 10).diagnostics()) == "disk-size");
  CHECK(*disk.read(path, 11) == "12345678901");
  CHECK(code_of(disk.list(folder.path("none")).diagnostics()) == "disk-missing");
}

TEST_CASE("only one writer has the lock, and the next gets it when it is given back") {
  const TempFolder folder;
  PosixDisk disk;
  const std::string path = folder.write("a", "x\n");
  auto first = disk.lock(path);
  REQUIRE(first);
  bool second_in = false;
  std::thread second([&] {
    PosixDisk other;
    const auto lock = other.lock(path);
    second_in = lock.ok();
  });
  std::this_thread::sleep_for(std::chrono::milliseconds(100));
  const int probe = ::open(path.c_str(), O_RDWR | O_CLOEXEC);
  CHECK(::flock(probe, LOCK_EX | LOCK_NB) != 0);
  ::close(probe);
  first->reset();
  second.join();
  CHECK(second_in);
}

TEST_CASE("a lock on a file that was replaced meanwhile is taken on the new one") {
  const TempFolder folder;
  PosixDisk disk;
  const std::string path = folder.write("a", "x\n");
  auto held = disk.lock(path);
  REQUIRE(held);
  REQUIRE(disk.replace(path, "y\n").empty());
  const auto fresh = disk.lock(path);  // the old file's lock is no longer in the way
  REQUIRE(fresh);
  CHECK(disk.append(path, "z\n").empty());
  CHECK(folder.read("a") == "y\nz\n");
}

TEST_CASE("a file gets a new name only when that is free") {
  const TempFolder folder;
  PosixDisk disk;
  folder.write("a", "1");
  folder.write("b", "2");
  CHECK(code_of(disk.rename(folder.path("a"), folder.path("b"))) == "disk-exists");
  CHECK(disk.rename(folder.path("a"), folder.path("c")).empty());
  CHECK(folder.read("c") == "1");
  CHECK_FALSE(folder.holds("a"));
  CHECK(code_of(disk.rename(folder.path("a"), folder.path("d"))) == "disk-missing");
}
