// SPDX-License-Identifier: MIT
#include "support/invented_cards.h"

#include <string>

namespace loopledger::test {
namespace {

motor::CardMotor common_card() {
  motor::CardMotor card;
  card.id = {"QU", 1};
  card.state = "broken in";
  card.purpose = "Lantern 46";
  card.owner = "Żaneta";
  card.made_of = "2 strands of amber, lot 3/25, 2.40 mm wide";
  card.loop = Length::mm(301);
  card.loop_is = LoopIs::broken_in;
  card.last = "2026-02-07";
  card.wind_to = Turns::of(1152.6);
  card.largest = {Turns::of(1440), Turns::of(1231.4), Turns::of(1685)};
  card.winder_ratio = 10;
  return card;
}

std::vector<calc::TorquePoint> torques_read() {
  return {{Turns::of(1150), Torque::gf_cm(41)},
          {Turns::of(1100), Torque::gf_cm(30)},
          {Turns::of(1000), Torque::gf_cm(22)},
          {Turns::of(800), Torque::gf_cm(15)},
          {Turns::of(500), Torque::gf_cm(10)}};
}

}  // namespace

motor::CardMotor flown_card() {
  motor::CardMotor card = common_card();
  card.state = "flown";
  card.best_turns = Turns::of(1150);
  card.best_torque = Torque::gf_cm(41);
  card.windings = 4;
  card.full_winds = 2;
  card.flights = 1;
  card.expected = {Torque::gf_cm(41.3), Torque::gf_cm(40.2), Torque::gf_cm(43.9)};
  card.expected_from = "from 41 gf·cm read at 1150 turns, meter and day not counted";
  card.curve =
      calc::TorqueCurve::through(torques_read())->scaled_to(card.wind_to, card.expected.value);
  card.curve_is = "torque curve: its own, 5 torques read while unwinding on 2026-02-07";
  for (const calc::TorquePoint& point : torques_read()) {
    card.points.push_back({point, true});
  }
  card.points.push_back({{Turns::of(1000), Torque::gf_cm(33)}, false});
  card.launch = motor::CardLaunch{Turns::of(1010), Torque::gf_cm(22.5), Turns::of(143)};
  card.oil = calc::OilAgain{Mass::mg(30.2), Mass::mg(4.7)};
  card.oil_counts = true;
  return card;
}

motor::CardMotor unwound_card() {
  motor::CardMotor card = common_card();
  card.id = {"QU", 2};
  card.expected = {Torque::gf_cm(18.6), Torque::gf_cm(10.3), Torque::gf_cm(46.9)};
  card.expected_from =
      "from its section, largest torque 74.3 gf·cm (45.5–121); it reads higher while winding";
  card.curve = calc::TorqueCurve::by_default(card.largest.value, Torque::gf_cm(74.3));
  card.curve_is = "torque curve: the default shape, an estimate";
  card.oil = calc::OilAgain{Mass::mg(30.2), std::nullopt};
  card.before = "First: break-in step 2 of 3: wind 630 turns = 63 cranks.";
  return card;
}

motor::CardMotor retired_card() {
  motor::CardMotor card;
  card.id = {"QU", 3};
  card.state = "retired";
  card.retired = true;
  card.loop = Length::mm(303);
  card.loop_is = LoopIs::broken_in;
  card.last = "2026-02-08";
  return card;
}

motor::CardMotor longest_card() {
  const auto words = [](std::size_t length) {
    std::string text;
    while (text.size() < length) {
      text += "lanterns ";
    }
    return text.substr(0, length);
  };
  motor::CardMotor card = flown_card();
  card.id = {"ABCDEFGH", 9999};
  card.purpose = words(200);
  card.owner = words(60);
  card.made_of = "40 strands of " + words(60) + ", lot " + words(60) + ", 2.40 mm wide (slit)";
  card.wind_to = Turns::of(123456);
  card.largest = {Turns::of(150000), Turns::of(130000), Turns::of(170000)};
  card.curve = card.curve->scaled_to(card.wind_to, card.expected.value);
  card.points.clear();
  card.oil->leaves = Mass::mg(-12);
  card.before = "First: break-in step 9 of 12 (time 3 of 4): " + words(80) +
                ", stretch to 1507 mm, wind 100000 turns = 10000 cranks or stop at 52.5 gf·cm "
                "(32–86), hold 5 min, rest 12 h.";
  card.notes = {"The figures as planned were changed by hand or damaged: don't rely on them.",
                "Part motor, 0.5 of the full length: spacer 130 mm of 0.720 g; a full motor takes "
                "2 times the turns at the same torque.",
                "Hooks 260 mm apart: 26 mm of slack as planned.",
                "Its best winding was at 21 °C; colder rubber returns about 0.8 % less energy a °C "
                "(estimate)."};
  return card;
}

std::vector<motor::CardMotor> box_of_cards(int count) {
  std::vector<motor::CardMotor> box;
  for (int i = 0; i < count; ++i) {
    switch (i % 4) {
      case 0:
        box.push_back(flown_card());
        break;
      case 1:
        box.push_back(unwound_card());
        break;
      case 2:
        box.push_back(retired_card());
        break;
      default:
        box.push_back(flown_card());
        box.back().winder_ratio = 1;
        box.back().notes = {"Hooks 265 mm apart: 26 mm of slack as planned."};
    }
    box.back().id.number = i + 1;
  }
  return box;
}

}  // namespace loopledger::test
