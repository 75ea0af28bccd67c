// SPDX-License-Identifier: MIT
//
// One table of slips, three ways in: each is asked back by `log`, by `log --from` and at the bench,
// stores nothing, and is taken when told a second time. And an evening without slips is asked
// nothing, in all three ways.
#include <doctest/doctest.h>

#include "ledger_bench.h"
#include "support/done.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

using Words = std::vector<std::string>;

struct Slip {
  std::string name;
  std::vector<Words> before;  ///< entries of TH-01, taken as they are
  Words words;                ///< kind, then field=value
  const char* said;           ///< that it is likely to be
  const char* type;           ///< what to type instead; empty: nothing is said
};

// TH-01: 1.5 g of 2 g/m as two strands, a loop of 366 mm; the record's winder is 1:10.
const Words kTied{"tied", "loop=366mm"};
const Words kWashed{"weighed", "stage=washed", "reading=1.497g"};

const std::vector<Slip>& slips() {
  static const std::vector<Slip> kSlips{
      {"loop in cm",
       {kWashed},
       {"tied", "loop=366cm"},
       "the mass says about 366 mm, looks like 366 mm",
       "366 mm"},
      {"loop in mm for inches",
       {kWashed},
       {"tied", "loop=14.4mm"},
       "looks like 14.4 in",
       "14.4 in"},
      {"digits swapped", {kWashed}, {"tied", "loop=636mm"}, "two digits swapped", "366mm"},
      {"a loop that the mass does not allow",
       {kWashed},
       {"tied", "loop=478mm"},
       "does not fit: the mass says about 366 mm",
       ""},
      {"a loop off the plan", {}, {"tied", "loop=300mm"}, "is far from the planned 366 mm", ""},
      {"a new knot longer than before",
       {kTied, {"wound", "turns=900"}},
       {"tied", "loop=410mm"},
       "before this knot it was 366 mm",
       ""},
      {"a new knot of hardly anything",
       {kTied, {"wound", "turns=900"}},
       {"tied", "loop=120mm"},
       "before this knot it was 366 mm",
       ""},
      {"shorter after break-in",
       {kTied},
       {"break_in", "loop_after=355mm"},
       "as tied it is 366 mm",
       ""},
      {"far longer after break-in",
       {kTied},
       {"break_in", "loop_after=410mm"},
       "as tied it is 366 mm",
       ""},
      {"another loop before break-in",
       {kTied},
       {"break_in", "loop_before=350mm"},
       "a loop before break-in of 350mm does not fit",
       ""},
      {"no decimal point",
       {},
       {"weighed", "stage=washed", "reading=1498g"},
       "1498 looks like 1.498 g without its point",
       "1.498"},
      {"no decimal point, of a motor that flew",
       {kTied, {"wound", "turns=900"}, {"flown", "time=7:31"}},
       {"weighed", "stage=finished", "reading=1509g"},
       "1509 looks like 1.509 g without its point",
       "1.509"},
      {"ten times off on the scale",
       {},
       {"weighed", "stage=washed", "reading=14.97g"},
       "is ten times off",
       "1.497"},
      {"far off on the scale", {}, {"weighed", "stage=washed", "reading=0.9g"}, "is far off", ""},
      {"a ring forgotten",
       {kWashed, kTied},
       {"weighed", "stage=tied", "reading=1.503g"},
       "1 ring forgotten?",
       ""},
      {"the same reading again",
       {{"weighed", "stage=as_cut", "reading=1.523g"}},
       {"weighed", "stage=as_cut", "reading=1.523g"},
       "is the same as just now: is it washed",
       ""},
      {"over, and the same again",
       {{"weighed", "stage=washed", "reading=1.512g"}},
       {"weighed", "stage=washed", "reading=1.512g"},
       "is the same as just now: was anything snipped off",
       ""},
      {"torque ten times off",
       {kTied},
       {"wound", "turns=1000", "torque=410gf.cm"},
       "ten times off",
       "41 gf.cm"},
      {"a tenth of the torque",
       {kTied, {"wound", "turns=1500", "torque=41gf.cm"}},
       {"wound", "turns=1500", "torque=4.2gf.cm"},
       "is little at 1500 turns: ten times off",
       "42 gf.cm"},
      {"cranks for turns",
       {kTied},
       {"wound", "turns=132"},
       "132 cranks of a winder of 1:10 are 1320",
       "1320"},
      {"turns for cranks",
       {kTied},
       {"wound", "cranks=1050"},
       "1050 cranks are 10500 turns, past the",
       "1050"},
      {"turns past all",
       {kTied},
       {"wound", "turns=8000"},
       "at which nearly all would have broken",
       ""},
      {"wound before it was tied",
       {kWashed},
       {"wound", "turns=900"},
       "not tied yet: log its loop first (tied 366 mm)",
       ""},
      {"flown before it was tied", {}, {"flown", "time=7:31"}, "not tied yet", ""},
      {"pairs beyond the turns",
       {kTied},
       {"wound", "turns=900", "pairs=2000:10gf.cm,900:22gf.cm"},
       "a pair at 2000 turns is beyond the 900 that were wound",
       ""},
      {"backed off beyond",
       {kTied},
       {"wound", "turns=900", "backed_off_to=1000"},
       "backed off to 1000 turns is more than the 900",
       ""},
      {"more left than wound",
       {kTied, {"wound", "turns=900"}},
       {"flown", "time=7:31", "turns_left=950"},
       "950 turns left is more than the 900 that were wound",
       ""},
      {"hours for minutes",
       {kTied},
       {"flown", "time=7h"},
       "is long for a flight: hours for minutes",
       "7:00"},
      {"hours by the clock",
       {kTied},
       {"flown", "time=45:00:00"},
       "is long for a flight: hours for minutes",
       "45:00"},
      {"a retired motor",
       {kTied, {"broke", "turns=900"}},
       {"wound", "turns=800"},
       "it is retired; if it has a new knot",
       ""}};
  return kSlips;
}

class Way {
 public:
  explicit Way(const Slip& slip) : slip_(slip) {
    for (const Words& words : slip.before) {
      Words all{"log", "--sure", "th1"};
      all.insert(all.end(), words.begin(), words.end());
      const Ran ran = ledger(all);
      REQUIRE_MESSAGE(ran.code == 0, ran.err);
    }
    before = ledger.record();
  }
  [[nodiscard]] Ran log(bool sure) const {
    Words all{"log", "th1", "--winder-ratio", "10"};
    all.insert(all.end(), slip_.words.begin(), slip_.words.end());
    if (sure) {
      all.emplace_back("--sure");
    }
    return ledger(all);
  }
  [[nodiscard]] Ran file(bool sure) const {
    std::string head = "id,kind";
    std::string row = "th1," + slip_.words[0];
    for (std::size_t i = 1; i < slip_.words.size(); ++i) {
      const std::size_t equals = slip_.words[i].find('=');
      head += "," + slip_.words[i].substr(0, equals);
      row += ",\"" + slip_.words[i].substr(equals + 1) + "\"";
    }
    Words all{"log", "--winder-ratio", "10", "--from",
              ledger.folder.write("e.csv", head + "\n" + row + "\n")};
    if (sure) {
      all.emplace_back("--sure");
    }
    return ledger(all);
  }
  [[nodiscard]] Ran bench(bool sure) const {
    std::string line = "th1";
    for (const std::string& word : slip_.words) {
      line += " " + word;
    }
    return run({"bench", ledger.folder.path("night.toml")}, line + "\n" + (sure ? "y\n" : ""));
  }

  LedgerBench ledger;
  std::string before;

 private:
  const Slip& slip_;
};

void check_refused(const Way& way, const Ran& ran, const Slip& slip, const std::string& type) {
  CHECK_MESSAGE(has(ran.out + ran.err, slip.said), ran.out << ran.err);
  CHECK_MESSAGE((type.empty() || has(ran.out + ran.err, type)), ran.out << ran.err);
  CHECK(way.ledger.record() == way.before);
}

}  // namespace

TEST_CASE("each slip is asked back in every way in, and taken when told twice") {
  for (const Slip& slip : slips()) {
    CAPTURE(slip.name);
    const std::string type = std::string(slip.type).empty() ? "" : "type " + std::string(slip.type);
    const Way log(slip);
    const Ran logged = log.log(false);
    CHECK(logged.code == 1);
    check_refused(log, logged, slip, type);
    CHECK(has(logged.err, "if it is so all the same, say it with --sure"));
    CHECK_MESSAGE(log.log(true).code == 0, slip.name);
    CHECK(log.ledger.record() != log.before);

    const Way file(slip);
    const Ran filed = file.file(false);
    if (std::string(slip.said).starts_with("is the same")) {  // there already: passed over
      CHECK(has(filed.out, "0 entries stored; 1 there already\n"));
    } else {
      CHECK(filed.code == 1);
      CHECK(has(filed.err, "e.csv:2:1: error: TH-01: "));
      check_refused(file, filed, slip, type);
      CHECK(file.file(true).code == 0);
      CHECK(file.ledger.record() != file.before);
    }

    const Way bench(slip);
    check_refused(bench, bench.bench(false), slip, type);
    CHECK(bench.bench(true).code == 0);
    CHECK(bench.ledger.record() != bench.before);
  }
}

TEST_CASE("a reading without its point is asked back at every prompt, nothing stored") {
  const std::vector<std::string> steps{"washed 1.497", "loop 366", "tied 1.509"};
  for (std::size_t done = 0; done <= steps.size(); ++done) {
    const LedgerBench ledger;
    const std::string plan = ledger.folder.path("night.toml");
    std::string lines;
    for (std::size_t i = 0; i < done; ++i) {
      lines += "th1 " + steps[i] + "\n";
    }
    REQUIRE(run({"bench", plan}, lines).code == 0);
    const std::string before = ledger.record();
    CAPTURE(done);
    // The last prompt is for turns: a number that can be wound is wound there.
    const std::string typed = done == steps.size() ? "1698" : "1498";
    const std::string said = run({"bench", plan}, "th1 " + typed + "\n").out;
    CHECK_MESSAGE(has(said, "g without its point? type 1."), said);
    CHECK(ledger.record() == before);
  }
}

TEST_CASE("a first number that reads like a mass is no winding of a motor never weighed") {
  const LedgerBench ledger;
  const std::string said = run({"bench", ledger.folder.path("night.toml")}, "th1 1497\n").out;
  CHECK(said ==
        "TH-01 ANNA: 1497 looks like 1.497 g without its point? type 1.497 "
        "(y keeps wound to 1497 turns)\n");
}

TEST_CASE("the same reading typed twice at the scale is not a snip") {
  const LedgerBench ledger;
  const std::string said =
      done(run({"bench", ledger.folder.path("night.toml")}, "th1 1.520\nth1 1.520\n")).out;
  CHECK_MESSAGE(has(said, "1.520 g is the same as just now: is it washed?\n"), said);
  CHECK_FALSE(has(said, "snip"));
}

TEST_CASE("times before 1970 and beyond tomorrow are asked back") {
  const LedgerBench ledger;
  const std::string before = ledger.record();
  for (const char* at : {"1926-04-12 10:00", "2062-04-12 10:00", "2026-05-03 00:00"}) {
    const Ran ran = ledger({"log", "th1", "note", "hello", "--at", at});
    CHECK_MESSAGE(ran.code == 1, at);
    const std::string file =
        ledger.folder.write("e.csv", std::string("id,kind,text,at\nth1,note,hello,") + at + "\n");
    CHECK(has(ledger({"log", "--from", file}).err, "error: TH-01: "));
  }
  CHECK(ledger.record() == before);
  CHECK(ledger({"log", "th1", "note", "hello", "--at", "2026-05-02 23:59"}).code == 0);
}

TEST_CASE("what is stored against damaged figures is asked back") {
  const LedgerBench ledger;
  std::string text = ledger.record();
  const std::size_t at = text.find("turns_factor = 11");
  REQUIRE(at != std::string::npos);
  ledger.folder.write("records/TH-01.toml", text.replace(at, 17, "turns_factor = 41"));
  CHECK(has(ledger({"log", "th1", "tied", "loop=366 mm"}).err,
            "TH-01: its figures as planned are damaged: `loopledger mend` first"));
  CHECK(has(run({"bench", ledger.folder.path("night.toml")}, "th1 washed 1.497\n").out,
            "its figures as planned are damaged"));
  CHECK(ledger.record() == text);
  CHECK(ledger({"log", "th1", "note", "hello"}).code == 0);
}

TEST_CASE("a correction is held against the motor as it was then") {
  const LedgerBench ledger;
  const auto log = [&](Words words, const char* at) {
    words.insert(words.begin(), {"log", "th1"});
    words.insert(words.end(), {"--at", at});
    const Ran ran = ledger(words);
    REQUIRE_MESSAGE(ran.code == 0, ran.err);
    return ledger.last_line().substr(1, 21);
  };
  const std::string first = log({"tied", "loop=360 mm"}, "2026-04-01 10:00");
  (void)log({"wound", "turns=1000"}, "2026-04-02 10:00");
  (void)log({"broke", "turns=1100"}, "2026-04-03 10:00");
  (void)log({"tied", "loop=240 mm"}, "2026-04-04 10:00");
  const Ran ran = ledger({"log", "th1", "tied", "loop=366 mm", "corrects=" + first});
  CHECK_MESSAGE(ran.code == 0, ran.err);
  const Ran slip = ledger({"log", "th1", "tied", "loop=366 cm", "corrects=" + first});
  CHECK(has(slip.err, "looks like 366 mm"));
}

namespace {

/// An evening and a day on the floor, for one motor.
const std::vector<Words>& evening() {
  static const std::vector<Words> kEvening{
      {"weighed", "stage=as_cut", "reading=1.523g"},
      {"weighed", "stage=washed", "reading=1.512g"},
      {"weighed", "stage=washed", "reading=1.497g"},
      {"tied", "loop=366mm"},
      {"weighed", "stage=tied", "reading=1.509g"},
      {"break_in", "turns=700", "torque=20gf.cm"},
      {"break_in", "loop_after=377mm"},
      {"wound", "turns=1200", "torque=33gf.cm"},
      {"wound", "turns=1450", "torque=41gf.cm", "end=stopped", "backed_off_to=1380"},
      {"flown", "time=7:31", "turns_left=210"},
      {"wound", "turns=1500", "torque=43gf.cm"},
      {"flown", "time=8:02", "turns_left=190"}};
  return kEvening;
}

}  // namespace

TEST_CASE("an ordinary evening is asked nothing, in all three ways") {
  const LedgerBench by_log;
  std::string rows =
      "id,kind,stage,reading,loop,turns,torque,loop_after,end,backed_off_to,time,turns_left\n";
  const Words columns{"stage",      "reading", "loop",          "turns", "torque",
                      "loop_after", "end",     "backed_off_to", "time",  "turns_left"};
  std::string lines;
  for (const Words& words : evening()) {
    for (const char* id : {"th1", "th2"}) {
      Words all{"log", id};
      all.insert(all.end(), words.begin(), words.end());
      const Ran ran = by_log(all);
      CHECK_MESSAGE(ran.code == 0, ran.err);
      CHECK_FALSE(has(ran.err, "warning"));
      rows += std::string(id) + "," + words[0];
      lines += id;
      for (const std::string& column : columns) {
        rows += ",";
        for (const std::string& word : words) {
          rows += word.starts_with(column + "=") ? word.substr(column.size() + 1) : "";
        }
      }
      for (const std::string& word : words) {
        lines += " " + word;
      }
      rows += "\n";
      lines += "\n";
    }
  }
  const LedgerBench by_file;
  const Ran filed = by_file({"log", "--from", by_file.folder.write("e.csv", rows)});
  CHECK_MESSAGE(filed.code == 0, filed.err);
  CHECK(has(filed.out, "24 entries stored\n"));
  const LedgerBench by_bench;
  const Ran typed = run({"bench", by_bench.folder.path("night.toml")}, lines);
  CHECK(typed.code == 0);
  CHECK_MESSAGE(!has(typed.out, "?"), typed.out);
}

TEST_CASE("the bare numbers of an evening at the bench are asked nothing") {
  const LedgerBench ledger;
  std::string lines;
  for (const char* id : {"th1 ", "th2 "}) {
    for (const char* value : {"1.523", "1.512", "1.497", "366", "1.509", "1200 33 gf.cm",
                              "1450 41 gf.cm stopped", "flown 7:31", "1498"}) {
      lines += id + std::string(value) + "\n";
    }
  }
  const Ran typed = run({"bench", ledger.folder.path("night.toml")}, lines);
  CHECK(typed.code == 0);
  CHECK_MESSAGE(!has(typed.out, "?"), typed.out);
  CHECK(has(ledger.last_line(), "kind = \"wound\", turns = 1498"));
}
