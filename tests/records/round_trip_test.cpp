// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include "base/quantity_text.h"
#include "records/crc32c.h"
#include "records/fields.h"
#include "records/lines.h"
#include "records/read.h"
#include "records/write.h"
#include "records/write_planned.h"
#include "samples.h"

using namespace loopledger;
using namespace loopledger::records;
using namespace loopledger::test;

TEST_CASE("the checksum is CRC-32C: the check value of RFC 3720's polynomial") {
  CHECK(crc32c("123456789") == 0xE3069283U);
  CHECK(crc32c("") == 0U);
  CHECK(crc32c_text("123456789") == "e3069283");
  // RFC 3720, appendix B.4: 32 bytes of zeroes -> aa 36 91 8a in the order of transmission.
  CHECK(crc32c(std::string(32, '\0')) == 0x8A9136AAU);
}

TEST_CASE("a record says back what it was opened with, every figure") {
  const Planned before = full_planned();
  const auto record = read_record(new_record_text({{"TH", 1}, 'T', before}), "TH-01.toml");
  REQUIRE(record);
  CHECK(record.diagnostics().empty());
  CHECK(record->id == MotorId{"TH", 1});
  CHECK(record->check == 'T');
  CHECK_FALSE(record->planned_edited);
  CHECK_FALSE(record->torn);
  CHECK(record->planned_unknown.empty());
  const Planned& after = record->planned;
  CHECK(planned_lines(after) == planned_lines(before));
  CHECK(after.title == before.title);
  CHECK(after.date == before.date);
  CHECK(after.rule == before.rule);
  CHECK(after.slit);
  CHECK(after.width->in_mm() == doctest::Approx(2.38125).epsilon(1e-12));
  CHECK(after.linear_density.u.in_g_per_m() == doctest::Approx(0.0042).epsilon(1e-12));
  CHECK(after.windows.of(Stage::finished).high->in_g() == doctest::Approx(1.526).epsilon(1e-12));
  CHECK(after.windows.about->in_g() == doctest::Approx(1.53).epsilon(1e-12));
  CHECK(after.turns_max.low.count() == 1234.1);
  CHECK(after.torque_max.high.in_gf_cm() == doctest::Approx(119).epsilon(1e-12));
  CHECK(after.ballast->in_g() == doctest::Approx(0.75));
  REQUIRE(after.break_in.size() == 2);
  CHECK_FALSE(after.break_in[0].turns);
  CHECK(after.break_in[1].cranks == 72);
  CHECK(after.break_in[1].repeat == 2);
  CHECK(after.break_in[1].rest->in_h() == doctest::Approx(1));
}

TEST_CASE("what a small plan leaves out stays out") {
  const auto record = read_record(new_record_text({{"TH", 1}, 'T', small_planned()}), "f");
  REQUIRE(record);
  CHECK(record.diagnostics().empty());
  CHECK_FALSE(record->planned.rule);
  CHECK_FALSE(record->planned.date);
  CHECK_FALSE(record->planned.part);
  CHECK(record->planned.windows.of(Stage::tied) == Window{});
  CHECK(record->planned.break_in.empty());
}

TEST_CASE("every kind of entry is written and read back alike") {
  const std::vector<Entry> before = one_of_each();
  const auto record = read_record(sample_text(), "TH-01.toml");
  REQUIRE(record);
  CHECK(render(record.diagnostics()) == "");
  REQUIRE(record->entries.size() == before.size());
  for (std::size_t i = 0; i < before.size(); ++i) {
    const Entry& after = record->entries[i];
    CAPTURE(after.key);
    CHECK(after.key == before[i].key);
    CHECK(after.kind == before[i].kind);
    CHECK_FALSE(after.edited);
    CHECK(after.unknown.empty());
    CHECK(*entry_line(after) == *entry_line(before[i]));
  }
  CHECK(record->entries[3].temperature->in_deg_c() == doctest::Approx(20));
  CHECK(record->entries[4].pairs[1].torque.in_gf_cm() == doctest::Approx(41));
  CHECK(record->entries[6].flight_time->in_s() == doctest::Approx(451));
}

TEST_CASE("a quantity stays as it was typed for as long as it says the same") {
  Entry e = entry_of("20260501T100000Z-b7k2", Kind::wound,
                     {{"turns", "1200"}, {"torque", "41 gf.cm"}, {"end", "stopped"}});
  const std::string line = *entry_line(e);
  CHECK(
      line.starts_with("\"20260501T100000Z-b7k2\" = { kind = \"wound\", turns = 1200, "
                       "torque = \"41 gf.cm\", end = \"stopped\", sum = \""));
  CHECK(line.ends_with("\" }\n"));
  CHECK(is_sound(take_apart(line.substr(0, line.size() - 1))));
  e.torque = Torque::mnm(4);
  CHECK(entry_line(e)->find("torque = \"4 mN.m\"") != std::string::npos);
}

TEST_CASE("the sum is over the line before it, from its first byte") {
  const Entry e = entry_of("20260501T100000Z-b7k2", Kind::note, {{"text", "a"}});
  const std::string body = R"("20260501T100000Z-b7k2" = { kind = "note", text = "a")";
  CHECK(*entry_line(e) == body + ", sum = \"" + crc32c_text(body) + "\" }\n");
}

TEST_CASE("an entry without what it is about is not written") {
  Entry e;
  e.key = "20260501T100000Z-b7k2";
  e.kind = Kind::weighed;
  const auto line = entry_line(e);
  REQUIRE_FALSE(line);
  CHECK(render(line.diagnostics()) ==
        "error: an entry \"weighed\" needs stage, reading [record-missing]\n");
  e.kind = Kind::other;
  CHECK(entry_line(e).diagnostics().front().code == "record-kind");
  e = entry_of("yesterday", Kind::note, {{"text", "a"}});
  CHECK(entry_line(e).diagnostics().front().code == "record-key");
}
