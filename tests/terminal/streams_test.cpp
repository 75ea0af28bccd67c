// SPDX-License-Identifier: MIT
//
// Standard input, output and error that are closed, full, or a pipe that nobody reads: results that
// are lost never end in exit code 0, and never end up in a file of the ledger.
#include <doctest/doctest.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <string>

#include "ledger_bench.h"
#include "posix/standard_streams.h"
#include "records/read.h"
#include "support/program.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

constexpr const char* kLostText =
    "standard output can't be written: No space left on device [disk-output]\n";

bool has_full_device() {
  const bool there = ::access("/dev/full", W_OK) == 0;
  if (!there) {
    MESSAGE("no /dev/full here: output to a full device is not tested");
  }
  return there;
}

}  // namespace

TEST_CASE("on a closed standard output no command ends as done, and no record takes its place") {
  const LedgerBench ledger;
  for (const char* words : {"list", "list --json", "list --csv", "show th1", "sources", "--help",
                            "--version", "scan -", "log th1 note hello"}) {
    CAPTURE(words);
    const Ran ran = shell(
        ledger.folder, "echo th1 | LOOPLEDGER_RECORDS=records $LL " + std::string(words) + " >&-");
    CHECK(ran.code == 3);
    CHECK_MESSAGE(has(ran.err, "loopledger: error: standard output can't be written"), ran.err);
  }
  for (const char* words : {"check night.toml", "check night.toml --json", "print night.toml"}) {
    CAPTURE(words);
    CHECK(shell(ledger.folder, "$LL " + std::string(words) + " >&-").code == 3);
  }
  const auto record = records::read_record(ledger.record(), "TH-01.toml");
  REQUIRE(record.ok());
  CHECK(render(record.diagnostics()).empty());
  CHECK(record->entries.size() == 1);  // the note is kept, and what was said of it is not in it
  CHECK(record->entries.front().text == "hello");
}

TEST_CASE("all three closed, the program still ends, and the ledger is as it was") {
  const LedgerBench ledger;
  const std::string before = ledger.record();
  const Ran ran = shell(ledger.folder, "$LL list --records records <&- >&- 2>&-");
  CHECK(ran.code == 3);
  CHECK(ledger.record() == before);
}

TEST_CASE("output that a full device does not take is an error, said once") {
  if (!has_full_device()) {
    return;
  }
  const LedgerBench ledger;
  const Ran ran = shell(ledger.folder, "$LL list --records records >/dev/full");
  CHECK(ran.code == 3);
  CHECK(ran.err == std::string("loopledger: error: ") + kLostText +
                       "  hint: what the command had to store is stored; its text is lost\n");
  // An error of the input's stays the first to be told.
  const Ran wrong = shell(ledger.folder, "$LL show zz9 --json --records records >/dev/full");
  CHECK(wrong.code == 4);
}

TEST_CASE("a warning that could not be written is lost output too; silence is not") {
  const LedgerBench ledger;
  ledger.folder.write("records/copy of TH-01.toml", "x");
  CHECK(shell(ledger.folder, "$LL list --records records 2>&-").code == 3);
  CHECK(shell(ledger.folder, "$LL show th1 --records records 2>&-").code == 0);
  CHECK(shell(ledger.folder, "$LL show zz1 --records records 2>&-").code == 4);
  if (has_full_device()) {
    CHECK(shell(ledger.folder, "$LL list --records records 2>/dev/full").code == 3);
  }
}

TEST_CASE("a reader that has gone away is no error and makes no noise") {
  const LedgerBench ledger;
  for (const char* words : {"list --records records", "check night.toml", "check night.toml --json",
                            "sources", "show th1 --records records"}) {
    CAPTURE(words);
    const Ran ran = shell(ledger.folder,
                          "{ sleep 0.2; $LL " + std::string(words) + "; echo $? >code; } | true");
    CHECK(ledger.folder.read("code") == "0\n");
    CHECK_MESSAGE(ran.err.empty(), ran.err);
  }
  const Ran head = shell(ledger.folder, "$LL sources | head -1");
  CHECK(head.code == 0);
  CHECK(std::count(head.out.begin(), head.out.end(), '\n') == 1);
  CHECK_MESSAGE(head.err.empty(), head.err);
  // What the command finds wrong with its input stays its exit code.
  (void)shell(ledger.folder,
              "{ sleep 0.2; $LL show zz1 --records records; echo $? >code; } 2>&1 | true");
  CHECK(ledger.folder.read("code") == "4\n");
}

TEST_CASE("a bench whose answers nobody can read stops, and says so") {
  const LedgerBench ledger;
  ledger.folder.write("lines", "th1 washed 1.437\nth2 washed 1.437\n");
  const Ran ran = shell(ledger.folder, "$LL bench night.toml <lines >&-");
  CHECK(ran.code == 3);
  CHECK(has(ran.err, "the answers can't be written any more [disk-output]"));
  CHECK(has(ledger.record(), "1.437"));  // the first, which was stored before it was answered
  CHECK_FALSE(has(ledger.folder.read("records/TH-02.toml"), "1.437"));
}

TEST_CASE("a standard input that can't be read is told from an empty one") {
  const LedgerBench ledger;
  for (const char* words : {"check -", "print -", "scan -", "log --from -", "bench night.toml"}) {
    CAPTURE(words);
    const Ran closed = shell(ledger.folder, "$LL " + std::string(words) + " <&-");
    CHECK(closed.code == 3);
    CHECK_MESSAGE(has(closed.err, "<standard input>: error: standard input can't be read"),
                  closed.err);
    CHECK(shell(ledger.folder, "$LL " + std::string(words) + " <.").code == 3);
  }
  CHECK(shell(ledger.folder, "$LL bench night.toml </dev/null").code == 0);
}

TEST_CASE("colour is for terminals that know it, and NO_COLOR holds it back") {
  const auto environment = [](const char* term, const char* no_color) {
    return [term, no_color](const char* name) -> std::optional<std::string> {
      const char* const value = std::string(name) == "TERM"       ? term
                                : std::string(name) == "NO_COLOR" ? no_color
                                                                  : nullptr;
      return value == nullptr ? std::nullopt : std::optional<std::string>(value);
    };
  };
  CHECK(posix::paint_on(true, environment("xterm", nullptr)) == Paint::coloured);
  CHECK(posix::paint_on(true, environment("xterm", "")) == Paint::coloured);
  CHECK(posix::paint_on(true, environment("xterm", "1")) == Paint::plain);
  CHECK(posix::paint_on(true, environment("xterm", "0")) == Paint::plain);
  CHECK(posix::paint_on(true, environment("dumb", nullptr)) == Paint::plain);
  CHECK(posix::paint_on(true, environment(nullptr, nullptr)) == Paint::plain);
  CHECK(posix::paint_on(false, environment("xterm", nullptr)) == Paint::plain);
}
