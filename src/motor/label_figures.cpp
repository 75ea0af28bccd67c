// SPDX-License-Identifier: MIT
#include "motor/label_figures.h"

#include "calc/weigh.h"

namespace loopledger::motor {

LabelFigures label_figures(const calc::MotorFigures& motor) {
  const records::Planned& planned = motor.planned;
  const records::Window washed = calc::scale_window(planned, Stage::washed);
  LabelFigures label;
  label.id = motor.id;
  label.purpose = planned.purpose;
  label.owner = planned.owner;
  label.strands = planned.strands;
  label.width = planned.width;
  label.lot = planned.lot;
  label.low = washed.low;
  label.high = washed.high;
  label.tails_on = planned.tails > Length{};
  label.scale_step = planned.scale_step;
  label.loop = planned.loop;
  label.turns_estimate = whole_down(planned.wind_to);
  label.turns_max = planned.turns_max;
  label.date = planned.date;
  label.tag = {.id = motor.id,
               .state = tag::TagState::est,
               .turns = whole_down(planned.wind_to),
               .torque = std::nullopt,
               .mass = planned.aim,
               .loop = planned.loop,
               .date = planned.date};
  return label;
}

}  // namespace loopledger::motor
