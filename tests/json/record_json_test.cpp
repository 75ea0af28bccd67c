// SPDX-License-Identifier: MIT
#include "json/record_json.h"

#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "records/fields.h"
#include "records/samples.h"
#include "support/has.h"

using namespace loopledger;
using namespace loopledger::test;
using json::Json;
using records::Kind;

namespace {

/// Whether an object has that member, written as it stands in one line.
bool holds(const Json& object, const std::string& member) { return has(object.compact(), member); }

std::string line_of(Kind kind, const std::vector<std::pair<std::string, std::string>>& fields) {
  return json::entry_json(entry_of("20260501T100000Z-aaaa", kind, fields)).compact();
}

const std::string kBegin = R"({"key": "20260501T100000Z-aaaa", "kind": ")";
const std::string kEnd = R"(, "edited": false, "line": 0})";

records::Record small_record() {
  records::Record record;
  record.id = {"TH", 1};
  record.planned = small_planned();
  return record;
}

}  // namespace

TEST_CASE("figures as planned: every key with its unit, its value in that unit") {
  const Json full = json::planned_json(full_planned());
  for (const char* member : {R"("owner": "ANNA")",
                             R"("for": "Heron")",
                             R"("plan_date": "2026-01-31")",
                             R"("rule": "hall")",
                             R"("strip": "supple 1/8")",
                             R"("lot": "May")",
                             R"("piece": "a")",
                             R"("strands": 2)",
                             R"("linear_density_g_per_m": 2.4263)",
                             R"("linear_density_u_g_per_m": 0.0042)",
                             R"("limit_g": 1.5)",
                             R"("aim_g": 1.4935)",
                             R"("tails_mm": 20)",
                             R"("cut_mm": 625.54)",
                             R"("cut_u_mm": 1.07)",
                             R"("stays_mm": 615.54)",
                             R"("loop_mm": 299.77)",
                             R"("hooks_mm": 260)",
                             R"("width_mm": 2.381)",
                             R"("slit": true)",
                             R"("section_mm2": 5.2178)",
                             R"("turns_max": 1443.6)",
                             R"("turns_max_low": 1234.1)",
                             R"("turns_max_high": 1688.7)",
                             R"("wind_to_turns": 1154.9)",
                             R"("recipe": "gentle")",
                             R"("part": 0.5)",
                             R"("spacer_mm": 130)",
                             R"("ballast_g": 0.75)"}) {
    CHECK_MESSAGE(holds(full, member), std::string(member) << " in " << full.compact());
  }
  for (const char* key : {"mm_per_mg", "loop_broken_in_mm", "slack_mm", "torque_max_mNm",
                          "torque_max_low_mNm", "torque_max_high_mNm"}) {
    CHECK_MESSAGE(holds(full, std::string("\"") + key + "\": "), key);
    CHECK_MESSAGE(!holds(full, std::string("\"") + key + "\": null"), key);
  }
}

TEST_CASE("windows by stage, what is open is null; as cut has what the whole strip should read") {
  CHECK(holds(json::planned_json(full_planned()),
              R"("stages": {"as_cut": {"low_g": 1.521, "about_g": 1.53}, )"
              R"("washed": {"low_g": 1.492, "high_g": 1.495, "guard_mg": 1.21}, )"
              R"("tied": {"low_g": 1.505, "high_g": 1.508, "guard_mg": 1.3}, )"
              R"("finished": {"low_g": 1.523, "high_g": 1.526, "guard_mg": 2.5}})"));
  CHECK(
      holds(json::planned_json(small_planned()), R"("as_cut": {"low_g": null, "about_g": null})"));
  CHECK(holds(json::planned_json(small_planned()),
              R"("tied": {"low_g": null, "high_g": null, "guard_mg": null})"));
}

TEST_CASE("break-in steps: what a step does not say is null") {
  const std::string text = json::planned_json(full_planned()).compact();
  CHECK(has(text, R"("break_in": [{"stretch_mm": 1500, "turns": null, "cranks": null, )"
                  R"("stop_torque_mNm": null, "stop_torque_low_mNm": null, )"
                  R"("stop_torque_high_mNm": null, "hold_s": 300, "rest_s": null, "repeat": 1, )"
                  R"("note": null}, {"stretch_mm": null, "turns": 721.8, "cranks": 72, )"
                  R"("stop_torque_mNm": 5.36)"));
  CHECK(has(text, R"("hold_s": 120, "rest_s": 3600, "repeat": 2, "note": null}])"));
}

TEST_CASE("what a plan did not give is null, and a full motor has no keys of a part motor") {
  const Json small = json::planned_json(small_planned());
  for (const char* key : {"owner", "for", "plan_date", "rule", "lot", "piece", "limit_g",
                          "hooks_mm", "slack_mm", "width_mm", "recipe"}) {
    CHECK_MESSAGE(holds(small, std::string("\"") + key + "\": null"), key);
  }
  CHECK(holds(small, R"("break_in": [])"));
  for (const char* key : {"\"part\"", "\"spacer_mm\"", "\"ballast_g\""}) {
    CHECK_MESSAGE(!holds(small, key), key);
  }
}

TEST_CASE("an entry of each kind: its fields in their order, each with its unit in the key") {
  CHECK(line_of(Kind::planned, {{"note", "first sheet"}}) ==
        kBegin + R"(planned", "note": "first sheet")" + kEnd);
  CHECK(line_of(Kind::weighed, {{"stage", "as cut"}, {"reading", "1.561 g"}}) ==
        kBegin + R"(weighed", "stage": "as_cut", "reading_g": 1.561)" + kEnd);
  CHECK(line_of(Kind::tied, {{"loop", "28.3 cm"}, {"reading", "1.497 g"}}) ==
        kBegin + R"(tied", "loop_mm": 283, "reading_g": 1.497)" + kEnd);
  CHECK(line_of(Kind::break_in, {{"step", "2"},
                                 {"turns", "700"},
                                 {"torque", "5 mN.m"},
                                 {"loop_before", "283 mm"},
                                 {"loop_after", "290 mm"},
                                 {"temperature", "21 degC"}}) ==
        kBegin + R"(break_in", "step": 2, "turns": 700, "torque_mNm": 5, "loop_before_mm": 283, )" +
            R"("loop_after_mm": 290, "temperature_degC": 21)" + kEnd);
  CHECK(line_of(Kind::wound, {{"turns", "1000"},
                              {"torque", "5 mN.m"},
                              {"pairs", "800: 3 mN.m, 900: 4 mN.m"},
                              {"end", "solid"},
                              {"backed_off_to", "950"}}) ==
        kBegin + R"(wound", "turns": 1000, "torque_mNm": 5, "pairs": [{"turns": 800, )" +
            R"("torque_mNm": 3}, {"turns": 900, "torque_mNm": 4}], "end": "solid", )" +
            R"("backed_off_to": 950)" + kEnd);
  CHECK(line_of(Kind::broke, {{"turns", "1100"}, {"where", "knot"}}) ==
        kBegin + R"(broke", "turns": 1100, "where": "knot")" + kEnd);
  CHECK(line_of(Kind::flown, {{"time", "2:31"}, {"turns_left", "120"}}) ==
        kBegin + R"(flown", "time_s": 151, "turns_left": 120)" + kEnd);
  CHECK(line_of(Kind::labelled, {{"tag", "TH-01-J"}}) ==
        kBegin + R"(labelled", "tag": "TH-01-J")" + kEnd);
  CHECK(line_of(Kind::piece, {{"tag", "b"}}) == kBegin + R"(piece", "tag": "b")" + kEnd);
  CHECK(line_of(Kind::note, {{"text", "no"}, {"corrects", "20260131T190000Z-aaaa"}}) ==
        kBegin + R"(note", "text": "no", "corrects": "20260131T190000Z-aaaa")" + kEnd);
  CHECK(line_of(Kind::retired, {{"why", "nick"}}) == kBegin + R"(retired", "why": "nick")" + kEnd);
}

TEST_CASE("fields that are not set have no key at all") {
  for (const std::string_view word : records::kind_words()) {
    const auto kind = records::kind_from(word);
    REQUIRE(kind);
    CHECK(line_of(*kind, {}) == kBegin + std::string(word) + "\"" + kEnd);
  }
}

TEST_CASE("an entry of a newer version keeps its word and what was not understood") {
  records::Entry entry;
  entry.key = "by hand";
  entry.kind = Kind::other;
  entry.kind_text = "soaked";
  entry.unknown = {{"bath", "\"warm\""}};
  entry.edited = true;
  entry.line = 31;
  CHECK(json::entry_json(entry).compact() ==
        R"({"key": "by hand", "kind": "soaked", "unknown": {"bath": "\"warm\""}, )"
        R"("edited": true, "line": 31})");
}

TEST_CASE("advice for a fresh motor: figures as planned, null for all that was never read") {
  const records::Record record = small_record();
  const Json advice = json::advice_json(record, motor::now_of(record), {});
  for (const char* member :
       {R"("loop_mm": 299.77)", R"("loop_is": "planned")", R"("turns_max_low": 1234.)",
        R"("windings": 0)", R"("full_windings": 0)", R"("flights": 0)", R"("knots": 1)",
        R"("marks": [])"}) {
    CHECK_MESSAGE(holds(advice, member), std::string(member) << " in " << advice.compact());
  }
  for (const char* key : {"loop_growth_percent",
                          "best_turns",
                          "best_torque_mNm",
                          "best_date",
                          "best_temperature_degC",
                          "most_turns",
                          "beyond_turns",
                          "rested_s",
                          "recipe_step",
                          "winder_ratio",
                          "cranks",
                          "do_not_pass_cranks",
                          "back_off_turns",
                          "backed_off",
                          "curve",
                          "energy_J",
                          "energy_J_per_g",
                          "full_energy_J_per_g",
                          "energy_change_percent",
                          "washed_g",
                          "tied_g",
                          "finished_g",
                          "mark"}) {
    CHECK_MESSAGE(holds(advice, std::string("\"") + key + "\": null"), key);
  }
}

TEST_CASE("advice for a motor that was wound, on a day with everything asked") {
  records::Record record = small_record();
  record.entries = {
      entry_of("20260201T100000Z-aaaa", Kind::weighed,
               {{"stage", "washed"}, {"reading", "1.493 g"}}),
      entry_of("20260202T100000Z-aaab", Kind::tied, {{"loop", "300 mm"}, {"reading", "1.5 g"}}),
      entry_of("20260203T100000Z-aaac", Kind::break_in, {{"loop_after", "309 mm"}}),
      entry_of("20260204T100000Z-aaad", Kind::wound,
               {{"turns", "1100"}, {"torque", "4 mN.m"}, {"temperature", "25 degC"}})};
  motor::Today today;
  today.now = Moment{records::moment_of_key("20260204T100000Z-aaad")->seconds + 3600};
  today.temperature = Temperature::deg_c(15);
  today.launch = Torque::mnm(3);
  today.let_out = Turns::of(100);
  today.winder_ratio = 10;
  const motor::Now now = motor::now_of(record);
  const Json advice = json::advice_json(record, now, today);
  for (const char* member :
       {R"("loop_mm": 309)", R"("loop_is": "broken_in")", R"("loop_growth_percent": 3)",
        R"("best_turns": 1100)", R"("best_torque_mNm": 4)", R"("best_date": "2026-02-04")",
        R"("best_temperature_degC": 25)", R"("most_turns": 1100)", R"("rested_s": 3600)",
        R"("winder_ratio": 10)", R"("backed_off": {"turns": 1000, "torque_mNm": )",
        R"("energy_lost_share": )", R"("curve": {"own": false, "unwinding": true, "points": [{)",
        R"("energy_change_percent": -8)", R"("windings": 1)", R"("washed_g": 1.493)",
        R"("tied_g": 1.5)", R"("finished_g": null)"}) {
    CHECK_MESSAGE(holds(advice, member), std::string(member) << " in " << advice.compact());
  }
  for (const char* key : {"back_off_turns", "energy_J", "energy_J_per_g", "full_energy_J_per_g",
                          "cranks", "do_not_pass_cranks"}) {
    CHECK_MESSAGE(holds(advice, std::string("\"") + key + "\": "), key);
    CHECK_MESSAGE(!holds(advice, std::string("\"") + key + "\": null"), key);
  }
}

TEST_CASE("advice tells what is not as it should be, in a word and in lines") {
  records::Record record = small_record();
  record.planned_edited = true;
  record.torn = true;
  const Json advice = json::advice_json(record, motor::now_of(record), {});
  CHECK(holds(advice, R"("mark": "RECORD DAMAGED")"));
  CHECK(holds(advice, R"("marks": ["the record ends in a torn line: what it said is lost"])"));
}

TEST_CASE("a whole record: what it is, its figures, its entries, the advice, what was said") {
  records::Record record = small_record();
  record.planned_edited = true;
  record.torn = true;
  record.entries = {entry_of("20260201T100000Z-aaaa", Kind::tied, {{"loop", "300 mm"}})};
  const std::string text =
      json::record_json(record, {}, {warning("record-torn", "torn", "mend it", {"a", 3, 1})})
          .compact();
  CHECK(text.starts_with(R"({"format": 1, "id": "TH-01", "check_char": "J", "state": "tied", )"
                         R"("torn": true, "planned": {"owner": null)"));
  CHECK(has(text, R"("break_in": [], "edited": true}, "entries": [{"key": )"));
  CHECK(has(text, R"("line": 0}], "advice": {"next": ")"));
  CHECK(has(text, R"(, "diagnostics": [{)"));
  CHECK(has(text, R"("code": "record-torn")"));
  CHECK(has(json::record_json(small_record(), {}, {}).compact(), R"("diagnostics": []})"));
}
