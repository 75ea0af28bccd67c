// SPDX-License-Identifier: MIT
#include "json/card_json.h"

#include <string>
#include <utility>

#include "calc/cranks.h"
#include "tag/id.h"

namespace loopledger::json {
namespace {

void add_cranks(Json& out, const motor::CardMotor& motor) {
  const bool geared = calc::has_cranks(motor.winder_ratio);
  out.set("winder_ratio", geared ? Json(motor.winder_ratio) : Json());
  out.set("cranks", geared ? Json(calc::cranks_to_wind_to(motor.wind_to, motor.largest.low,
                                                          motor.winder_ratio))
                           : Json());
  out.set("do_not_pass_cranks",
          geared ? Json(calc::cranks_at_most(motor.largest.low, motor.winder_ratio)) : Json());
}

Json launch_json(const motor::CardMotor& motor) {
  if (!motor.launch) {
    return {};
  }
  Json launch = Json::object();
  launch.set("turns_left", motor.launch->left.count());
  launch.set("torque_mNm", motor.launch->torque.in_mnm());
  return std::move(launch.set("let_out_turns", motor.launch->let_out.count()));
}

Json card_motor_json(const motor::CardMotor& motor) {
  Json out = Json::object();
  out.set("id", printed(motor.id))
      .set("check_char", std::string(1, tag::check_character(motor.id)));
  out.set("state", motor.state).set("card", !motor.retired);
  if (motor.retired) {
    return out;
  }
  out.set("wind_to_turns", motor.wind_to.count());
  out.set("do_not_pass_turns", motor.largest.low.count());
  add_cranks(out, motor);
  out.set("mark", motor.mark.empty() ? Json() : Json(motor.mark));
  const auto torque = [&motor](Torque expected) {
    return motor.curve ? Json(expected.in_mnm()) : Json();
  };
  out.set("expected_torque_mNm", torque(motor.expected.value));
  out.set("expected_torque_low_mNm", torque(motor.expected.low));
  out.set("expected_torque_high_mNm", torque(motor.expected.high));
  out.set("last_launch", launch_json(motor));
  const bool leaves = motor.oil && motor.oil->leaves;
  out.set("oil_adds_mg", motor.oil ? Json(motor.oil->adds.in_mg()) : Json());
  out.set("oil_leaves_mg", leaves ? Json(motor.oil->leaves->in_mg()) : Json());
  return out;
}

}  // namespace

Json to_json(const commands::CardAnswer& answer) {
  if (!answer.understood) {
    return nothing_but(answer.said);
  }
  Json motors = Json::array();
  for (const motor::CardMotor& motor : answer.motors) {
    motors.push(card_motor_json(motor));
  }
  Json out = Json::object();
  out.set("format", 1).set("file", answer.file.empty() ? Json() : Json(answer.file));
  out.set("motors", std::move(motors));
  return std::move(out.set("diagnostics", to_json(answer.said)));
}

}  // namespace loopledger::json
