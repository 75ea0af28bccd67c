// SPDX-License-Identifier: MIT
#include "commands/scan.h"

#include "commands/exit_code.h"
#include "logged.h"
#include "photo/picture.h"

using namespace loopledger;
using namespace loopledger::test;
using records::Kind;

namespace {

commands::ScanAnswer typed(MemoryWorld& world, const std::string& tags) {
  world.files.input = tags;
  commands::ScanRequest request;
  request.images = {"-"};
  return commands::scan(request, world.get());
}

/// Writes down what it is told.
class Watcher : public commands::Progress {
 public:
  explicit Watcher(std::string& told) : told_(told) {}
  void step() override { told_ += "step "; }
  void hide() override { told_ += "hide "; }

 private:
  std::string& told_;
};

}  // namespace

TEST_CASE("a tag is answered with its motor's record") {
  MemoryWorld world;
  world.open_records(kClubNight);
  const commands::ScanAnswer answer = typed(world, "th1\n");
  CHECK(answer.exit_code == commands::kDone);
  CHECK(answer.said.empty());
  REQUIRE(answer.today);
  CHECK(answer.today->now == world.now);
  REQUIRE(answer.images.size() == 1);
  CHECK(answer.images[0].file == "-");
  REQUIRE(answer.images[0].tags.size() == 1);
  const commands::ScannedTag& tag = answer.images[0].tags[0];
  CHECK(tag.known);
  CHECK(tag.found());
  CHECK_FALSE(tag.stale);
  CHECK(tag.record->id == MotorId{"TH", 1});
}

TEST_CASE("unknown, damaged, foreign and old tags are told apart") {
  MemoryWorld world;
  world.open_records(kClubNight);
  world.disk.files.at("records/TH-02.toml").bytes = "hello\n";
  logged(world, {"TH", 3}, 1, Kind::tied, {{"loop", "300 mm"}});
  logged(world, {"TH", 3}, 2, Kind::wound, {{"turns", "1100"}, {"torque", "41 gf.cm"}});
  tag::TagFigures old;
  old.id = {"TH", 3};
  old.state = tag::TagState::est;
  old.turns = Turns::of(500);
  tag::TagFigures other;
  other.id = {"TH", 1};
  other.state = tag::TagState::made;
  other.mass = Mass::g(2.9);
  const commands::ScanAnswer answer = typed(world, "zz9\nth2\n" + tag::tag_texts(other).front() +
                                                       "\n" + tag::tag_texts(old).front() + "\n");
  REQUIRE(answer.images.size() == 1);
  REQUIRE(answer.images[0].tags.size() == 4);
  const commands::ScannedTag& unknown = answer.images[0].tags[0];
  CHECK_FALSE(unknown.known);
  CHECK_FALSE(unknown.record);
  const commands::ScannedTag& damaged = answer.images[0].tags[1];
  CHECK(damaged.known);
  CHECK_FALSE(damaged.record);
  const commands::ScannedTag& foreign = answer.images[0].tags[2];
  CHECK(foreign.record);
  CHECK_FALSE(foreign.misfits.empty());
  CHECK_FALSE(foreign.found());
  const commands::ScannedTag& stale = answer.images[0].tags[3];
  CHECK(stale.found());
  CHECK(stale.stale);
  const std::string all = codes(answer.said);
  for (const char* code : {"scan-unknown ", "scan-other-ledger ", "scan-stale "}) {
    CHECK_MESSAGE(all.find(code) != std::string::npos, code);
  }
  CHECK(answer.exit_code == commands::kDone);  // once a tag was read
}

TEST_CASE("each picture is told as soon as it is read, with the line of progress taken back") {
  MemoryWorld world;
  world.open_records(kClubNight);
  world.files.files["bags/a.png"] = png(drawn("TH-01-J", 6));
  world.files.files["bags/b.png"] = png(photo::Grey(200, 200, 190));
  std::string told;
  commands::World watched = world.get();
  watched.progress = [&told](const std::string& doing, std::size_t steps) {
    told += doing + " " + std::to_string(steps) + ": ";
    return std::make_unique<Watcher>(told);
  };
  commands::ScanRequest request;
  request.images = {"bags"};
  const commands::ScanAnswer answer = commands::scan(
      request, watched,
      [&told](const commands::ScannedImage& image, const commands::ScanAnswer& so_far) {
        CHECK(so_far.today);
        CHECK(so_far.asked_for == 2);
        told += image.file + " of " + std::to_string(so_far.images.size()) + " ";
      });
  CHECK(told == "reading pictures 2: step hide bags/a.png of 1 step hide bags/b.png of 2 ");
  CHECK(answer.images.size() == 2);
  CHECK(codes(answer.said) == "none-label ");
  CHECK(answer.exit_code == commands::kDone);
}

TEST_CASE("without a tag the exit code is that of what went wrong first") {
  MemoryWorld world;
  CHECK(typed(world, "\n").exit_code == commands::kNothingFound);
  CHECK(typed(world, "TH-01-A\n").exit_code == commands::kInputErrors);
  commands::ScanRequest request;
  request.images = {"gone.png"};
  CHECK(commands::scan(request, world.get()).exit_code == commands::kEnvironment);
}

TEST_CASE("what is wrong with the day's options is said before a picture is read") {
  MemoryWorld world;
  commands::ScanRequest request;
  request.images = {"gone.png"};
  request.today.launch = "0 gf.cm";
  const commands::ScanAnswer answer = commands::scan(request, world.get());
  CHECK(codes(answer.said) == "today-launch ");
  CHECK_FALSE(answer.today);
  CHECK(answer.images.empty());
  CHECK(answer.exit_code == commands::kInputErrors);
}
