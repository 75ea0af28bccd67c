// SPDX-License-Identifier: MIT
#include "commands/entry_file.h"

#include <doctest/doctest.h>

using namespace loopledger;

TEST_CASE("a row is an entry with its motor, its time and its place; empty cells say nothing") {
  const auto read = commands::entries_from_file(
      "id;kind;at;turns;loop\nth-1;tied;;;366 mm\nTH-01;wound;2026-05-01 19:00;42 cranks;\n",
      "e.CSV", 10);
  REQUIRE_MESSAGE(read.ok(), render(read.diagnostics()));
  REQUIRE(read->size() == 2);
  const commands::FileEntry& tied = read->front();
  CHECK(tied.id == MotorId{"TH", 1});
  CHECK(tied.entry.kind == records::Kind::tied);
  CHECK(tied.entry.key.empty());
  CHECK_FALSE(tied.at);
  CHECK_FALSE(tied.in_cranks);
  CHECK(tied.place.line == 2);
  const commands::FileEntry& wound = read->back();
  CHECK(wound.at == moment_from_text("2026-05-01 19:00"));
  REQUIRE(wound.entry.turns);
  CHECK(wound.entry.turns->count() == doctest::Approx(420));
  CHECK(wound.in_cranks);
}

TEST_CASE("numbers and dates of a TOML file are taken as they stand there") {
  const auto read = commands::entries_from_file(
      "format = 1\n[[entries]]\nid = \"th1\"\nkind = \"wound\"\nat = 2026-05-01\nturns = 900\n",
      "e.toml");
  REQUIRE_MESSAGE(read.ok(), render(read.diagnostics()));
  REQUIRE(read->size() == 1);
  CHECK(read->front().at == midnight_utc({2026, 5, 1}));
  CHECK(read->front().entry.turns->count() == doctest::Approx(900));
}

TEST_CASE("what is no text or number in a TOML file is refused, never dropped") {
  for (const char* value :
       {"at = 2026-03-04T10:00:00Z", "at = 2026-03-04 10:00:00", "time = 00:07:31", "end = true",
        "end = { a = 1 }", "pairs = [[950], [800, \"18 gf.cm\"]]", "pairs = []",
        "pairs = [[950, 30]]"}) {
    CAPTURE(value);
    const auto read = commands::entries_from_file(
        std::string("[[entries]]\nid = \"th1\"\nkind = \"wound\"\nturns = 1000\n") + value + "\n",
        "e.toml");
    REQUIRE_FALSE(read.ok());
    CHECK(read.diagnostics().size() == 1);
    CHECK(read.diagnostics()[0].code == "log-file");
    CHECK(read.diagnostics()[0].place.line == 5);
    const bool is_list = std::string_view(value).starts_with("pairs");
    CHECK(read.diagnostics()[0].hint.find(is_list ? "pairs = [[" : "in quotes") !=
          std::string::npos);
  }
}

TEST_CASE("pairs of turns and torque are taken as a record has them") {
  const auto read = commands::entries_from_file(
      "[[entries]]\nid = \"th1\"\nkind = \"wound\"\nturns = 1000\n"
      "pairs = [[950, \"30 gf.cm\"], [800, \"18 gf.cm\"]]\n",
      "e.toml");
  REQUIRE_MESSAGE(read.ok(), render(read.diagnostics()));
  const auto& pairs = read->front().entry.pairs;
  REQUIRE(pairs.size() == 2);
  CHECK(pairs[0].turns == Turns::of(950));
  CHECK(pairs[1].torque.in_gf_cm() == doctest::Approx(18));
}

TEST_CASE("files that are no entries are refused in words") {
  CHECK(commands::entries_from_file("", "a.csv").diagnostics().front().code == "log-csv");
  CHECK(commands::entries_from_file("id,kind\n\"th1", "a.csv").diagnostics().front().message ==
        "a quote is opened and never closed");
  CHECK(commands::entries_from_file("id,kind\na,b,c\n", "a.csv").diagnostics().front().message ==
        "expected at most 2 fields, found 3");
  CHECK(commands::entries_from_file("motors = 3\n", "a.toml").diagnostics().front().code ==
        "log-file");
}

TEST_CASE("every fault of a file of entries says what to do") {
  for (const char* text : {"", "id,kind\n\"th1", "id,kind,at\nth1,note,tuesday\n",
                           "id,kind,turns,turns\nth1,wound,900,901\n"}) {
    for (const Diagnostic& d : commands::entries_from_file(text, "a.csv").diagnostics()) {
      CHECK_MESSAGE(!d.hint.empty(), d.message);
      CHECK(d.place.line > 0);
    }
  }
}
