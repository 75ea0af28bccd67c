// SPDX-License-Identifier: MIT
//
// The program itself, killed at random moments while it prints, logs and stands at the bench. The
// moments follow from a seed. LOOPLEDGER_KILLS=500 in the environment makes that many of each.
#include <doctest/doctest.h>
#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <random>
#include <string>
#include <vector>

#include "posix/files.h"
#include "records/read.h"
#include "support/cli_run.h"
#include "support/club_plan.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;

int kills_wanted(int usual) {
  const char* const more = std::getenv("LOOPLEDGER_KILLS");  // NOLINT(concurrency-mt-unsafe)
  return more == nullptr ? usual : std::max(usual, std::atoi(more));  // NOLINT(cert-err34-c)
}

struct End {
  bool killed = false;
  int code = -1;
};

/// Runs the program; kills it after `patience` if it is still at it by then.
End run_and_kill(const TempFolder& folder, std::vector<std::string> words,
                 std::chrono::microseconds patience) {
  std::vector<char*> argv{const_cast<char*>("loopledger")};
  for (std::string& word : words) {
    argv.push_back(word.data());
  }
  argv.push_back(nullptr);
  folder.write("said", "");
  const std::string said = folder.path("said");
  const std::string lines = folder.path("lines");
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    ::dup2(::open(lines.c_str(), O_RDONLY), STDIN_FILENO);
    ::dup2(::open(said.c_str(), O_WRONLY), STDOUT_FILENO);
    ::dup2(::open("/dev/null", O_WRONLY), STDERR_FILENO);
    ::execv(LOOPLEDGER_PROGRAM, argv.data());
    ::_exit(127);
  }
  ::usleep(static_cast<useconds_t>(patience.count()));
  ::kill(child, SIGKILL);
  int status = 0;
  REQUIRE(::waitpid(child, &status, 0) == child);
  return {WIFSIGNALED(status), WIFEXITED(status) ? WEXITSTATUS(status) : -1};
}

/// How long an undisturbed run takes.
std::chrono::microseconds time_of(const TempFolder& folder, const std::vector<std::string>& words) {
  const auto from = Clock::now();
  std::string command = std::string("'") + LOOPLEDGER_PROGRAM + "'";
  for (const std::string& word : words) {
    command += " '" + word + "'";
  }
  command += " <'" + folder.path("lines") + "' >/dev/null";
  REQUIRE(std::system(command.c_str()) == 0);  // NOLINT(concurrency-mt-unsafe)
  return std::chrono::duration_cast<std::chrono::microseconds>(Clock::now() - from);
}

/// Moments from the start to a little past the end.
class Moments {
 public:
  explicit Moments(std::chrono::microseconds whole) : spread_(0, whole.count() * 11 / 10) {}
  std::chrono::microseconds next() { return std::chrono::microseconds(spread_(random_)); }

 private:
  std::mt19937 random_{20260501};
  std::uniform_int_distribution<long> spread_;
};

/// All entries of the ledger, each record whole.
std::size_t entries_in(const TempFolder& folder) {
  std::size_t entries = 0;
  std::error_code none;
  for (const auto& file : fs::directory_iterator(folder.path("records"), none)) {
    const std::string name = file.path().filename().string();
    if (!name.ends_with(".toml")) {
      continue;
    }
    const auto record = records::read_record(folder.read("records/" + name), name);
    REQUIRE_MESSAGE(record.ok(), render(record.diagnostics()));
    REQUIRE(render(record.diagnostics()).empty());
    entries += record->entries.size();
  }
  // Killed before the folder was made, there is no ledger to list.
  REQUIRE(run({"list", "--records", folder.path("records")}).code ==
          (folder.holds("records") ? 0 : 4));
  return entries;
}

std::vector<std::string> names_in_folder(const std::string& folder) {
  std::vector<std::string> names;
  for (const auto& file : fs::directory_iterator(folder)) {
    names.push_back(file.path().filename().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

void tell(const char* what, int kills, int before_the_end) {
  MESSAGE(what, ": ", kills, " kills, ", before_the_end, " of them before its end");
}

}  // namespace

TEST_CASE("print, killed at any moment, leaves no half page and is finished by doing it again") {
  TempFolder whole;
  whole.write("lines", "");
  const std::string whole_plan = whole.write("night.toml", club_plan(6));
  const auto time = time_of(whole, {"print", whole_plan});
  const auto pages = names_in_folder(whole.path("out"));
  const auto records = names_in_folder(whole.path("records"));
  Moments moments(time);
  int killed = 0;
  const int wanted = kills_wanted(12);
  for (int i = 0; i < wanted; ++i) {
    const TempFolder folder;
    folder.write("lines", "");
    const std::string plan = folder.write("night.toml", club_plan(6));
    killed += run_and_kill(folder, {"print", plan}, moments.next()).killed ? 1 : 0;
    (void)entries_in(folder);
    for (const std::string& page : pages) {
      CHECK(is_ours(folder.path("out/" + page)));
    }
    REQUIRE(run({"print", plan}).code == 0);
    CHECK(names_in_folder(folder.path("out")) == pages);
    CHECK(names_in_folder(folder.path("records")) == records);
    for (const std::string& page : pages) {
      CHECK((folder.read("out/" + page) == whole.read("out/" + page)));
    }
    for (const std::string& record : records) {
      CHECK(folder.read("records/" + record) == whole.read("records/" + record));
    }
  }
  tell("print", wanted, killed);
}

TEST_CASE("log, killed at any moment, has stored its entry whole or not at all") {
  const TempFolder folder;
  folder.write("lines", "");
  REQUIRE(run({"print", folder.write("night.toml", club_plan(6))}).code == 0);
  const std::vector<std::string> words{"log",  "th1",       "note",
                                       "stop", "--records", folder.path("records")};
  Moments moments(time_of(folder, words));
  std::size_t entries = entries_in(folder);
  int killed = 0;
  const int wanted = kills_wanted(40);
  for (int i = 0; i < wanted; ++i) {
    const End end = run_and_kill(folder, words, moments.next());
    const std::size_t now = entries_in(folder);
    CHECK((now == entries || now == entries + 1));
    CHECK((end.code != 0 || now == entries + 1));
    killed += end.killed ? 1 : 0;
    entries = now;
  }
  tell("log", wanted, killed);
  CHECK(names_in_folder(folder.path("records")).size() == 7);
}

TEST_CASE("the bench, killed at any moment, has on disk all that it answered") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", club_plan(6));
  REQUIRE(run({"print", plan}).code == 0);
  std::string lines;
  for (int i = 0; i < 12; ++i) {
    lines += "th" + std::to_string(i % 6 + 1) + (i < 6 ? " washed 1.497\n" : " loop 366\n");
  }
  folder.write("lines", lines);
  Moments moments(time_of(folder, {"bench", plan}));
  std::size_t entries = entries_in(folder);
  CHECK(entries == 12);
  int killed = 0;
  const int wanted = kills_wanted(12);
  for (int i = 0; i < wanted; ++i) {
    const End end = run_and_kill(folder, {"bench", plan}, moments.next());
    const std::string said = folder.read("said");
    const std::size_t now = entries_in(folder);
    const auto answered = static_cast<std::size_t>(std::count(said.begin(), said.end(), '\n'));
    CHECK(now >= entries + answered);
    CHECK(now <= entries + answered + 1);
    killed += end.killed ? 1 : 0;
    entries = now;
  }
  tell("bench", wanted, killed);
}
