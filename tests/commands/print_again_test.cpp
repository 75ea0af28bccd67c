// SPDX-License-Identifier: MIT
#include "commands/print_again.h"

#include <doctest/doctest.h>

#include "motor/one_motor.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

/// The motor as the plan has it.
calc::MotorFigures as_planned(Motor& motor) {
  calc::MotorFigures figures;
  figures.id = motor.record().id;
  figures.planned = motor.record().planned;
  return figures;
}

}  // namespace

TEST_CASE("a motor of which nothing is logged is printed as planned") {
  Motor motor;
  calc::MotorFigures figures = as_planned(motor);
  commands::PrintAgain again;
  again.take(figures, motor.record());
  CHECK(again.told().empty());
  CHECK(again.label_of(figures.id) == nullptr);
  CHECK(figures.since.empty());
  CHECK_FALSE(figures.over);
}

TEST_CASE("a retired motor is over: it is told that no label is printed") {
  Motor motor;
  motor.log(Kind::retired);
  calc::MotorFigures figures = as_planned(motor);
  commands::PrintAgain again;
  again.take(figures, motor.record());
  CHECK(figures.over);
  REQUIRE(again.told().size() == 1);
  CHECK(again.told().front().code == "print-moved");
  CHECK(again.told().front().hint.starts_with("no label is printed"));
}

TEST_CASE("a new knot takes loop and turns with it, and the label is the new one") {
  Motor motor;
  motor.log(Kind::tied, {{"loop", "200 mm"}});
  calc::MotorFigures figures = as_planned(motor);
  const Turns planned = figures.planned.wind_to;
  commands::PrintAgain again;
  again.take(figures, motor.record());
  CHECK(figures.planned.loop.in_mm() == doctest::Approx(200));
  CHECK(figures.planned.wind_to < planned);
  CHECK_FALSE(figures.over);
  const motor::LabelFigures* const label = again.label_of(figures.id);
  REQUIRE(label != nullptr);
  REQUIRE(label->loop);
  CHECK(label->loop->in_mm() == doctest::Approx(200));
}

TEST_CASE("the record's factors go before the plan's, and it is told which those are") {
  Motor motor;
  calc::MotorFigures figures = as_planned(motor);
  const double kept = figures.planned.turns_factor;
  figures.planned.turns_factor = kept + 1;
  commands::PrintAgain again;
  again.take(figures, motor.record());
  CHECK(figures.planned.turns_factor == doctest::Approx(kept));
  REQUIRE(again.told().size() == 1);
  CHECK(again.told().front().code == "print-factors");
  CHECK(again.told().front().message.find("the record has k_N ") != std::string::npos);
}

TEST_CASE("ids are named alone, one by one, in a row, and up to eight of them") {
  const auto ids = [](std::initializer_list<int> numbers) {
    std::vector<MotorId> out;
    for (const int number : numbers) {
      out.push_back({"TH", number});
    }
    return commands::named(out);
  };
  CHECK(ids({1}) == "TH-01-J");
  CHECK(ids({1, 4}) == "TH-01-J, TH-04-D");
  CHECK(ids({1, 2, 3, 4, 5, 6}) == "TH-01-J to TH-06-9 (6 motors)");
  CHECK(ids({1, 3, 5, 7, 9, 11, 13, 15, 17, 19}).ends_with(" and 2 more"));
}
