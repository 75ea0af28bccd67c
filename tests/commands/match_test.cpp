// SPDX-License-Identifier: MIT
#include "commands/match.h"

#include "commands/exit_code.h"
#include "commands/outcome.h"
#include "logged.h"

using namespace loopledger;
using namespace loopledger::test;
using records::Kind;

namespace {

/// Two of ANNA's three are alike.
void tie_three(MemoryWorld& world) {
  world.open_records(kClubNight);
  const char* const loops[] = {"290 mm", "301 mm", "302 mm"};
  for (int number = 1; number <= 3; ++number) {
    logged(world, {"TH", number}, 1, Kind::tied, {{"loop", loops[number - 1]}});
  }
}

}  // namespace

TEST_CASE("match's answer has the choice, and the set by its places in it") {
  MemoryWorld world;
  tie_three(world);
  commands::MatchRequest request;
  request.by = {"loop"};
  const commands::MatchAnswer answer = commands::match(request, world.get());
  REQUIRE(answer.choice);
  REQUIRE(answer.match);
  CHECK(answer.said.empty());
  REQUIRE(answer.match->motors.size() == 2);
  CHECK(answer.choice->rows.at(answer.match->motors[0]).id == MotorId{"TH", 2});
  CHECK(answer.choice->rows.at(answer.match->motors[1]).id == MotorId{"TH", 3});
  CHECK(answer.match->within.loop.in_mm() == doctest::Approx(1));
}

TEST_CASE("too few motors are an error beside the choice there is") {
  MemoryWorld world;
  tie_three(world);
  commands::MatchRequest request;
  request.wanted = 4;
  request.by = {"loop"};
  const commands::MatchAnswer answer = commands::match(request, world.get());
  REQUIRE(answer.choice);
  CHECK(answer.choice->rows.size() == 3);
  CHECK_FALSE(answer.match);
  CHECK(commands::exit_code_of(answer.said) == commands::kNothingFound);
}

TEST_CASE("match refuses numbers and figures that mean no set") {
  MemoryWorld world;
  tie_three(world);
  for (const int wanted : {-1, 0, 1, commands::kMostMatched + 1}) {
    CAPTURE(wanted);
    commands::MatchRequest request;
    request.wanted = wanted;
    const commands::MatchAnswer answer = commands::match(request, world.get());
    CHECK(codes(answer.said) == "usage-value ");
    CHECK_FALSE(answer.choice);
  }
  commands::MatchRequest request;
  request.by = {};
  CHECK(codes(commands::match(request, world.get()).said) == "usage-value ");
}
