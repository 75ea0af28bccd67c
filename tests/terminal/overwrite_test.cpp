// SPDX-License-Identifier: MIT
//
// The printing commands never replace what they did not write, and leave nothing half written.
#include <doctest/doctest.h>
#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>

#include "posix/files.h"
#include "support/cli_run.h"

using namespace loopledger;
using test::has;
using test::run;
using test::TempFolder;

namespace {

namespace fs = std::filesystem;

constexpr const char* kTheNight = R"(format = 1
title = "Invented night"
bench = { scale_step = "1 mg" }
[strips.tan]
width = "2.4 mm"
samples = [["1 m", "2 g"], ["1 m", "2 g"], ["1 m", "2 g"]]
[[motors]]
id = "TH"
count = 2
mass = "1.5 g"
)";

std::vector<std::string> names_in(const std::string& folder) {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(folder)) {
    names.push_back(entry.path().filename().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

/// Prints over what stands at out/labels.pdf: it must be told, and nothing may be written.
void check_refused(const TempFolder& folder, const std::string& found) {
  const auto ran = run({"print", folder.write("night.toml", kTheNight)});
  CAPTURE(found);
  CHECK(ran.code == 3);
  CHECK_MESSAGE(has(ran.err, found), ran.err);
  CHECK(has(ran.err, folder.path("out/labels.pdf")));
  CHECK_FALSE(folder.holds("records"));
  CHECK_FALSE(folder.holds("out/cut-sheet.pdf"));
  CHECK(names_in(folder.path("out")).size() == 1);
}

}  // namespace

TEST_CASE("print refuses to replace what it did not write, and writes nothing at all") {
  for (const std::string& text :
       {std::string("a letter"), std::string(), std::string("%PDF-1.4\n/Creator (Loopledger)\n"),
        std::string("/Loopledger (000000000032 bytes)")}) {
    const TempFolder folder;
    folder.write("out/labels.pdf", text);
    check_refused(folder, "found another's, or one that was changed since");
    CHECK(folder.read("out/labels.pdf") == text);
  }
}

TEST_CASE("a folder in the place of a PDF is told, with --overwrite too") {
  const TempFolder folder;
  folder.write("out/labels.pdf/keep.txt", "mine");
  check_refused(folder, "expected a file or nothing here, found a folder [disk-folder]");
  CHECK(run({"print", folder.path("night.toml"), "--overwrite"}).code == 3);
  CHECK(folder.read("out/labels.pdf/keep.txt") == "mine");
}

TEST_CASE("a link is not followed and not replaced, whether it leads anywhere or not") {
  for (const char* to : {"letter.pdf", "nowhere.pdf"}) {
    const TempFolder folder;
    folder.write("letter.pdf", "a letter");
    fs::create_directory(folder.path("out"));
    fs::create_symlink(folder.path(to), folder.path("out/labels.pdf"));
    check_refused(folder, "found a link [disk-foreign]");
    CHECK(has(run({"print", folder.path("night.toml")}).err, "hint: --overwrite replaces it"));
    // Asked to, the link goes and not what it leads to.
    CHECK(run({"print", folder.path("night.toml"), "--overwrite"}).code == 0);
    CHECK_FALSE(fs::is_symlink(folder.path("out/labels.pdf")));
    CHECK(folder.read("letter.pdf") == "a letter");
  }
}

TEST_CASE("a pipe does not make the program wait") {
  const TempFolder folder;
  fs::create_directory(folder.path("out"));
  REQUIRE(::mkfifo(folder.path("out/labels.pdf").c_str(), 0600) == 0);
  check_refused(folder, "found something that is no file [disk-foreign]");
}

TEST_CASE("all that stands in the way is told at once") {
  const TempFolder folder;
  folder.write("out/labels.pdf", "a letter");
  folder.write("out/cut-sheet.pdf", "a bill");
  const auto ran = run({"print", folder.write("night.toml", kTheNight)});
  CHECK(has(ran.err, "labels.pdf: error:"));
  CHECK(has(ran.err, "cut-sheet.pdf: error:"));
}

TEST_CASE("its own PDFs are replaced unasked, but not once another program saved them again") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", kTheNight);
  REQUIRE(run({"print", plan}).code == 0);
  const std::string labels = folder.read("out/labels.pdf");
  CHECK(run({"print", plan}).code == 0);
  CHECK(run({"label", "th1", "--records", folder.path("records"), "--out", folder.path("out")})
            .code == 0);
  // Notes were added at the end, as readers save them; or a piece is missing.
  for (const std::string& changed : {labels + "9 0 obj\n<<>>\nendobj\n%%EOF\n",
                                     labels.substr(0, labels.size() / 2), labels + "\n"}) {
    folder.write("out/labels.pdf", changed);
    CHECK(run({"print", plan}).code == 3);
    CHECK(folder.read("out/labels.pdf") == changed);
  }
  CHECK(run({"print", plan, "--overwrite"}).code == 0);
  CHECK(folder.read("out/labels.pdf") == labels);
}

TEST_CASE("label refuses as print does, notes nothing in the record, and obeys --overwrite") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", kTheNight);
  REQUIRE(run({"print", plan}).code == 0);
  const std::string record = folder.read("records/TH-01.toml");
  folder.write("out/labels.pdf", "a letter");
  std::vector<std::string> words{
      "label", "th1", "--records", folder.path("records"), "--out", folder.path("out")};
  const auto refused = run(words);
  CHECK(refused.code == 3);
  CHECK(has(refused.err, "[disk-foreign]"));
  CHECK(folder.read("out/labels.pdf") == "a letter");
  CHECK(folder.read("records/TH-01.toml") == record);
  words.emplace_back("--overwrite");
  CHECK(run(words).code == 0);
  CHECK(folder.read("out/labels.pdf").starts_with("%PDF"));
}

TEST_CASE(
    "what a killed run left is taken away, what a running one holds or a person made is not") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", kTheNight);
  folder.write("out/labels.pdf.tmp-loopledger-aB3dE6", "half a PDF");
  folder.write("out/labels.pdf.tmp-loopledger-zzzzzz", "");
  folder.write("out/labels.pdf.tmp-backup", "mine");
  const std::string held = folder.write("out/cut-sheet.pdf.tmp-loopledger-999999", "in use");
  const int file = ::open(held.c_str(), O_RDWR);
  REQUIRE(::flock(file, LOCK_EX) == 0);
  CHECK(run({"print", plan}).code == 0);
  CHECK(names_in(folder.path("out")) ==
        std::vector<std::string>{"break-in.pdf", "cut-sheet.pdf",
                                 "cut-sheet.pdf.tmp-loopledger-999999", "labels.pdf",
                                 "labels.pdf.tmp-backup"});
  ::close(file);
  CHECK(run({"print", plan}).code == 0);
  CHECK_FALSE(folder.holds("out/cut-sheet.pdf.tmp-loopledger-999999"));
}

TEST_CASE("two writers of one file do not take each other's work away") {
  const TempFolder folder;
  auto one = posix::PendingFile::write(folder.path("a.pdf"), "one");
  auto two = posix::PendingFile::write(folder.path("a.pdf"), "two");
  REQUIRE(one.ok());
  REQUIRE(two.ok());
  CHECK(one->commit().empty());
  CHECK(folder.read("a.pdf") == "one");
  CHECK(two->commit().empty());
  CHECK(folder.read("a.pdf") == "two");
  CHECK(names_in(folder.path()) == std::vector<std::string>{"a.pdf"});
}
