// SPDX-License-Identifier: MIT
#include "records/read_planned.h"

#include <doctest/doctest.h>

#include <string>

#include "records/read.h"
#include "records/write.h"
#include "samples.h"

using namespace loopledger;
using namespace loopledger::records;
using namespace loopledger::test;

namespace {

std::string record_of(int number, char check) {
  return new_record_text({{"TH", number}, check, full_planned()});
}

}  // namespace

TEST_CASE("figures seen before are not read again, and come out the same") {
  PlannedSeen seen;
  for (int number = 1; number <= 40; ++number) {
    const std::string text = record_of(number, 'A');
    const auto alone = read_record(text, "r.toml");
    const auto beside = read_record(text, "r.toml", &seen);
    REQUIRE(alone.ok());
    REQUIRE(beside.ok());
    CHECK(beside->id == alone->id);
    CHECK(beside->check == alone->check);
    CHECK(new_record_text({beside->id, 'A', beside->planned}) == text);
    CHECK(beside->planned_unknown == alone->planned_unknown);
    CHECK(render(beside.diagnostics()) == render(alone.diagnostics()));
  }
  // What is taken is what was kept, not read anew: kept figures that say something else come out.
  const std::string text = record_of(41, 'A');
  PlannedSeen other;
  const std::size_t from = text.find("\n[planned]\n");
  other.add({text.substr(from, text.find("\nsum = \"") - from), small_planned(), {}});
  CHECK(read_record(text, "r.toml", &other)->planned.owner == small_planned().owner);
  CHECK(small_planned().owner != full_planned().owner);
}

TEST_CASE("a figure changed by hand is read, though the record before it said otherwise") {
  PlannedSeen seen;
  REQUIRE(read_record(record_of(1, 'A'), "r.toml", &seen).ok());
  std::string text = record_of(2, 'A');
  text.replace(text.find("\nstrands = "), 12, "\nstrands = 8");
  const auto record = read_record(text, "r.toml", &seen);
  REQUIRE(record.ok());
  CHECK(record->planned.strands == 8);
  CHECK(record->planned_edited);
}

TEST_CASE("a key of the user's behind the sum is kept") {
  PlannedSeen seen;
  REQUIRE(read_record(record_of(1, 'A'), "r.toml", &seen).ok());
  std::string text = record_of(2, 'A');
  const std::size_t at = text.find('\n', text.find("\nsum = \"") + 1);
  text.insert(at + 1, "colour = \"tan\"\n");
  const auto record = read_record(text, "r.toml", &seen);
  REQUIRE(record.ok());
  REQUIRE(record->planned_unknown.size() == 1);
  CHECK(record->planned_unknown.front().first == "colour");
}

TEST_CASE("a fault in the figures is told each time, with its place") {
  PlannedSeen seen;
  for (int i = 0; i < 3; ++i) {
    std::string text = record_of(3, 'A');
    text.replace(text.find("\nstrands = "), 12, "\nstrands = x");
    const auto record = read_record(text, "r.toml", &seen);
    CHECK_FALSE(record.ok());
  }
}

TEST_CASE("a figure that no motor has is refused: nothing is worked out from it") {
  for (const char* size : {"1e200 mm", "1e14 mm", "-1 mm"}) {
    CAPTURE(size);
    std::string text = record_of(3, 'A');
    text.replace(text.find("\nknot = \"16 mm\""), 15, std::string("\nknot = \"") + size + '"');
    const auto record = read_record(text, "r.toml");
    REQUIRE_FALSE(record.ok());
    CHECK(record.diagnostics().front().message.starts_with("knot: expected a quantity from 0"));
  }
}

TEST_CASE("what a rule counts is a list that has rubber in it") {
  for (const char* counts : {"\"rubber\"", "[\"lubricant\"]", "[]", "[\"rubber\", \"glue\"]"}) {
    CAPTURE(counts);
    std::string text = record_of(3, 'A');
    const std::size_t at = text.find("counts = [");
    REQUIRE(at != std::string::npos);
    text.replace(at, text.find(']', at) + 1 - at, std::string("counts = ") + counts);
    const auto record = read_record(text, "r.toml");
    REQUIRE_FALSE(record.ok());
    CHECK(record.diagnostics().front().message.starts_with("counts: expected a list of rubber"));
  }
}

TEST_CASE("a check character is a letter or a digit, nothing that drives a terminal") {
  for (const char check : {'\x1b', '"', 'a', ' ', '\x7f'}) {
    CAPTURE(static_cast<int>(check));
    const auto record = read_record(record_of(1, check), "r.toml");
    REQUIRE_FALSE(record.ok());
    CHECK(record.diagnostics().front().code == "record-id");
  }
  CHECK(read_record(record_of(1, '0'), "r.toml").ok());
}
