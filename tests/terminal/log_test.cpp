// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include "ledger_bench.h"
#include "motor/now.h"
#include "motor/typed_entry.h"
#include "motor/words.h"
#include "records/fields.h"
#include "records/read.h"
#include "records/write.h"
#include "support/done.h"

using namespace loopledger;
using namespace loopledger::test;
using records::Entry;
using records::Kind;

namespace {

Entry understood(const std::string& kind, const std::vector<std::string>& words) {
  auto entry = motor::entry_from_words(kind, words);
  REQUIRE_MESSAGE(entry.ok(), render(entry.diagnostics()));
  return *entry;
}

std::string refused(const std::string& kind, const std::vector<std::string>& words) {
  const auto entry = motor::entry_from_words(kind, words);
  REQUIRE_FALSE(entry.ok());
  return render(entry.diagnostics());
}

/// Any value of a field, as it is typed.
struct Sample {
  std::string operator()(std::optional<Stage> Entry::*) const { return "tied"; }
  std::string operator()(std::optional<Mass> Entry::*) const { return "1.5 g"; }
  std::string operator()(std::optional<Length> Entry::*) const { return "301 mm"; }
  std::string operator()(std::optional<int> Entry::*) const { return "2"; }
  std::string operator()(std::optional<Turns> Entry::*) const { return "903"; }
  std::string operator()(std::optional<Torque> Entry::*) const { return "20 gf.cm"; }
  std::string operator()(std::vector<records::TurnsTorque> Entry::*) const {
    return "900: 30 gf.cm, 700: 20 gf.cm";
  }
  std::string operator()(std::optional<WindEnd> Entry::*) const { return "solid"; }
  std::string operator()(std::optional<Temperature> Entry::*) const { return "21 degC"; }
  std::string operator()(std::optional<BreakPlace> Entry::*) const { return "knot"; }
  std::string operator()(std::optional<Duration> Entry::*) const { return "7:31"; }
  std::string operator()(std::string Entry::*) const { return "some words"; }
};

}  // namespace

TEST_CASE("show, log and bench have words for every field of an entry") {
  for (const std::string_view name : records::kind_words()) {
    const Kind kind = *records::kind_from(name);
    for (const records::Field& field : records::fields_of(kind)) {
      Entry without;
      without.kind = kind;
      Entry with = without;
      REQUIRE(records::set_field(with, field, std::visit(Sample{}, field.member)).empty());
      const bool is_marked_elsewhere = field.name == "corrects";
      CHECK_MESSAGE((is_marked_elsewhere || motor::in_words(with, Units::metric) !=
                                                motor::in_words(without, Units::metric)),
                    name << " " << field.name);
    }
  }
}

TEST_CASE("log adds an entry, says whose motor it takes it for and what it understood") {
  const LedgerBench ledger;
  done(ledger({"log", "th1", "tied", "loop=366 mm"}));
  const Ran ran = ledger({"log", "th1", "wound", "turns=1200", "torque=41 gf.cm", "end=stopped"});
  CHECK(ran.code == 0);
  CHECK(ran.err == "no check character typed: taken for TH-01-J: ANNA, for Heron\n");
  CHECK(has(ledger.told(ran.out),
            "TH-01-J: ANNA, for Heron\n"
            "  20260501T100000Z-????  wound to 1200 turns at 41 gf.cm, stopped\n"));
  CHECK(
      has(ledger.last_line(),
          "{ kind = \"wound\", turns = 1200, torque = \"41 gf.cm\", end = \"stopped\", sum = \""));
}

TEST_CASE("with a right check character nothing needs to be said about whose motor it is") {
  const LedgerBench ledger;
  const Ran ran = ledger({"log", "TH-01-J", "note", "ran", "smoothly"});
  CHECK(ran.code == 0);
  CHECK(ran.err.empty());
  CHECK(has(ledger.last_line(), "text = \"ran smoothly\""));
}

TEST_CASE("a wrong check character adds nothing") {
  const LedgerBench ledger;
  const std::string before = ledger.record();
  const Ran ran = ledger({"log", "TH-01-X", "note", "x"});
  CHECK(ran.code == 1);
  CHECK(has(ran.err, "[id-check]"));
  CHECK(ledger.record() == before);
}

TEST_CASE("an id that the ledger does not hold is exit code 4, with the nearest that it does") {
  const LedgerBench ledger;
  const Ran ran = ledger({"log", "th9", "note", "x"});
  CHECK(ran.code == 4);
  CHECK(ledger.told(ran.err) ==
        "error: the ledger in DIR/records holds no TH-09 [none-record]\n"
        "  hint: did you mean TH-01?\n");
}

TEST_CASE("a reading is judged as it is logged") {
  const LedgerBench ledger;
  const Ran over = ledger({"log", "th1", "weighed", "washed", "1.520"});
  CHECK(over.code == 0);
  CHECK(has(over.out, "weighed washed: 1.520 g\n"));
  CHECK(has(over.out, " over its window: snip "));
  CHECK(has(over.out, "20 mg over the limit"));
  const Ran inside = ledger({"log", "th1", "weighed", "washed", "1.497", "g"});
  CHECK(has(inside.out, "within its window; counted 1.497 g, 3 mg under the limit"));
  const Ran tied = ledger({"log", "th1", "tied", "367 mm", "1.503 g", "--sure"});
  CHECK(has(tied.out, "tied minus washed 6 mg, rings and glue 12 mg: 1 ring forgotten?\n"));
  CHECK(has(tied.out, "it is now tied\n"));
}

TEST_CASE("break-in tells the growth of the loop and where to wind to") {
  const LedgerBench ledger;
  done(ledger({"log", "th1", "tied", "loop=360 mm"}));
  const Ran ran = ledger({"log", "th1", "break_in", "step=1", "loop_after=374.4 mm"});
  CHECK(ran.code == 0);
  CHECK(has(ran.out, "set +4.0 %; wind to "));
  CHECK(has(ran.out, "it is now broken in\n"));
}

TEST_CASE("an entry is corrected by the last characters of its key") {
  const LedgerBench ledger;
  done(ledger({"log", "th1", "tied", "loop=366 mm"}));
  done(ledger({"log", "th1", "wound", "1200"}));
  const std::string key = ledger.last_line().substr(1, 21);
  const Ran ran = ledger({"log", "th1", "wound", "1020", "corrects=" + key.substr(17)});
  REQUIRE(ran.code == 0);
  CHECK(has(ledger.last_line(), "turns = 1020, corrects = \"" + key + "\""));
  const Ran lost = ledger({"log", "th1", "wound", "1020", "corrects=!!!!"});
  CHECK(lost.code == 1);
  CHECK(has(lost.err, "TH-01 has no entry to correct with the key \"!!!!\" [log-corrects]"));
}

TEST_CASE("--at sets the claimed time, and a wrong one is an error") {
  const LedgerBench ledger;
  done(ledger({"log", "th1", "tied", "loop=366 mm", "--at", "2026-04-10 20:00"}));
  CHECK(ledger({"log", "th1", "flown", "7:31", "--at", "2026-04-12 15:20"}).code == 0);
  CHECK(ledger.last_line().starts_with("\"20260412T152000Z-"));
  const Ran ran = ledger({"log", "th1", "flown", "7:31", "--at", "tuesday"});
  CHECK(ran.code == 1);
  CHECK(has(ran.err, "expected a time such as \"2026-05-01 10:00\", found \"tuesday\" [log-at]"));
}

TEST_CASE("log --json gives id, key and what follows, as it is printed") {
  const LedgerBench ledger;
  done(ledger({"log", "th1", "tied", "loop=366 mm"}));
  const Ran ran = ledger({"log", "th1", "flown", "7:31", "--json"});
  CHECK(ledger.told(ran.out) ==
        "{\n  \"format\": 1,\n  \"id\": \"TH-01\",\n  \"key\": \"20260501T100000Z-????\",\n"
        "  \"consequences\": [\"it is now flown\"]\n}\n");
  const Ran note = ledger({"log", "th1", "note", "dry", "--json"});
  CHECK(has(note.out, "\"consequences\": []"));
}

TEST_CASE("values alone are told apart by their units and words") {
  Entry e = understood("wound", {"1200", "41", "gf.cm", "stopped", "21", "degC"});
  CHECK(e.turns == Turns::of(1200));
  CHECK(e.torque->in_gf_cm() == doctest::Approx(41));
  CHECK(e.end == WindEnd::stopped);
  CHECK(e.temperature == Temperature::deg_c(21));
  e = understood("wound", {"turns=1200", "torque=41", "gf.cm"});
  CHECK(e.torque->in_gf_cm() == doctest::Approx(41));
  e = understood("tied", {"303", "mm", "1.507"});
  CHECK(e.loop->in_mm() == doctest::Approx(303));
  CHECK(e.reading->in_g() == doctest::Approx(1.507));
  e = understood("weighed", {"As-Cut", "1512", "mg"});
  CHECK(e.stage == Stage::as_cut);
  CHECK(e.reading->in_g() == doctest::Approx(1.512));
  e = understood("flown", {"time", "7:31", "turns_left", "210"});
  CHECK(e.flight_time->in_s() == doctest::Approx(451));
  CHECK(e.turns_left == Turns::of(210));
  e = understood("broke", {"1310", "knot"});
  CHECK(e.where == BreakPlace::knot);
  e = understood("retired", {"perished", "at", "the", "knot"});
  CHECK(e.text == "perished at the knot");
  e = understood("note", {"a=b", "is", "no", "field"});
  CHECK(e.text == "a=b is no field");
}

TEST_CASE("misspelt kinds and fields get the nearest known one") {
  CHECK(
      refused("wuond", {}) ==
      "error: expected a kind of entry, found \"wuond\" [log-kind]\n"
      "  hint: did you mean \"wound\"? kinds are: planned, weighed, tied, break_in, wound, broke, "
      "flown, labelled, piece, note, retired\n");
  CHECK(
      refused("wound", {"1200", "tourqe=41 gf.cm"}) ==
      "error: an entry \"wound\" has no field \"tourqe\" [log-field]\n"
      "  hint: did you mean \"torque\"? its fields are: turns, torque, pairs, end, backed_off_to, "
      "temperature, note, corrects\n");
  CHECK(has(refused("flown", {"7:31", "temp=20 degC"}), "did you mean \"temperature\"?"));
}

TEST_CASE("what does not fit is refused with what was expected") {
  CHECK(refused("weighed", {"washed"}) ==
        "error: an entry \"weighed\" needs reading [record-missing]\n"
        "  hint: for example: weighed washed 1.774\n");
  CHECK(has(refused("weighed", {"washed", "stage=tied", "1 g"}),
            "stage is given twice [log-twice]\n  hint: leave one of them out"));
  CHECK(has(refused("wound", {"turns=many"}),
            "expected turns from 0 to 100000 turns, found \"many\" [field-range]"));
  CHECK(has(refused("wound", {"1200", "end=brok"}), "hint: did you mean \"broke\"?"));
  CHECK(has(refused("wound", {"1200", "torque=41"}), "[quantity-unit]"));
  CHECK(has(refused("wound", {"-5"}), "[log-word]"));
  CHECK(has(refused("flown", {"7:31", "temperature=500 degC"}), "[field-range]"));
  CHECK(has(refused("note", {"\xff"}), "[field-text]"));
}

TEST_CASE("every example that log gives is understood") {
  for (const std::string_view name : records::kind_words()) {
    const Kind kind = *records::kind_from(name);
    std::vector<std::string> words;
    std::string word;
    bool quoted = false;
    for (const char c : std::string(records::example_of(kind)) + ' ') {
      quoted = c == '"' ? !quoted : quoted;
      if (c == ' ' && !quoted) {
        words.push_back(word);
        word.clear();
      } else if (c != '"') {
        word += c;
      }
    }
    CHECK_MESSAGE(motor::entry_from_words(words[0], {words.begin() + 1, words.end()}).ok(), name);
  }
}

TEST_CASE("turns and readings that can hardly be true are stored only with --sure") {
  const LedgerBench ledger;
  const std::string before = ledger.record();
  const Ran turns = ledger({"log", "th1", "wound", "8000", "9 gf.cm"});
  CHECK(turns.code == 1);
  CHECK(has(turns.err, "error: TH-01: 8000 turns is past the "));
  CHECK(has(turns.err, "at which nearly all would have broken [log-doubt]"));
  CHECK(has(turns.err, "hint: if it is so all the same, say it with --sure"));
  CHECK(has(ledger({"log", "th1", "weighed", "washed", "14.97"}).err, "is ten times off"));
  const std::string file =
      ledger.folder.write("evening.csv", "id,kind,turns\nth2,wound,1000\nth1,wound,8000\n");
  const Ran all = ledger({"log", "--from", file});
  CHECK(all.code == 1);
  CHECK(has(all.err, "evening.csv:3:1: error: TH-01: 8000 turns is past the "));
  CHECK(ledger.record() == before);
  CHECK(ledger({"log", "th1", "wound", "8000", "9 gf.cm", "--sure"}).code == 0);
  CHECK(ledger({"log", "--from", file, "--sure"}).code == 0);
}

TEST_CASE("what was logged a moment ago is told, with how to take it back") {
  const LedgerBench ledger;
  done(ledger({"log", "th1", "tied", "loop=366 mm"}));
  done(ledger({"log", "th2", "tied", "loop=366 mm", "--at", "2026-03-01 20:00"}));
  CHECK_FALSE(has(done(ledger({"log", "th1", "wound", "1000"})).err, "[log-again]"));
  const Ran again = ledger({"log", "th1", "wound", "1000"});
  CHECK(again.code == 0);
  CHECK(has(again.err, "warning: TH-01: the same as the entry of 2026-05-01 10:00"));
  CHECK(has(again.err, "`loopledger log TH-01 note twice corrects="));
  const std::string key = ledger.last_line().substr(ledger.last_line().find("Z-") + 2, 4);
  CHECK(ledger({"log", "th1", "note", "twice", "corrects=" + key}).code == 0);
  CHECK(has(ledger({"show", "th1"}).out, "1 winding ("));
  const Ran other_day = done(ledger({"log", "th1", "wound", "1000", "--at", "2026-05-02 10:00"}));
  CHECK_FALSE(has(other_day.err, "[log-again]"));
  // A file whose entries have no time, read twice.
  const std::string file = ledger.folder.write("evening.csv", "id,kind,turns\nth2,wound,900\n");
  CHECK_FALSE(has(done(ledger({"log", "--from", file})).err, "[log-again]"));
  CHECK(has(ledger({"log", "--from", file, "--at", "2026-04-01 10:00"}).err, "[log-again]"));
}

TEST_CASE("log takes cranks as turns by today's winder, not by the one of the record") {
  const LedgerBench ledger;
  done(ledger({"log", "th1", "tied", "loop=366 mm"}));
  const auto cranks = [&](std::vector<std::string> words, const char* ratio) {
    words.insert(words.begin(), {"log", "th1", "wound"});
    words.insert(words.end(), {"--winder-ratio", ratio});
    return ledger(words).out;
  };
  CHECK(has(cranks({"98", "cranks", "41 gf.cm"}, "10"), "wound to 980 turns at 41 gf.cm"));
  CHECK(has(cranks({"99 cranks"}, "10"), "wound to 990 turns"));
  CHECK(has(cranks({"turns=97 cranks"}, "10"), "wound to 970 turns"));
  CHECK(has(cranks({"cranks=96"}, "10"), "wound to 960 turns"));
  CHECK(has(cranks({"cranks", "60", "41 gf.cm"}, "15"), "wound to 900 turns at 41 gf.cm"));
  const Ran unknown = ledger({"log", "th1", "wound", "cranks=96"});
  CHECK(unknown.code == 1);
  CHECK(has(unknown.err, "[log-cranks]"));
  CHECK(has(unknown.err, "--winder-ratio 10, or LOOPLEDGER_WINDER_RATIO=10"));
  const auto by_variable = [&](const char* ratio) {
    return run({"log", "th1", "wound", "cranks=95", "--records", ledger.folder.path("records")}, {},
               {{"LOOPLEDGER_WINDER_RATIO", ratio}});
  };
  CHECK(has(by_variable("10").out, "wound to 950 turns"));
  CHECK(has(by_variable("ten").err, "expected a number from 0.1 to 100, found \"ten\""));
  const std::string file = ledger.folder.write("e.csv", "id,kind,cranks\nth1,wound,94\n");
  CHECK(has(ledger({"log", "--from", file, "--winder-ratio", "10"}).out, "wound to 940 turns"));
}

TEST_CASE("a motor that broke is not told how many turns are left") {
  const LedgerBench ledger;
  done(ledger({"log", "th1", "tied", "loop=366 mm"}));
  const Ran ran = done(ledger({"log", "th1", "wound", "1000", "end=broke"}));
  CHECK(has(ran.out, "it is now retired"));
  CHECK_FALSE(has(ran.out, "left before"));
}

TEST_CASE("a correction is held against the other windings, not against what it corrects") {
  const LedgerBench ledger;
  done(ledger({"log", "th1", "tied", "loop=366 mm"}));
  done(ledger({"log", "th1", "wound", "991"}));
  done(ledger({"log", "th1", "wound", "1050"}));
  const std::string key = ledger.last_line().substr(1, 21);
  const Ran ran = ledger({"log", "th1", "wound", "1060", "corrects=" + key.substr(17)});
  CHECK(has(ran.out, "more than ever before: 991 turns\n"));
}

TEST_CASE("of a retired motor no turns are left to wind, and log says why") {
  const LedgerBench ledger;
  done(ledger({"log", "th1", "retired", "frayed"}));
  for (const auto& words : {std::vector<std::string>{"log", "th1", "wound", "900"},
                            {"log", "th1", "break_in", "loop_after=377 mm"},
                            {"log", "th1", "flown", "7:31"}}) {
    CHECK(has(ledger(words).err, "it is retired; if it has a new knot"));
    std::vector<std::string> sure = words;
    sure.emplace_back("--sure");
    const Ran ran = ledger(sure);
    CHECK(ran.code == 0);
    CHECK(has(ran.out, "it is retired, not to be wound; log it tied again when it has a new"));
    CHECK_FALSE(has(ran.out, "turns left before"));
    CHECK_FALSE(has(ran.out, "wind to"));
  }
}

TEST_CASE("a correction says what it replaces and at what time it counts") {
  const LedgerBench ledger;
  const auto at = [&](std::vector<std::string> words, const char* time) {
    words.insert(words.begin(), {"log", "th1"});
    words.insert(words.end(), {"--at", time});
    REQUIRE(ledger(words).code == 0);
    return ledger.last_line().substr(1, 21);
  };
  const auto corrects = [&](std::vector<std::string> words, const std::string& key) {
    words.insert(words.begin(), {"log", "th1"});
    words.push_back("corrects=" + key);
    return ledger(words);
  };
  (void)at({"tied", "loop=366 mm"}, "2026-04-10 20:00");
  const std::string first = at({"wound", "980"}, "2026-04-12 10:00");
  const Ran slip = corrects({"wound", "1450"}, first);
  CHECK(has(slip.out, "  replaces wound to 980 turns; counts at its time, 2026-04-12 10:00\n"));
  const std::string second = ledger.last_line().substr(1, 21);
  CHECK(has(corrects({"wound", "1045"}, first).out, "  replaces wound to 1450 turns; counts at"));
  const std::string third = ledger.last_line().substr(1, 21);
  CHECK(third.substr(0, 16) >= second.substr(0, 16));
  const Ran back = corrects({"note", "it was 1450"}, third);
  CHECK(has(back.out, "takes back: wound to 1045 turns; counts again: wound to 1450 turns\n"));
  const std::string note = ledger.last_line().substr(1, 21);
  CHECK(has(corrects({"note", "it was not"}, note).out, "counts again: wound to 1045 turns\n"));
  CHECK(has(corrects({"note", "another motor"}, first).out, "takes back: wound to 980 turns\n"));
}

TEST_CASE("a correction never stands before another one of the same entry") {
  const LedgerBench ledger;
  done(ledger({"log", "th1", "tied", "loop=366 mm"}));
  done(ledger({"log", "th1", "wound", "980"}));
  const std::string key = ledger.last_line().substr(1, 21);
  done(ledger({"log", "th1", "wound", "1450", "corrects=" + key}));
  // A clock that went back: the slip's correction was typed on another computer, ahead by a day.
  std::string text = ledger.record();
  const std::string line = ledger.last_line();
  const std::string later =
      "\"20260502T100000Z-aaaa\" = { kind = \"wound\", turns = 1450, corrects = \"" + key + "\"";
  ledger.folder.write("records/TH-01.toml", text.substr(0, text.size() - line.size()));
  {
    const std::string body = later;
    ledger.folder.write("records/TH-01.toml", ledger.record() + records::summed_line(body));
  }
  CHECK(ledger({"log", "th1", "wound", "1045", "corrects=" + key}).code == 0);
  CHECK(ledger.last_line().starts_with("\"20260502T100000Z-"));
  const auto record = records::read_record(ledger.record(), "TH-01.toml");
  REQUIRE(record);
  const auto best = motor::now_of(*record).best;
  REQUIRE(best);
  CHECK(best->turns == Turns::of(1045));
}

TEST_CASE("a time of its own is refused with a correction") {
  const LedgerBench ledger;
  done(ledger({"log", "th1", "tied", "loop=366 mm"}));
  const std::string key = ledger.last_line().substr(1, 21);
  const std::string before = ledger.record();
  const Ran ran =
      ledger({"log", "th1", "tied", "loop=365 mm", "corrects=" + key, "--at", "2026-04-12 10:00"});
  CHECK(ran.code == 1);
  CHECK(has(ran.err, "a correction stands at the time of what it replaces"));
  const std::string file = ledger.folder.write(
      "e.csv", "id,kind,loop,at,corrects\nth1,tied,365 mm,2026-04-12 10:00," + key + "\n");
  CHECK(has(ledger({"log", "--from", file}).err, "[log-corrects]"));
  CHECK(ledger.record() == before);
}

TEST_CASE("a new knot is told, with what to do if it was only measured again") {
  const LedgerBench ledger;
  done(ledger({"log", "th1", "tied", "loop=366 mm"}));
  done(ledger({"log", "th1", "wound", "1050"}));
  const Ran shorter = done(ledger({"log", "th1", "tied", "loop=300 mm"}));
  CHECK(has(shorter.out,
            "a new knot: best 1050, the loop of 366 mm, 1 winding of before are history\n"));
  CHECK_FALSE(has(shorter.out, "measured again"));
  done(ledger({"log", "th1", "wound", "900"}));
  const Ran again = ledger({"log", "th1", "tied", "loop=301 mm"});
  CHECK(has(again.out, "if it was only measured again, take it back: `loopledger log TH-01 note"));
  CHECK(has(again.out, "break_in loop_after="));
}
