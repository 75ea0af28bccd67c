// SPDX-License-Identifier: MIT
#include "motor/entry_checks.h"

#include "one_motor.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

Entry winding(const std::string& turns, const std::string& key = {}) {
  Entry e;
  e.kind = Kind::wound;
  e.key = key;
  REQUIRE(records::set_field(e, *records::find_field(Kind::wound, "turns"), turns).empty());
  return e;
}

Entry correcting(const std::string& what) {
  Entry e = winding("900");
  e.corrects = what;
  return e;
}

/// "aaaa", then "bbbb" and so on.
std::function<std::string()> letters() {
  return [next = 'a']() mutable { return std::string(4, next++); };
}

}  // namespace

TEST_CASE("a correction may name a key by its end, and gets it whole") {
  Motor motor;
  const std::string key = motor.log(Kind::wound, {{"turns", "800"}});
  Entry by_end = correcting(key.substr(key.size() - 4));
  CHECK(motor::resolve_correction(by_end, motor.record(), false).empty());
  CHECK(by_end.corrects == key);
  Entry whole = correcting(key);
  CHECK(motor::resolve_correction(whole, motor.record(), false).empty());
  CHECK(whole.corrects == key);
  Entry plain = winding("900");
  CHECK(motor::resolve_correction(plain, motor.record(), true).empty());
}

TEST_CASE("a correction of nothing, of two entries or with a time of its own is refused") {
  Motor motor;
  const std::string key = motor.log(Kind::wound, {{"turns", "800"}});
  Entry none = correcting("zzzz");
  CHECK(motor::resolve_correction(none, motor.record(), false).front().message ==
        "AB-01 has no entry to correct with the key \"zzzz\"");
  Entry timed = correcting(key);
  CHECK(motor::resolve_correction(timed, motor.record(), true).front().code == "log-corrects");
  motor.log(Kind::wound, {{"turns", "810"}});
  motor.last().key = "20260301T000000Z" + key.substr(key.size() - 5);
  Entry twice = correcting(key.substr(key.size() - 4));
  CHECK(motor::resolve_correction(twice, motor.record(), false)
            .front()
            .message.starts_with("AB-01 has several entries to correct with the key"));
}

TEST_CASE("a key is new, and stands behind all that was logged unless somebody says when it was") {
  Motor motor;
  const Moment first = midnight_utc({2026, 2, 1});
  motor.log(Kind::tied, {{"loop", "282 mm"}});
  motor.last().key = records::make_key(first, "aaaa");
  const auto key = [&](Moment at, bool claimed) {
    return motor::new_key(at, claimed, winding("900"), motor.record(), letters());
  };
  CHECK(key(first, false) == records::make_key(first, "bbbb"));
  const Moment before{first.seconds - 60};
  CHECK(key(before, false) == records::make_key(first, "bbbb"));
  CHECK(key(before, true) == records::make_key(before, "aaaa"));
  const Moment later{first.seconds + 60};
  CHECK(key(later, false) == records::make_key(later, "aaaa"));
}

TEST_CASE(
    "a line that was changed by hand moves no key, and a correction stands behind the others") {
  Motor motor;
  const std::string wrong = motor.log_on(1, Kind::wound, {{"turns", "800"}});
  motor.log_on(9, Kind::wound, {{"turns", "810"}, {"corrects", wrong}});
  const Moment third = midnight_utc({2026, 2, 3});
  const std::string claimed =
      motor::new_key(third, true, correcting(wrong), motor.record(), letters());
  CHECK(records::moment_of_key(claimed) == midnight_utc({2026, 2, 9}));
  const auto plain = [&] {
    return records::moment_of_key(
        motor::new_key(third, false, winding("900"), motor.record(), letters()));
  };
  CHECK(plain() == midnight_utc({2026, 2, 9}));
  motor.last().edited = true;
  CHECK(plain() == third);
}

TEST_CASE("the same again is known by kind, words and time, in this life only") {
  Motor motor;
  motor.log_on(1, Kind::tied, {{"loop", "282 mm"}});
  const std::string key = motor.log_on(2, Kind::wound, {{"turns", "900"}});
  const Moment then = midnight_utc({2026, 2, 2});
  const auto said = [&](const Entry& e, const std::optional<Moment>& at) {
    return motor::said_before(motor.record(), e, at);
  };
  const Moment soon{then.seconds + 600};
  REQUIRE(said(winding("900"), soon) != nullptr);
  CHECK(said(winding("900"), soon)->key == key);
  CHECK(said(winding("900"), std::nullopt) != nullptr);
  CHECK(said(winding("901"), soon) == nullptr);
  CHECK(said(winding("900"), Moment{then.seconds + 601}) == nullptr);
  CHECK(said(correcting(key), soon) == nullptr);
  Entry weighed;
  weighed.kind = Kind::weighed;
  CHECK(said(weighed, std::nullopt) == nullptr);
  const Diagnostics warned =
      motor::again_warning(motor.record(), winding("900", "20260202T000100Z-b7k2"), soon);
  REQUIRE(warned.size() == 1);
  CHECK(warned[0].message == "AB-01: the same as the entry of 2026-02-02 00:00, counted twice");
  CHECK(warned[0].hint == "`loopledger log AB-01 note twice corrects=b7k2` takes it back");
  motor.log_on(3, Kind::tied, {{"loop", "250 mm"}});
  CHECK(said(winding("900"), std::nullopt) == nullptr);
}

TEST_CASE("each doubt refuses, with what to type or how to insist") {
  const std::vector<motor::Doubt> doubts{
      {motor::Slip::unit, "a loop of 282 cm", "looks like 282 mm", "282 mm", "282 mm"},
      {motor::Slip::retired, "", "it is retired", "", ""}};
  const Diagnostics refused = motor::doubt_refusal({"AB", 1}, doubts);
  REQUIRE(refused.size() == 2);
  CHECK(refused[0].code == "log-doubt");
  CHECK(refused[0].message == "AB-01: a loop of 282 cm looks like 282 mm");
  CHECK(refused[0].hint == "type 282 mm; if it is so all the same, say it with --sure");
  CHECK(refused[1].hint == "if it is so all the same, say it with --sure");
  CHECK(motor::doubt_refusal({"AB", 1}, {}).empty());
}
