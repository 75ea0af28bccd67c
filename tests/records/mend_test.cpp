// SPDX-License-Identifier: MIT
#include "records/mend.h"

#include <doctest/doctest.h>

#include "records/lines.h"
#include "records/read.h"
#include "records/write.h"
#include "samples.h"

using namespace loopledger;
using namespace loopledger::records;
using namespace loopledger::test;

namespace {

const std::string kTornFile = "TH-01.toml";

std::string with_entry(const std::string& line) {
  return new_record_text({{"TH", 1}, 'T', small_planned()}) + line;
}

std::string sound_line() {
  return *entry_line(entry_of("20260501T100000Z-b7k2", Kind::wound,
                              {{"turns", "1200"}, {"torque", "41 gf.cm"}, {"end", "stopped"}}));
}

}  // namespace

TEST_CASE("a sound record is left as it is") {
  for (const bool accept : {false, true}) {
    const Mended mended = mend_text(sample_text(), kTornFile, accept);
    CHECK(mended.text == sample_text());
    CHECK(mended.done.empty());
    CHECK(mended.left.empty());
    CHECK(mended.moved.empty());
  }
}

TEST_CASE("a hand-edited line becomes sound only with accept, and it says which") {
  std::string line = sound_line();
  line.replace(line.find("1200"), 4, "1250");
  const std::string text = with_entry(line + "# calm\n" + sound_line().replace(10, 1, "9"));
  const Mended without = mend_text(text, kTornFile, false);
  CHECK(without.text == text);
  CHECK(without.left.size() == 2);
  const Mended with = mend_text(text, kTornFile, true);
  CHECK(with.left.empty());
  REQUIRE(with.done.size() == 2);
  CHECK(with.done[0].starts_with("accepted line "));
  CHECK(with.done[0].find("turns = 1250") != std::string::npos);
  CHECK(with.moved.empty());
  const auto record = read_record(with.text, kTornFile);
  REQUIRE(record->entries.size() == 2);
  CHECK(record->entries[0].turns == Turns::of(1250));
  CHECK_FALSE(record->entries[0].edited);
  CHECK(with.text.find("# calm\n") != std::string::npos);
}

TEST_CASE("a line typed by hand without a sum gets one, its comment stays") {
  const std::string text = with_entry(
      "\"20260501T100000Z-mine\" = { kind = \"flown\", time = \"7 min\" }  # calm air\n");
  const Mended mended = mend_text(text, kTornFile, true);
  CHECK(mended.left.empty());
  CHECK(mended.text.ends_with("\" }  # calm air\n"));
  CHECK_FALSE(read_record(mended.text, kTornFile)->entries[0].edited);
}

TEST_CASE(
    "the line [entries] put back leaves a damaged comment behind it and the record readable") {
  std::string text = with_entry("# calm \x01 air\n" + sound_line());
  text.erase(text.find("[entries]\n"), 10);
  const Mended mended = mend_text(text, kTornFile, false);
  CHECK(mended.moved.empty());
  CHECK(mended.text.find("# calm \x01 air\n") != std::string::npos);
  const auto record = read_record(mended.text, kTornFile);
  REQUIRE(record.ok());
  CHECK(record->entries.size() == 1);
}

TEST_CASE("what was typed behind a line's sum is accepted with the rest of it") {
  std::string line = sound_line();
  line.insert(line.rfind(" }"), ", note = \"hand, \\\"added\\\" }\"");
  const Mended mended = mend_text(with_entry(line), kTornFile, true);
  CHECK(mended.left.empty());
  const auto record = read_record(mended.text, kTornFile);
  REQUIRE(record->entries.size() == 1);
  CHECK_FALSE(record->entries[0].edited);
  CHECK(record->entries[0].turns == Turns::of(1200));
  CHECK(record->entries[0].text == "hand, \"added\" }");
}

TEST_CASE("a line that can't be read is not accepted but named") {
  const std::string text = with_entry("turns were great\n" + sound_line());
  const Mended mended = mend_text(text, kTornFile, true);
  CHECK(mended.text == text);
  REQUIRE(mended.left.size() == 1);
  CHECK(mended.left[0].code == "record-line");
}

TEST_CASE("a line with a value that can't be understood is not accepted") {
  std::string line = sound_line();
  line.replace(line.find("41 gf.cm"), 8, "41 yards");
  const Mended mended = mend_text(with_entry(line), kTornFile, true);
  CHECK(mended.done.empty());
  CHECK(mended.text == with_entry(line));
}

TEST_CASE("figures changed by hand become sound with accept, comments kept") {
  std::string text = "# mine\n" + with_entry(sound_line());
  text.replace(text.find("1.4935 g"), 8, "1.4900 g");
  const Mended mended = mend_text(text, kTornFile, true);
  CHECK(mended.left.empty());
  CHECK(mended.done == std::vector<std::string>{"accepted the figures as planned as they stand"});
  const auto record = read_record(mended.text, kTornFile);
  CHECK_FALSE(record->planned_edited);
  CHECK(record->planned.aim.in_g() == doctest::Approx(1.49));
  CHECK(mended.text.starts_with("# mine\n# A motor's record."));
  CHECK(record->entries.size() == 1);
}

TEST_CASE("a head's sum that is no sum any more is replaced, not joined by a second one") {
  std::string text = with_entry(sound_line());
  const std::size_t at = text.find("\nsum = \"") + 8;
  text[at] = 'n';  // no hexadecimal digit
  const Mended mended = mend_text(text, kTornFile, true);
  CHECK(mended.done.size() == 1);
  const auto record = read_record(mended.text, kTornFile);
  REQUIRE(record.ok());
  CHECK_FALSE(record->planned_edited);
  CHECK(mended.text == with_entry(sound_line()));
}

TEST_CASE("a lost [entries] line is put back, what stands in its place is moved out") {
  std::string text = with_entry(sound_line());
  text.replace(text.find("[entries]"), 9, "[entriet]");
  CHECK(read_record(text, kTornFile)->torn);
  const Mended mended = mend_text(text, kTornFile, false);
  CHECK(mended.moved == "[entriet]\n");
  CHECK(mended.done == std::vector<std::string>{"put the line [entries] back"});
  CHECK(mended.text == with_entry(sound_line()));
}

TEST_CASE("a foreign file is not touched") {
  const Mended mended = mend_text("a = 1\n", kTornFile, true);
  CHECK(mended.text == "a = 1\n");
  CHECK(mended.done.empty());
  CHECK(mended.left.front().code == "record-foreign");
}
