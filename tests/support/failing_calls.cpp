// SPDX-License-Identifier: MIT
#include "support/failing_calls.h"

#include <sys/types.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstddef>

namespace {

using loopledger::test::Fault;

int counted = 0;
int faulty = 0;
Fault planned = Fault::none;
bool was_write = false;

/// Whether the disk is full by now.
bool is_full() {
  ++counted;
  was_write = false;
  return planned == Fault::full && faulty > 0 && counted >= faulty;
}

void die_if_due() {
  if ((planned == Fault::die || planned == Fault::die_half) && counted == faulty) {
    ::kill(::getpid(), SIGKILL);
  }
}

template <class T>
T after(T result) {
  const int number = errno;
  die_if_due();
  errno = number;
  return result;
}

int no_room() {
  errno = ENOSPC;
  return -1;
}

}  // namespace

namespace loopledger::test {

void plan_fault(int nth, Fault fault) {
  counted = 0;
  faulty = nth;
  planned = fault;
}

int calls_counted() { return counted; }
bool last_was_write() { return was_write; }

}  // namespace loopledger::test

// The linker's names for what is called and for what is there.
// NOLINTBEGIN(bugprone-reserved-identifier,readability-identifier-naming)
extern "C" {
ssize_t __real_write(int fd, const void* bytes, std::size_t size);
int __real_fsync(int fd);
int __real_link(const char* from, const char* to);
int __real_rename(const char* from, const char* to);
int __real_unlink(const char* path);
int __real_mkostemp(char* path, int flags);
int __real_ftruncate(int fd, off_t size);

ssize_t __wrap_write(int fd, const void* bytes, std::size_t size) {
  const bool first = counted + 1 == faulty;
  const bool full = is_full();
  was_write = true;
  if (full) {
    return first && size > 1 ? __real_write(fd, bytes, size / 2) : no_room();
  }
  const bool half = planned == Fault::die_half && counted == faulty;
  return after(__real_write(fd, bytes, half ? size / 2 : size));
}

// A disk that tells only here that it is full has room again once what was added is taken back.
int __wrap_fsync(int fd) {
  const bool first = counted + 1 == faulty;
  return is_full() && first ? no_room() : after(__real_fsync(fd));
}

int __wrap_link(const char* from, const char* to) {
  return is_full() ? no_room() : after(__real_link(from, to));
}

int __wrap_rename(const char* from, const char* to) {
  return is_full() ? no_room() : after(__real_rename(from, to));
}

int __wrap_mkostemp(char* path, int flags) {
  return is_full() ? no_room() : after(__real_mkostemp(path, flags));
}

// Taking away and making shorter need no room.
int __wrap_unlink(const char* path) {
  (void)is_full();
  return after(__real_unlink(path));
}

int __wrap_ftruncate(int fd, off_t size) {
  (void)is_full();
  return after(__real_ftruncate(fd, size));
}
}
// NOLINTEND(bugprone-reserved-identifier,readability-identifier-naming)
