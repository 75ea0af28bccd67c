// SPDX-License-Identifier: MIT
#include "json/check_json.h"

#include <utility>

#include "calc/cut_after.h"
#include "calc/energy.h"
#include "json/record_json.h"
#include "json/shelf_json.h"
#include "tag/id.h"

namespace loopledger::json {
namespace {

using calc::Batch;
using calc::MotorFigures;
using records::Planned;

void add_energy(Json& out, const Planned& p, const Estimate<Energy>& energy, Energy wind_to) {
  const SpecificEnergy specific = energy.value / p.aim;
  const calc::GoodShare good = calc::share_of_good(specific);
  out.set("energy_J", energy.value.in_joule());
  out.set("energy_low_J", energy.low.in_joule());
  out.set("energy_high_J", energy.high.in_joule());
  out.set("energy_J_per_g", specific.in_joule_per_g());
  out.set("energy_share_of_good_low", good.of_best.as_ratio());
  out.set("energy_share_of_good_high", good.of_least.as_ratio());
  out.set("wind_to_energy_J", wind_to.in_joule());
}

Json motor_json(const MotorFigures& motor) {
  const Planned& p = motor.planned;
  Json out = Json::object();
  out.set("id", printed(motor.id));
  out.set("check_char", std::string(1, tag::check_character(motor.id)));
  add_planned(out, p);
  add_energy(out, p, motor.energy, motor.wind_to_energy);
  return out;
}

/// What a group without a size would become, as the figures of a motor.
Json choices_json(const plan::Plan& plan, const Batch& batch) {
  Json out = Json::array();
  for (const calc::Choice& choice : batch.choices) {
    Json one = Json::object();
    one.set("id", plan.motors[choice.group].stem.value);
    add_planned(one, choice.planned);
    add_energy(one, choice.planned, choice.energy, choice.wind_to_energy);
    one.set("pieces_give", choice.motors ? Json(*choice.motors) : Json());
    out.push(std::move(one));
  }
  return out;
}

Json cuts_json(const plan::Plan& plan, const Batch& batch) {
  Json out = Json::array();
  for (const calc::PieceCuts& cuts : batch.cutting.pieces) {
    const plan::Strip& strip = plan.strips[cuts.strip];
    Json motors = Json::array();
    for (const std::size_t m : cuts.motors) {
      motors.push(printed(batch.motors[m].id));
    }
    Json positions = Json::array();
    for (const Length& at : calc::cut_positions(cuts, batch)) {
      positions.push(at.in_mm());
    }
    Json piece = Json::object();
    piece.set("strip", strip.name);
    piece.set("piece", strip.pieces[cuts.piece].tag);
    piece.set("piece_mm", cuts.length.in_mm());
    piece.set("ends_mm", cuts.ends.in_mm());
    piece.set("motors", std::move(motors));
    piece.set("cut_at_mm", std::move(positions));
    piece.set("left_mm", cuts.left.in_mm());
    piece.set("scrap", cuts.scrap);
    out.push(std::move(piece));
  }
  return out;
}

/// Without a cutting plan nothing is known of how good it is.
Json cut_plan_json(const plan::Plan& plan, const Batch& batch) {
  const calc::CuttingPlan& cutting = batch.cutting;
  const auto if_made = [&cutting](auto value) { return cutting.made ? Json(value) : Json(); };
  Json out = Json::object();
  out.set("proven", if_made(cutting.proven));
  out.set("gap_mm", if_made(cutting.gap.in_mm()));
  out.set("motors_gap", if_made(cutting.motors_gap));
  out.set("pieces_gap", if_made(cutting.pieces_gap));
  out.set("longest_gap_mm", if_made(cutting.longest_gap.in_mm()));
  out.set("more", more_json(plan, batch));
  out.set("shelf_after", shelf_json(plan, batch));
  return out;
}

}  // namespace

Json to_json(const commands::CheckAnswer& answer) {
  const Batch& batch = answer.batch;
  Json motors = Json::array();
  for (const MotorFigures& motor : batch.motors) {
    motors.push(motor_json(motor));
  }
  Json curve = Json::array();
  for (const calc::CurvePoint& point : batch.curve) {
    Json out = Json::object();
    out.set("turns_share", point.turns.as_ratio());
    out.set("torque_share", point.torque.as_ratio());
    curve.push(std::move(out));
  }
  Json out = Json::object();
  out.set("format", 1);
  out.set("motors", std::move(motors));
  out.set("choices", choices_json(answer.plan, batch));
  out.set("cuts", cuts_json(answer.plan, batch));
  out.set("cut_plan", cut_plan_json(answer.plan, batch));
  out.set("curve", std::move(curve));
  out.set("diagnostics", to_json(answer.said));
  return out;
}

}  // namespace loopledger::json
