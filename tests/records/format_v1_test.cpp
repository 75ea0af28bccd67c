// SPDX-License-Identifier: MIT
//
// Real files of format 1, written once and never edited again: every later version must read them
// as they are. A new format gets a new folder.
#include <doctest/doctest.h>

#include <fstream>
#include <sstream>

#include "records/read.h"
#include "records/write.h"
#include "records/write_planned.h"
#include "samples.h"

using namespace loopledger;
using namespace loopledger::records;
using namespace loopledger::test;

namespace {

std::string file(const std::string& name) {
  std::ifstream in(std::string(LOOPLEDGER_SOURCE_DIR) + "/tests/records/format_v1/" + name,
                   std::ios::binary);
  REQUIRE_MESSAGE(in.good(), name);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

}  // namespace

TEST_CASE("format 1: a record with every kind of entry") {
  const auto record = read_record(file("TH-01.toml"), "TH-01.toml");
  REQUIRE(record);
  CHECK(render(record.diagnostics()) == "");
  CHECK(planned_lines(record->planned) == planned_lines(full_planned()));
  const std::vector<Entry> expected = one_of_each();
  REQUIRE(record->entries.size() == expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) {
    CHECK(*entry_line(record->entries[i]) == *entry_line(expected[i]));
  }
}

TEST_CASE("format 1: a record as a person has worked on it") {
  const auto record = read_record(file("TH-02.toml"), "TH-02.toml");
  REQUIRE(record);
  REQUIRE(record.diagnostics().size() == 2);
  CHECK(record.diagnostics()[0].code == "record-edited");
  CHECK(record.diagnostics()[1].code == "record-torn");
  CHECK(record->torn);
  REQUIRE(record->entries.size() == 4);
  CHECK_FALSE(record->entries[0].edited);
  CHECK(record->entries[1].edited);
  CHECK(record->entries[1].turns == Turns::of(1250));
  CHECK(record->entries[2].kind == Kind::other);
  CHECK(record->entries[2].kind_text == "soaked");
  CHECK(record->entries[3].corrects == record->entries[1].key);
}
