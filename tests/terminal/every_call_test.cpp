// SPDX-License-Identifier: MIT
//
// The commands that write, on a disk that is full from any one call on, and killed after any one
// call that changes it: no whole entry is lost, nothing half written bears its final name, and
// doing it again ends where an undisturbed run ends.
#include <doctest/doctest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "records/read.h"
#include "support/cli_run.h"
#include "support/club_plan.h"
#include "support/failing_calls.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

namespace fs = std::filesystem;

/// One command with all it needs; DIR stands for the test's folder.
struct Scene {
  const char* name;
  std::vector<std::string> words;
  std::string input;
  bool ledger = true;  ///< a ledger is there before it
  bool torn = false;   ///< one record of it ends in half a line
  bool same = true;    ///< the result is the same, byte for byte, however often it is begun
};

const std::vector<Scene>& scenes() {
  static const std::vector<Scene> kScenes{
      {"new", {"new", "DIR/fresh.toml"}, "", false},
      {"print", {"print", "DIR/night.toml"}, "", false},
      {"log", {"log", "th1", "note", "hello", "--records", "DIR/records"}, "", true, false, false},
      {"bench",
       {"bench", "DIR/night.toml"},
       "th1 washed 1.497\nth2 washed 1.496\nth1 loop 366\n",
       true,
       false,
       false},
      {"label",
       {"label", "th1", "th2", "--records", "DIR/records", "--out", "DIR/bags"},
       "",
       true,
       false,
       false},
      {"card", {"card", "th1", "--records", "DIR/records", "--out", "DIR/cards"}, "", true},
      {"mend", {"mend", "DIR/records/TH-01.toml"}, "", true, true}};
  return kScenes;
}

using Tree = std::map<std::string, std::string>;  ///< bytes by path

Tree tree_of(const TempFolder& folder) {
  Tree tree;
  for (const auto& file : fs::recursive_directory_iterator(folder.path())) {
    if (file.is_regular_file()) {
      const std::string name = fs::relative(file.path(), folder.path()).string();
      tree[name] = folder.read(name);
    }
  }
  return tree;
}

/// The night printed once; every test begins with a copy.
const Tree& printed_night() {
  static const Tree kNight = [] {
    const TempFolder folder;
    REQUIRE(run({"print", folder.write("night.toml", club_plan(2))}).code == 0);
    return tree_of(folder);
  }();
  return kNight;
}

void set_up(const Scene& scene, const TempFolder& folder) {
  folder.write("night.toml", club_plan(2));
  for (const auto& [name, bytes] : scene.ledger ? printed_night() : Tree{}) {
    folder.write(name, bytes);
  }
  if (scene.torn) {
    folder.write("records/TH-01.toml", folder.read("records/TH-01.toml") + "\"20260101T100000Z-ab");
  }
}

Ran play(const Scene& scene, const TempFolder& folder) {
  std::vector<std::string> words = scene.words;
  for (std::string& word : words) {
    if (word.starts_with("DIR")) {
      word = folder.path() + word.substr(3);
    }
  }
  return run(words, scene.input);
}

bool is_left_over(const std::string& name) {
  return name.find(".tmp-loopledger-") != std::string::npos;
}

/// What each record says: its lines when it is whole; empty when it is not.
std::size_t whole_entries(const std::string& text, bool torn) {
  const auto record = records::read_record(text, "TH-01.toml");
  REQUIRE(record.ok());
  REQUIRE(record->torn == torn);
  return record->entries.size();
}

/// Nothing half written under a final name, and no entry lost. Returns the number of entries.
std::size_t check_sound(const Scene& scene, const TempFolder& folder) {
  std::size_t entries = 0;
  for (const auto& file : tree_of(folder)) {
    const auto& name = file.first;
    const auto& bytes = file.second;
    CAPTURE(name);
    if (is_left_over(name)) {
      continue;
    }
    if (name.ends_with(".pdf")) {
      CHECK(is_ours(folder.path(name)));
    } else if (name.starts_with("records/TH-") && name.ends_with(".toml")) {
      const bool torn = scene.torn && bytes.ends_with("-ab");
      entries += whole_entries(bytes, torn);
    } else if (name == "fresh.toml") {
      CHECK(bytes.ends_with("or loop = \"330 mm\"\n"));
    }
  }
  CHECK(run({"list", "--records", folder.path("records")}).code ==
        (folder.holds("records") ? 0 : 4));
  return entries;
}

/// Done again, it ends where an undisturbed run ends, and nothing is left over.
void check_done_again(const Scene& scene, const TempFolder& folder, const Tree& undisturbed) {
  const Ran again = play(scene, folder);
  const bool there_already = scene.words[0] == "new" && again.code == 3;
  CHECK_MESSAGE((again.code == 0 || there_already), again.err);
  const Tree tree = tree_of(folder);
  CHECK(std::ranges::none_of(tree, [](const auto& file) { return is_left_over(file.first); }));
  if (scene.same) {
    CHECK((tree == undisturbed));
  } else {
    (void)check_sound(scene, folder);
  }
}

Tree undisturbed_end(const Scene& scene) {
  const TempFolder folder;
  set_up(scene, folder);
  const Ran ran = play(scene, folder);
  REQUIRE_MESSAGE(ran.code == 0, ran.err);
  return tree_of(folder);
}

/// The command in a process of its own, with the fault at its `nth` call: whether it was killed.
bool killed(const Scene& scene, const TempFolder& folder, int nth, Fault fault) {
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    plan_fault(nth, fault);
    ::_exit(play(scene, folder).code);
  }
  int status = 0;
  REQUIRE(::waitpid(child, &status, 0) == child);
  return WIFSIGNALED(status);
}

/// Kills at each call, until a run comes to its end. Returns how often.
int kill_at_every_call(const Scene& scene, Fault fault) {
  const Tree undisturbed = undisturbed_end(scene);
  for (int nth = 1;; ++nth) {
    CAPTURE(nth);
    const TempFolder folder;
    set_up(scene, folder);
    if (!killed(scene, folder, nth, fault)) {
      return nth - 1;
    }
    (void)check_sound(scene, folder);
    check_done_again(scene, folder, undisturbed);
  }
}

}  // namespace

TEST_CASE("killed after any call that changes the disk, a command loses nothing") {
  for (const Scene& scene : scenes()) {
    CAPTURE(std::string(scene.name));
    const int kills = kill_at_every_call(scene, Fault::die);
    MESSAGE(std::string(scene.name), ": killed after each of ", kills, " calls");
    CHECK(kills >= 2);
  }
}

TEST_CASE("killed in the middle of any write, a command that makes files leaves none half") {
  for (const Scene& scene : scenes()) {
    // A line that is being added is torn then: tests/records holds that at every byte.
    if (scene.words[0] == "new" || scene.words[0] == "card" || scene.words[0] == "mend") {
      CAPTURE(std::string(scene.name));
      CHECK(kill_at_every_call(scene, Fault::die_half) >= 2);
    }
  }
}

TEST_CASE("on a disk that is full from any call on, a command says so and leaves nothing half") {
  for (const Scene& scene : scenes()) {
    CAPTURE(std::string(scene.name));
    const Tree undisturbed = undisturbed_end(scene);
    int nth = 0;
    for (bool hit = true; hit;) {
      ++nth;
      CAPTURE(nth);
      const TempFolder folder;
      set_up(scene, folder);
      plan_fault(nth, Fault::full);
      const Ran ran = play(scene, folder);
      hit = calls_counted() >= nth;
      plan_fault(0, Fault::none);
      const Tree tree = tree_of(folder);
      CHECK(std::ranges::none_of(tree, [](const auto& file) { return is_left_over(file.first); }));
      (void)check_sound(scene, folder);
      if (ran.code == 0) {
        // What failed was only for git's use, or makes a name certain where the disk can.
        CHECK(tree.size() + 1 >= undisturbed.size());
      } else {
        CHECK(ran.code == 3);
        CHECK_MESSAGE(has(ran.err, "[disk-full]"), ran.err);
        CHECK(has(ran.err, "hint: "));
      }
      check_done_again(scene, folder, undisturbed);
    }
    MESSAGE(std::string(scene.name), ": full at each of ", nth - 1, " calls");
    CHECK(nth > 2);
  }
}
