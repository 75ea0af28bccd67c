// SPDX-License-Identifier: MIT
#include "bench/measure.h"

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <filesystem>

namespace loopledger::bench {
namespace {

[[noreturn]] void give_up(const std::string& what) {
  std::fprintf(stderr, "%s\n", what.c_str());
  std::exit(1);
}

double now_ms() {
  return std::chrono::duration<double, std::milli>(
             std::chrono::steady_clock::now().time_since_epoch())
      .count();
}

double cpu_now_ms() {
  timespec at{};
  ::clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &at);
  return static_cast<double>(at.tv_sec) * 1e3 + static_cast<double>(at.tv_nsec) / 1e6;
}

double ms_of(const timeval& t) {
  return static_cast<double>(t.tv_sec) * 1e3 + static_cast<double>(t.tv_usec) / 1e3;
}

/// Waits for the child; its processor time and memory.
Cost cost_of(pid_t child, const std::string& what, int code = 0) {
  int status = 0;
  rusage used{};
  if (::wait4(child, &status, 0, &used) != child || !WIFEXITED(status) ||
      WEXITSTATUS(status) != code) {
    give_up(what + " failed");
  }
  Cost cost;
  cost.cpu_ms = ms_of(used.ru_utime) + ms_of(used.ru_stime);
  cost.peak_mb = static_cast<double>(used.ru_maxrss) / 1024;
  return cost;
}

}  // namespace

Cost of_work(const std::function<std::vector<double>()>& work, const std::function<void()>& fill) {
  int ends[2];
  std::fflush(stdout);
  if (::pipe(ends) != 0) {
    give_up("no pipe");
  }
  const pid_t child = ::fork();
  if (child == 0) {
    if (fill) {
      fill();
    }
    const double wall = now_ms();
    const double cpu = cpu_now_ms();
    std::vector<double> told = work();
    told.insert(told.begin(), {now_ms() - wall, cpu_now_ms() - cpu});
    const std::size_t size = told.size() * sizeof(double);
    ::_exit(::write(ends[1], told.data(), size) == static_cast<ssize_t>(size) ? 0 : 1);
  }
  ::close(ends[1]);
  std::vector<double> told(64);
  const ssize_t got = ::read(ends[0], told.data(), told.size() * sizeof(double));
  ::close(ends[0]);
  Cost cost = cost_of(child, "the work");
  told.resize(static_cast<std::size_t>(std::max<ssize_t>(got, 0)) / sizeof(double));
  if (told.size() < 2) {
    give_up("the work told nothing");
  }
  cost.wall_ms = told[0];
  cost.cpu_ms = told[1];
  cost.told.assign(told.begin() + 2, told.end());
  return cost;
}

Cost of_program(const std::vector<std::string>& words, const std::string& in, int code) {
  int ends[2];
  if (::pipe(ends) != 0 ||
      ::write(ends[1], in.data(), in.size()) != static_cast<ssize_t>(in.size())) {
    give_up("no pipe");
  }
  ::close(ends[1]);
  std::vector<char*> argv;
  for (const std::string& word : words) {
    argv.push_back(const_cast<char*>(word.c_str()));
  }
  argv.push_back(nullptr);
  std::fflush(stdout);
  const double start = now_ms();
  const pid_t child = ::fork();
  if (child == 0) {
    const int nowhere = ::open("/dev/null", O_WRONLY);
    ::dup2(ends[0], STDIN_FILENO);
    ::dup2(nowhere, STDOUT_FILENO);
    if (code != 0) {
      ::dup2(nowhere, STDERR_FILENO);
    }
    ::execvp(argv[0], argv.data());
    ::_exit(127);
  }
  ::close(ends[0]);
  std::string what;
  for (const std::string& word : words) {
    what += word + " ";
  }
  Cost cost = cost_of(child, what, code);
  cost.wall_ms = now_ms() - start;
  return cost;
}

Cost least(const Cost& a, const Cost& b) {
  Cost cost{.wall_ms = std::min(a.wall_ms, b.wall_ms),
            .cpu_ms = std::min(a.cpu_ms, b.cpu_ms),
            .peak_mb = std::min(a.peak_mb, b.peak_mb),
            .told = a.told};
  for (std::size_t i = 0; i < std::min(a.told.size(), b.told.size()); ++i) {
    cost.told[i] = std::min(a.told[i], b.told[i]);
  }
  return cost;
}

MemoryFolder::MemoryFolder() {
  std::error_code ignored;
  const bool in_memory = std::filesystem::is_directory("/dev/shm", ignored);
  path_ = (in_memory ? std::string("/dev/shm") : std::filesystem::temp_directory_path().string()) +
          "/loopledger-bench-XXXXXX";
  if (::mkdtemp(path_.data()) == nullptr) {
    give_up("can't make a folder " + path_);
  }
}

MemoryFolder::~MemoryFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

}  // namespace loopledger::bench
