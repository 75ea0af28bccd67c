// SPDX-License-Identifier: MIT
//
// Where files may be: paths with blanks, quotes and foreign letters, links in the place of folders,
// names that are too long, folders that may only be read, a plan on standard input.
#include <doctest/doctest.h>
#include <sys/stat.h>

#include <filesystem>
#include <string>
#include <vector>

#include "ledger_bench.h"
#include "support/nobody.h"
#include "support/program.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

namespace fs = std::filesystem;

constexpr const char* kPathPlan = R"(format = 1
take = ["shelf files/Größe.toml"]
[[motors]]
id = "TH"
count = 2
mass = "1.5 g"
)";
constexpr const char* kPathShelf = R"(bench = { scale_step = "1 mg" }
strips.tan = { samples = [["1 m", "2 g"], ["1 m", "2 g"], ["1 m", "2 g"]] }
)";

}  // namespace

TEST_CASE("blanks, quotes and foreign letters in a path are letters like any other") {
  for (const char* name : {"a night", "Größe", "夜", "it's \"quoted\"", "-n", "new\nline"}) {
    CAPTURE(name);
    const TempFolder folder;
    const std::string at = std::string(name) + "/";
    folder.write(at + "shelf files/Größe.toml", kPathShelf);
    const std::string plan = folder.write(at + "die Nacht.toml", kPathPlan);
    const Ran printed = run({"print", plan});
    CHECK_MESSAGE(printed.code == 0, printed.err);
    CHECK(folder.holds(at + "out/labels.pdf"));
    CHECK(folder.holds(at + "records/TH-02.toml"));
    const std::string records = folder.path(at + "records");
    CHECK(run({"log", "th1", "note", "hi", "--records", records}).code == 0);
    CHECK(has(run({"list", "--records", records}).out, "2 motors"));
    CHECK(run({"label", "th1", "--records", records, "--out", folder.path(at + "l b")}).code == 0);
    CHECK(run({"mend", folder.path(at + "records/TH-01.toml")}).code == 0);
    CHECK(run({"new", folder.path(at + "second night.toml")}).code == 0);
    const Ran none = run({"check", folder.path(at + "none.toml")});
    CHECK(none.code == 3);
    CHECK_FALSE(has(none.err, "\nline"));  // a path's line end is shown as an escape
  }
}

TEST_CASE("a records folder may be a link; a record that is one is read, and not written through") {
  const LedgerBench ledger;
  fs::rename(ledger.folder.path("records"), ledger.folder.path("shared"));
  fs::create_directory_symlink("shared", ledger.folder.path("records"));
  fs::rename(ledger.folder.path("shared/TH-02.toml"), ledger.folder.path("kept.toml"));
  fs::create_symlink("../kept.toml", ledger.folder.path("shared/TH-02.toml"));
  CHECK(has(ledger({"list"}).out, "3 motors"));
  CHECK(ledger({"log", "th1", "note", "one"}).code == 0);
  const std::string before = ledger.folder.read("kept.toml");
  CHECK(ledger({"log", "th2", "note", "two"}).code == 3);
  CHECK(has(ledger.folder.read("shared/TH-01.toml"), "one"));
  CHECK(ledger.folder.read("kept.toml") == before);
  CHECK(fs::is_symlink(ledger.folder.path("shared/TH-02.toml")));
  CHECK(run({"print", ledger.folder.path("night.toml")}).code == 3);
  CHECK(fs::is_symlink(ledger.folder.path("records")));
}

TEST_CASE("a link that leads nowhere is told, and nothing is made at its end") {
  const TempFolder folder;
  folder.write("shelf files/Größe.toml", kPathShelf);
  const std::string plan = folder.write("night.toml", kPathPlan);
  fs::create_directory_symlink("gone", folder.path("records"));
  const Ran print = run({"print", plan});
  CHECK(print.code == 3);
  CHECK_MESSAGE(has(print.err, folder.path("records") + ": error: "), print.err);
  CHECK_FALSE(folder.holds("gone"));
  CHECK_FALSE(folder.holds("out/labels.pdf"));
}

TEST_CASE("a name that is too long is an error like any other") {
  const LedgerBench ledger;
  const std::string part(250, 'x');
  std::string deep = ledger.folder.path();
  for (int i = 0; i < 20; ++i) {
    deep += "/" + part;
  }
  const std::string longer = ledger.folder.path(part + part);
  for (const std::string& path : {deep, longer}) {
    for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
             {"check", path},
             {"new", path},
             {"print", path},
             {"bench", path},
             {"mend", path + ".toml"},
             {"list", "--records", path},
             {"show", "th1", "--records", path},
             {"log", "th1", "note", "x", "--records", path},
             {"label", "th1", "--records", path},
             {"label", "th1", "--records", ledger.folder.path("records"), "--out", path},
             {"print", ledger.folder.path("night.toml"), "--out", path},
             {"print", ledger.folder.path("night.toml"), "--records", path}}) {
      CAPTURE(words[0]);
      const Ran ran = run(words);
      CHECK(ran.code == 3);
      CHECK_MESSAGE(has(ran.err, "File name too long"), ran.err);
    }
  }
  const Ran scan = ledger({"scan", longer});
  CHECK(scan.code == 3);
}

TEST_CASE("where nothing may be written, each command that writes says where, and leaves nothing") {
  const LedgerBench ledger;
  const auto shut = [&](const char* name, mode_t mode) {
    fs::create_directories(ledger.folder.path(name));
    ::chmod(ledger.folder.path(name).c_str(), mode);
  };
  ::chmod(ledger.folder.path().c_str(), 0755);
  shut("shut", 0555);
  shut("records", 0555);
  const std::string closed = ledger.folder.path("shut");
  const std::string plan = ledger.folder.path("night.toml");
  {
    const Nobody nobody;
    for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
             {"new", closed + "/fresh.toml"},
             {"print", plan, "--out", closed},
             {"print", plan, "--out", closed + "/out"},
             {"print", plan, "--records", closed, "--out", closed},
             {"print", plan, "--test-page", "--out", closed},
             {"label", "th1", "--out", closed, "--records", ledger.folder.path("records")},
             {"card", "th1", "--out", closed, "--records", ledger.folder.path("records")}}) {
      CAPTURE(words[0]);
      const Ran ran = run(words);
      CHECK(ran.code == 3);
      CHECK_MESSAGE(has(ran.err, "Permission denied [disk-permission]"), ran.err);
      CHECK(has(ran.err, closed));
    }
  }
  CHECK(fs::is_empty(closed));
  ::chmod(closed.c_str(), 0755);
  ::chmod(ledger.folder.path("records").c_str(), 0755);
}

TEST_CASE("a file that may not be read is told as such, not as absent") {
  const LedgerBench ledger;
  ::chmod(ledger.folder.path().c_str(), 0755);
  ::chmod(ledger.folder.path("night.toml").c_str(), 0);
  ::chmod(ledger.folder.path("records/TH-01.toml").c_str(), 0);
  const Nobody nobody;
  CHECK(has(run({"check", ledger.folder.path("night.toml")}).err, "[disk-permission]"));
  CHECK(ledger({"show", "th1"}).code == 3);
  CHECK(has(ledger({"show", "th1"}).err, "[disk-permission]"));
}

TEST_CASE("a plan on standard input finds its shelf, and its folders, from where one stands") {
  const TempFolder folder;
  folder.write("shelf files/Größe.toml", kPathShelf);
  folder.write("elsewhere/night.toml", kPathPlan);
  const Ran check = shell(folder, "$LL check - <elsewhere/night.toml");
  CHECK_MESSAGE(check.code == 0, check.err);
  const Ran print = shell(folder, "$LL print - <elsewhere/night.toml");
  CHECK_MESSAGE(print.code == 0, print.err);
  CHECK(has(print.out, "Wrote out/cut-sheet.pdf"));
  CHECK(folder.holds("out/cut-sheet.pdf"));
  CHECK(folder.holds("records/TH-02.toml"));
  const Ran bad = shell(folder, "sed 's/1.5 g/1.5 mm/' elsewhere/night.toml | $LL check -");
  CHECK(bad.code == 1);
  CHECK(has(bad.err, "<standard input>:6:8: error: "));
  CHECK(has(bad.err, "    6 | mass = \"1.5 mm\"\n"));
  const Ran astray = shell(folder, "cd elsewhere; $LL check - <night.toml");
  CHECK(astray.code != 0);
  CHECK(has(astray.err, "shelf file shelf files/Größe.toml: can't open the file"));
}

TEST_CASE("a path that leads nowhere is told how far it is right") {
  const TempFolder folder;
  CHECK(has(run({"check", folder.path("nihgt.toml")}).err,
            "hint: look at its spelling; the folder " + folder.path() + " is there\n"));
  CHECK(has(run({"check", folder.path("no/night.toml")}).err,
            "hint: look at its spelling; there is no folder " + folder.path("no") + "\n"));
  CHECK(has(run({"check", "no-such-night.toml"}).err, "the folder where you are is there\n"));
}
