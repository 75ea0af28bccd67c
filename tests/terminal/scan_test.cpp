// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "photo/grey_ops.h"
#include "photo/picture.h"
#include "support/cli_run.h"
#include "tag/id.h"
#include "tag/tag_text.h"

using loopledger::MotorId;
using loopledger::tag::with_check;
using loopledger::test::drawn;
using loopledger::test::has;
using loopledger::test::png;
using loopledger::test::run;
using loopledger::test::TempFolder;

namespace {

/// A ledger with the four motors of the plan that `new` writes.
struct ScanBench {
  TempFolder folder;
  std::string records = folder.path("records");
  ScanBench() {
    REQUIRE(run({"new", folder.path("night.toml")}).code == 0);
    const auto printed = run(
        {"print", folder.path("night.toml"), "--records", records, "--out", folder.path("out")});
    REQUIRE_MESSAGE(printed.code == 0, printed.err);
  }
  [[nodiscard]] std::string picture(const std::string& name, const std::string& text) const {
    return folder.write(name, png(drawn(text, 6)));
  }
};

std::string id(int number) { return with_check({"AB", number}); }

}  // namespace

TEST_CASE("a photo of a label shows the motor's record") {
  const ScanBench bench;
  const auto ran = run({"scan", bench.picture("bag.png", id(1)), "--records", bench.records});
  CHECK(ran.code == 0);
  CHECK(has(ran.out, id(1)));
  CHECK(has(ran.out, "Next: "));
  CHECK(ran.err.empty());
}

TEST_CASE("several pictures and folders of pictures are read in one go") {
  const ScanBench bench;
  const std::string one = bench.picture("a.png", id(1));
  (void)bench.picture("b.png", id(2));
  const auto ran = run({"scan", bench.folder.path(), one, "--records", bench.records, "--json"});
  CHECK(ran.code == 0);
  CHECK(has(ran.out, R"("id": "AB-01")"));
  CHECK(has(ran.out, R"("id": "AB-02")"));
  CHECK(has(ran.out, R"("known": true)"));
  CHECK(has(ran.out, R"("format": 1)"));
}

TEST_CASE("standard input may be a picture or typed tags, one a line") {
  const ScanBench bench;
  const auto image = run({"scan", "-", "--records", bench.records}, png(drawn(id(3), 6)));
  CHECK(image.code == 0);
  CHECK(has(image.out, id(3)));
  const auto typed = run({"scan", "-", "--records", bench.records}, "ab1\n\n AB-02\r\n");
  CHECK(typed.code == 0);
  CHECK(has(typed.out, id(1)));
  CHECK(has(typed.out, id(2)));
  CHECK(run({"scan", "-", "--records", bench.records}, "").code == 4);
}

TEST_CASE("several labels are two lines each, --all shows the whole records") {
  const ScanBench bench;
  const auto ran = run({"scan", "-", "--records", bench.records}, "ab1\nab2\nab3\n");
  CHECK(std::count(ran.out.begin(), ran.out.end(), '\n') == 7);
  CHECK(has(ran.out, id(2) + " - planned\n  Next: cut it, wash it, let it dry"));
  CHECK(has(ran.out, "--all shows the whole records\n"));
  const auto whole = run({"scan", "-", "--records", bench.records, "--all"}, "ab1\nab2\nab3\n");
  CHECK(has(whole.out, "Entries (UTC)"));
  CHECK(has(run({"scan", "-", "--records", bench.records}, "ab1\n").out, "Entries (UTC)"));
}

TEST_CASE("a label that the ledger does not know still shows what it says") {
  const ScanBench bench;
  const std::string text = with_check({"ZZ", 7}) + " MADE 1180T 44GFCM 1.496G 303MM L1 260131";
  const auto ran = run({"scan", bench.picture("bag.png", text), "--records", bench.records});
  CHECK(ran.code == 0);
  CHECK(has(ran.out, with_check({"ZZ", 7}) +
                         ": not in this ledger. The label says: broken in, 1180 turns, 44 gf·cm, "
                         "washed 1.496 g, loop 303 mm, dated 2026-01-31\n"));
  CHECK(has(ran.err, "[scan-unknown]"));
}

TEST_CASE("a label whose figures are not the motor's is said to come from another ledger") {
  const ScanBench bench;
  const std::string text = id(1) + " MADE 1180T 9.876G 303MM L1";
  const auto ran = run({"scan", bench.picture("bag.png", text), "--records", bench.records});
  CHECK(ran.code == 0);
  CHECK(has(ran.err, "is from another ledger: its mass and loop are not the motor's"));
  CHECK(has(ran.out, "The label says: broken in, 1180 turns, washed 9.876 g"));
}

TEST_CASE("a label that says something else than its record is told to be out of date") {
  const ScanBench bench;
  for (const auto& words : {std::vector<std::string>{"weighed", "washed", "1.498"},
                            {"tied", "loop=283 mm"},
                            {"wound", "980", "41 gf.cm"}}) {
    std::vector<std::string> log{"log", "ab1"};
    log.insert(log.end(), words.begin(), words.end());
    log.insert(log.end(), {"--records", bench.records});
    REQUIRE(run(log).code == 0);
  }
  const auto scanned = [&](const std::string& figures, const char* option) {
    return run(
        {"scan", bench.picture("bag.png", id(1) + figures), "--records", bench.records, option});
  };
  const auto old = scanned(" MADE 1180T 41GFCM 1.498G 283MM L1", "--all");
  CHECK(has(old.err, "warning: the label of AB-01 is out of date: it says \"" + id(1) +
                         " MADE 1180T 41GFCM 1.498G 283MM L1\", now \"" + id(1) +
                         " MADE 980T 41GFCM 1.498G 283MM L1"));
  CHECK(has(old.err, "`loopledger label AB-01` prints a new one"));
  CHECK(has(scanned(" 1180T 41GFCM", "--all").err, "[scan-stale]"));
  CHECK(has(scanned(" MADE 1180T 41GFCM 1.498G 283MM L1", "--json").out, "\"label_stale\": true"));
  for (const char* fresh : {" MADE 980T 41GFCM 1.498G 283MM L1", " 980T 41GFCM", ""}) {
    CAPTURE(fresh);
    CHECK_FALSE(has(scanned(fresh, "--all").err, "[scan-stale]"));
  }
}

TEST_CASE("a wrong check character is an error that names the ids one slip away") {
  const ScanBench bench;
  std::string wrong = id(1);
  wrong.back() = wrong.back() == 'A' ? 'B' : 'A';
  const auto ran = run({"scan", "-", "--records", bench.records}, wrong + "\n");
  CHECK(ran.code == 1);
  CHECK(has(ran.err, "<standard input>:1: error: the check character"));
  CHECK(has(ran.err, id(1)));
  CHECK(run({"scan", "-", "--records", bench.records}, wrong + "\nab2\n").code == 0);
}

TEST_CASE("a picture without a label exits with 4 and says what to try") {
  const ScanBench bench;
  const auto file = bench.folder.write("empty.png", png(loopledger::photo::Grey(300, 300, 190)));
  const auto ran = run({"scan", file, "--records", bench.records});
  CHECK(ran.code == 4);
  CHECK(ran.out.empty());
  CHECK(has(ran.err, "error: no label was read [none-label]"));
  CHECK(has(ran.err, "hint: "));
  const auto other = run({"scan", bench.picture("x.png", "HELLO")});
  CHECK(other.code == 4);
  CHECK(has(run({"scan", "-", "--json"}, png(loopledger::photo::Grey(300, 300, 190))).out,
            R"("tags": [])"));
}

TEST_CASE("what can't be read exits with 3, unless something else was read") {
  const ScanBench bench;
  const std::string absent = bench.folder.path("absent.jpg");
  CHECK(run({"scan", absent}).code == 3);
  CHECK(run({"scan", bench.folder.path("records")}).code == 3);
  const auto both =
      run({"scan", absent, bench.picture("bag.png", id(1)), "--records", bench.records});
  CHECK(both.code == 0);
  CHECK(has(both.err, "[disk-missing]"));
  CHECK(run({"scan"}).code == 2);
}

TEST_CASE("an image of another kind is an error that says what to do") {
  const ScanBench bench;
  const auto ran = run({"scan", bench.folder.write("p.heic", std::string("\0\0\0\x18"
                                                                         "ftypheic\0\0\0\0mif1",
                                                                         20))});
  CHECK(ran.code == 1);
  CHECK(has(ran.err, "found a HEIC picture"));
}

TEST_CASE("what a foreign code says never drives the terminal") {
  const ScanBench bench;
  const auto ran = run({"scan", "-"}, std::string("\x1b]0;x\x07 hello \xe2\x80\xae\n"));
  CHECK(ran.code == 1);
  CHECK(ran.err.find('\x1b') == std::string::npos);
  CHECK(ran.err.find("\xe2\x80\xae") == std::string::npos);
}

TEST_CASE("a label of a newer layout beside a known one is told, and so is what to do") {
  const ScanBench bench;
  loopledger::photo::Grey both(700, 400, 255);
  loopledger::test::paste(both, drawn(id(1), 6), 20, 40);
  loopledger::test::paste(both, drawn(id(2) + " MADE 1180T L2", 6), 350, 40);
  const auto ran =
      run({"scan", bench.folder.write("two.png", png(both)), "--records", bench.records});
  CHECK(ran.code == 0);
  CHECK(has(ran.err, "warning: the label of AB-02 has a layout that this version can't read"));
  CHECK(has(ran.err, "hint: update the program, or look the motor up by its id"));
}
