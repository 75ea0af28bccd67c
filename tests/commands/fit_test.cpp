// SPDX-License-Identifier: MIT
#include "commands/fit.h"

#include "commands/exit_code.h"
#include "commands/outcome.h"
#include "logged.h"

using namespace loopledger;
using namespace loopledger::test;
using records::Kind;

namespace {

commands::FitAnswer fitted(MemoryWorld& world, const std::string& lot,
                           const std::string& plan = {}) {
  return commands::fit({lot, plan, {}}, world.get());
}

void wind(MemoryWorld& world, const MotorId& id, const std::string& turns,
          const std::string& torque, const std::string& end) {
  logged(world, id, 1, Kind::tied, {{"loop", "300 mm"}});
  logged(world, id, 2, Kind::wound, {{"turns", turns}, {"torque", torque}, {"end", end}});
}

/// kClubNight with lines under the strip of the lot May.
std::string plan_with(const std::string& factors) {
  std::string plan(kClubNight);
  const std::size_t at = plan.find("lot = \"May\", ");
  REQUIRE(at != std::string::npos);
  return plan.insert(at, factors);
}

}  // namespace

TEST_CASE("without a plan the defaults are what is known before") {
  MemoryWorld world;
  world.open_records(kClubNight);
  wind(world, {"TH", 1}, "1400", "40 gf.cm", "broke");
  wind(world, {"TH", 2}, "1430", "42 gf.cm", "solid");
  const commands::FitAnswer answer = fitted(world, " may ");
  REQUIRE(answer.lot);
  CHECK(answer.said.empty());
  CHECK(answer.lot->lot == "May");
  CHECK(answer.lot->prior_from == "the defaults");
  CHECK(answer.lot->turns_prior.value == calc::kTurnsFactor);
  CHECK(answer.lot->turns_prior.relative_u == calc::kFitTurnsU);
  CHECK(answer.lot->torque_prior.value == calc::kTorqueFactor.in_mpa());
  CHECK(answer.lot->data.motors == 2);
  CHECK(answer.lot->data.broke == 1);
  CHECK(answer.lot->data.solid == 1);
  CHECK(answer.lot->turns.next.value < calc::kTurnsFactor);  // 9.7 and 9.9 were seen
}

TEST_CASE("a plan's strip of the lot is what is known before, with a note") {
  MemoryWorld world;
  world.open_records(kClubNight);
  wind(world, {"TH", 1}, "1400", "40 gf.cm", "broke");
  world.files.files["own.toml"] =
      plan_with("turns_factor = \"10.0 ± 0.5\", torque_factor = \"0.5 MPa\", ");
  const commands::FitAnswer answer = fitted(world, "May", "own.toml");
  REQUIRE(answer.lot);
  CHECK(codes(answer.said) == "fit-twice ");
  CHECK(answer.said.front().place.file == "own.toml");
  CHECK(answer.lot->prior_from == "strip tan");
  CHECK(answer.lot->turns_prior.value == 10);
  CHECK(answer.lot->turns_prior.relative_u == doctest::Approx(0.05));
  CHECK(answer.lot->torque_prior.value == doctest::Approx(0.5));
  CHECK(answer.lot->torque_prior.relative_u == calc::kTorqueFactorU);  // it says none itself
}

TEST_CASE("a plan whose strip says nothing of factors, or that has no such strip") {
  MemoryWorld world;
  world.open_records(kClubNight);
  world.files.files["night.toml"] = std::string(kClubNight);
  const commands::FitAnswer silent = fitted(world, "May", "night.toml");
  REQUIRE(silent.lot);
  CHECK(silent.said.empty());
  CHECK(silent.lot->prior_from == "the defaults");
  std::string june(kClubNight);
  june.replace(june.find("\"May\""), 5, "\"June\"");
  world.files.files["june.toml"] = june;
  const commands::FitAnswer other = fitted(world, "May", "june.toml");
  REQUIRE(other.lot);
  CHECK(codes(other.said) == "fit-strip ");
  CHECK(commands::exit_code_of(other.said) == commands::kDone);
}

TEST_CASE("a plan that can't be read ends a fit") {
  MemoryWorld world;
  world.open_records(kClubNight);
  const commands::FitAnswer answer = fitted(world, "May", "gone.toml");
  CHECK_FALSE(answer.lot);
  CHECK(commands::exit_code_of(answer.said) == commands::kEnvironment);
}

TEST_CASE("the plan says where its records are, unless the request does") {
  MemoryWorld world;
  world.open_records(kClubNight, "night/winter");
  world.files.files["night/plan.toml"] = "records = \"winter\"\n" + std::string(kClubNight);
  CHECK(fitted(world, "May", "night/plan.toml").lot);
  CHECK_FALSE(commands::fit({"May", "night/plan.toml", "summer"}, world.get()).lot);
}

TEST_CASE("a lot that no motor is of is told with the nearest, or with those there are") {
  MemoryWorld world;
  CHECK(fitted(world, "May").said.front().hint ==
        "the ledger holds no motors yet: `loopledger print` opens records");
  world.open_records(kClubNight);
  const auto hint = [&](const std::string& lot) {
    const commands::FitAnswer answer = fitted(world, lot);
    CHECK_FALSE(answer.lot);
    CHECK(commands::exit_code_of(answer.said) == commands::kNothingFound);
    return answer.said.front().hint;
  };
  CHECK(hint("Mya") == "did you mean \"May\"?");
  CHECK(hint("AM") == "did you mean \"amber\"?");  // begins so
  CHECK(hint("october") == "its lots are May or amber");
  CHECK(fitted(world, "Amber").lot);  // a strip without a lot goes by its own name
}
