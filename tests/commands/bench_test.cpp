// SPDX-License-Identifier: MIT
//
// The dialogue at the scale over a ledger that lies in memory. What it answers to every kind of
// value is tested through the whole program, in tests/terminal/bench_test.cpp.
#include "commands/bench.h"

#include <doctest/doctest.h>

#include "commands/exit_code.h"
#include "commands/outcome.h"
#include "support/club_plan.h"
#include "support/memory_world.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

using Answer = commands::BenchDialogue::Answer;

class Bench {
 public:
  explicit Bench(const std::string& plan = club_plan(3)) {
    world.files.files["night.toml"] = plan;
    world.open_records(plan);
    reopen();
  }
  void reopen() {
    commands::BenchAnswer answer = commands::bench(request(), world.get());
    REQUIRE_MESSAGE(answer.dialogue, render(answer.said));
    dialogue_.emplace(std::move(*answer.dialogue));
  }
  static commands::BenchRequest request() {
    commands::BenchRequest request;
    request.plan = "night.toml";
    return request;
  }
  Answer take(const std::string& line) { return dialogue_->take(line); }
  std::string prompt() { return dialogue_->prompt(); }
  [[nodiscard]] std::size_t stored() const { return dialogue_->stored(); }
  [[nodiscard]] std::string record(int n) const {
    return world.disk.files.at("records/TH-0" + std::to_string(n) + ".toml").bytes;
  }

  MemoryWorld world;

 private:
  std::optional<commands::BenchDialogue> dialogue_;
};

bool starts(const std::string& text, const std::string& with) { return text.starts_with(with); }

}  // namespace

TEST_CASE("the prompt names the motor and what it lacks, and goes on when that is there") {
  Bench bench;
  CHECK(bench.prompt() == "TH-01: washed, g (1.496–1.498)> ");
  const Answer answer = bench.take("1.497");
  CHECK(starts(answer.text, "TH-01: OK, within its window (washed 1.497 g"));
  REQUIRE(answer.taken);
  CHECK(answer.taken->entry.key == "20260501T100000Z-aaaa");
  CHECK(bench.record(1).find(answer.taken->entry.key) != std::string::npos);
  CHECK(bench.stored() == 1);
  CHECK(starts(bench.prompt(), "TH-02: washed, g"));
  (void)bench.take("");
  CHECK(starts(bench.prompt(), "TH-03: washed, g"));
  (void)bench.take("skip");
  CHECK(starts(bench.prompt(), "TH-01: loop as tied"));
  (void)bench.take("th3");
  CHECK(starts(bench.prompt(), "TH-03: washed, g"));
}

TEST_CASE("what is doubted waits for a yes; anything else stores nothing of it") {
  Bench bench;
  const std::string before = bench.record(1);
  CHECK(bench.take("th1 washed 1.497 mg").text.ends_with("?"));
  CHECK(bench.prompt() == "y keeps it, or type it again> ");
  CHECK(bench.take("n").text == "not stored");
  CHECK(bench.take("th1 washed 1.497 mg").text.ends_with("?"));
  CHECK(bench.take("undo").text == "not stored");
  CHECK(bench.record(1) == before);
  CHECK(bench.take("th1 washed 1.497 mg").text.ends_with("?"));
  bench.world.now = Moment{bench.world.now.seconds + 60};
  const Answer kept = bench.take("y");
  REQUIRE(kept.taken);
  CHECK(starts(kept.taken->entry.key, "20260501T100100Z-"));
  CHECK(bench.record(1) != before);
}

TEST_CASE("undo takes back what was stored here, then what was logged tonight, newest first") {
  Bench bench;
  REQUIRE(bench.take("th2 washed 1.497").taken);
  REQUIRE(bench.take("th1 washed 1.497").taken);
  CHECK(bench.take("undo").text == "TH-01: taken back: weighed washed: 1.497 g");
  CHECK(bench.stored() == 1);
  CHECK(starts(bench.prompt(), "TH-01: washed"));
  bench.world.now = Moment{bench.world.now.seconds + 3600};
  bench.reopen();
  CHECK(bench.stored() == 0);
  const Answer answer = bench.take("undo");
  CHECK(answer.text == "TH-02: taken back: weighed washed: 1.497 g, of 2026-05-01 10:00");
  REQUIRE(answer.taken);
  CHECK_FALSE(answer.taken->entry.corrects.empty());
  CHECK(bench.take("undo").text == "nothing to take back");
}

TEST_CASE("undo leaves alone what is older than a night") {
  Bench bench;
  REQUIRE(bench.take("th1 washed 1.497").taken);
  bench.world.now = Moment{bench.world.now.seconds + 13 * 3600};
  bench.reopen();
  CHECK(bench.take("undo").text == "nothing to take back");
}

TEST_CASE("show gives a motor's summary in lines, list what each motor lacks") {
  Bench bench;
  REQUIRE(bench.take("th1 washed 1.497").taken);
  const Answer shown = bench.take("show th1");
  CHECK(shown.text.empty());
  REQUIRE(shown.summary.size() == 2);
  CHECK(starts(shown.summary[0], "TH-01-"));
  CHECK(starts(shown.summary[1], "  Next: "));
  CHECK(bench.take("list").text == "TH-01: loop as tied\nTH-02: washed, g\nTH-03: washed, g");
  CHECK(bench.take("show zz9").said.front().code == "none-record");
}

TEST_CASE("an owner's name goes to the next of theirs; another word stores nothing") {
  Bench bench(club_plan(2) +
              "owner = \"Anna\"\n[[motors]]\nid = \"QX\"\nowner = \"Ben Oak\"\n"
              "rule = \"club\"\nmass = \"limit\"\n");
  CHECK(starts(bench.prompt(), "TH-01 Anna: "));
  CHECK(bench.take("ben oak").text.empty());
  CHECK(starts(bench.prompt(), "QX-01 Ben Oak: "));
  (void)bench.take("ANNA");
  CHECK(starts(bench.prompt(), "TH-01 Anna: "));
  CHECK(bench.take("carla").said.front().code == "bench-value");
  CHECK(bench.stored() == 0);
}

TEST_CASE("a check weight is judged, and kept with the readings that follow") {
  Bench bench;
  CHECK(bench.take("check 1.020").text.find(": set it right before you weigh") !=
        std::string::npos);
  CHECK(bench.take("check").said.size() == 1);
  REQUIRE(bench.take("th1 washed 1.497").taken);
  CHECK(bench.record(1).find("note = \"check weight 1 g read 1.02 g\"") != std::string::npos);
}

TEST_CASE("what another program has added since is seen") {
  Bench bench;
  Bench other;
  REQUIRE(other.take("th1 washed 1.497").taken);
  bench.world.disk.files.at("records/TH-01.toml").bytes = other.record(1);
  CHECK(starts(bench.prompt(), "TH-01: loop as tied"));
}

TEST_CASE("a reading that the disk does not take is said and not counted") {
  Bench bench;
  const std::string before = bench.record(1);
  bench.world.disk.cut_write(1, 3, false);
  const Answer failed = bench.take("th1 washed 1.497");
  CHECK_FALSE(failed.taken);
  CHECK(failed.text.empty());
  CHECK(commands::exit_code_of(failed.said) == commands::kEnvironment);
  CHECK(bench.stored() == 0);
  CHECK(bench.record(1) == before);
  CHECK(bench.take("th1 washed 1.497").taken);
}

TEST_CASE("the help is of one line unless several are asked for; stop ends it") {
  Bench bench;
  CHECK(bench.take("?").text.find('\n') == std::string::npos);
  commands::BenchRequest request = Bench::request();
  request.long_help = true;
  auto opened = commands::bench(request, bench.world.get());
  REQUIRE(opened.dialogue);
  CHECK(opened.dialogue->take("?").text.find('\n') != std::string::npos);
  CHECK(bench.take("stop").stop);
}

TEST_CASE("the bench does not open without a plan, a ratio that is one, and records") {
  MemoryWorld world;
  world.files.files["night.toml"] = club_plan(2);
  const auto refused = [&](const commands::BenchRequest& request) {
    const auto answer = commands::bench(request, world.get());
    CHECK_FALSE(answer.dialogue);
    return commands::exit_code_of(answer.said);
  };
  CHECK(refused(Bench::request()) == commands::kNothingFound);
  world.open_records(club_plan(1));
  const auto opened = commands::bench(Bench::request(), world.get());
  CHECK(opened.dialogue);
  REQUIRE(opened.said.size() == 1);
  CHECK(opened.said.front().message == "1 of the plan's motors have no record yet");
  commands::BenchRequest request = Bench::request();
  request.winder_ratio = "ten";
  CHECK(refused(request) == commands::kInputErrors);
  request = Bench::request();
  request.plan = "-";
  CHECK(refused(request) == commands::kUsage);
  request.plan = "day.toml";
  CHECK(refused(request) == commands::kEnvironment);
}
