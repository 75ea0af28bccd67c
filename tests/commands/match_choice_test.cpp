// SPDX-License-Identifier: MIT
#include "commands/match_choice.h"

#include <doctest/doctest.h>

using namespace loopledger;
using commands::MatchChoice;
using commands::MotorRow;
using commands::RowFilter;

namespace {

constexpr calc::MatchBy kAll{};

/// A motor that is tied and has these figures logged.
MotorRow tied_with(int number, bool mass, bool loop, bool torque) {
  MotorRow row;
  row.id = {"TH", number};
  row.owner = number % 2 == 1 ? "ANNA" : "BEN";
  row.state = motor::State::tied;
  row.loop = Length::mm(300);
  row.loop_is = loop ? LoopIs::tied : LoopIs::planned;
  if (mass) {
    row.washed = Mass::g(1.5);
  }
  if (torque) {
    row.best = motor::Winding{};
    row.best->turns = Turns::of(1000);
    row.best->torque = Torque::gf_cm(40);
  }
  return row;
}

MotorRow in_state(MotorRow row, motor::State state) {
  row.state = state;
  return row;
}

/// Three with all figures, two without a torque, one with a loop alone, one planned, two retired.
std::vector<MotorRow> box() {
  return {tied_with(1, true, true, true),
          tied_with(2, true, true, true),
          tied_with(3, true, true, true),
          tied_with(4, true, true, false),
          tied_with(5, true, true, false),
          tied_with(6, false, true, false),
          in_state(tied_with(7, true, false, false), motor::State::planned),
          in_state(tied_with(8, true, true, true), motor::State::retired),
          in_state(tied_with(9, true, true, true), motor::State::retired)};
}

}  // namespace

TEST_CASE("only motors with every figure that is asked for can be chosen, in their order") {
  const MatchChoice choice = commands::match_choice(box(), {}, kAll, 0);
  CHECK(choice.looked_at == 9);
  REQUIRE(choice.rows.size() == 3);
  CHECK(choice.rows[0].id.number == 1);
  CHECK(choice.rows[2].id.number == 3);
  CHECK(commands::match_choice(box(), {}, {true, true, false}, 0).rows.size() == 5);
  CHECK(commands::match_choice(box(), {}, {false, true, false}, 0).rows.size() == 6);
}

TEST_CASE("a winding whose torque was not read does not count as one with it") {
  MotorRow row = tied_with(1, true, true, true);
  row.best->torque.reset();
  CHECK(commands::match_choice({row}, {}, kAll, 0).rows.empty());
}

TEST_CASE("who is left out is told with the reason, most motors first") {
  const MatchChoice choice = commands::match_choice(box(), {}, kAll, 1);
  CHECK(commands::left_out_text(choice.left_out) ==
        "2 without a torque, 1 without a washed mass or a torque, 1 not tied yet, 2 retired, "
        "1 record can't be read");
  CHECK(commands::left_out_text({}).empty());
  CHECK(commands::left_out_text(
            commands::match_choice({tied_with(1, true, true, true)}, {}, kAll, 0).left_out)
            .empty());
}

TEST_CASE("motors that the filters don't take are not looked at, nor counted as left out") {
  const MatchChoice choice = commands::match_choice(box(), RowFilter{"ben", "", ""}, kAll, 0);
  CHECK(choice.looked_at == 4);
  CHECK(choice.rows.size() == 1);
  CHECK(commands::left_out_text(choice.left_out) ==
        "1 without a torque, 1 without a washed mass or a torque, 1 retired");
}

TEST_CASE("the choice knows how many there would be for every set of figures") {
  const MatchChoice choice = commands::match_choice(box(), {}, kAll, 0);
  REQUIRE(choice.would_be.size() == 7);
  std::string all;
  for (const auto& [figures, motors] : choice.would_be) {
    all += commands::by_text(figures) + " " + std::to_string(motors) + "; ";
  }
  CHECK(all ==
        "mass,loop,torque 3; mass,loop 5; mass,torque 3; loop,torque 3; mass 5; loop 6; "
        "torque 3; ");
}

TEST_CASE("too few: what would help is tried in its order") {
  const auto hint = [](const std::vector<MotorRow>& rows, int wanted, calc::MatchBy by = kAll,
                       const RowFilter& only = {}) {
    const MatchChoice choice = commands::match_choice(rows, only, by, 0);
    REQUIRE(choice.rows.size() < static_cast<std::size_t>(wanted));
    return commands::too_few(choice, wanted, only, by, "records").hint;
  };
  CHECK(hint(box(), 5) == "--by mass,loop would leave 5 to choose from");
  CHECK(hint(box(), 6) == "--by loop would leave 6 to choose from");
  CHECK(hint(box(), 7) ==
        "`loopledger match 3` is the most that can be had; --by mass,loop would leave 5");
  CHECK(hint(box(), 7, {false, true, false}) == "`loopledger match 6` is the most that can be had");
  CHECK(hint({}, 2) == "`loopledger print PLAN` opens a record for each motor");
  CHECK(hint({}, 2, kAll, {"zoe", "", ""}) == "`loopledger list` shows which motors there are");
  const std::vector<MotorRow> planned{in_state(box()[0], motor::State::planned)};
  CHECK(hint(planned, 2).starts_with("a motor can be chosen once it is tied"));
}

TEST_CASE("too few says what was found, where, and who was left out") {
  const RowFilter anna{"Anna", "", ""};
  const MatchChoice choice = commands::match_choice(box(), anna, kAll, 0);
  const Diagnostic said = commands::too_few(choice, 4, anna, kAll, "winter");
  CHECK(said.code == "none-enough");
  CHECK(said.message ==
        "expected 4 motors to choose from in winter with --owner Anna, found only 2; left out: "
        "1 without a torque, 1 not tied yet, 1 retired");
}

TEST_CASE("the words of --by are figures in any order, and come back in their own") {
  CHECK(commands::figure_words() == std::vector<std::string>{"mass", "loop", "torque"});
  const calc::MatchBy by = commands::match_by({"torque", "mass"});
  CHECK(by.mass);
  CHECK_FALSE(by.loop);
  CHECK(by.torque);
  CHECK(commands::by_text(by) == "mass,torque");
}
