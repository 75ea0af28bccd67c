// SPDX-License-Identifier: MIT
#include "cli/check_view.h"
#include "tag/id.h"

namespace loopledger::cli {
namespace {

using calc::Batch;
using calc::MotorFigures;
using records::Planned;

Json grams(const std::optional<Mass>& mass) { return mass ? Json(mass->in_g()) : Json(); }

Json window_json(const records::Window& window) {
  Json out = Json::object();
  out.set("low_g", grams(window.low));
  out.set("high_g", grams(window.high));
  out.set("guard_mg", window.guard ? Json(window.guard->in_mg()) : Json());
  return out;
}

Json stages_json(const Planned& p) {
  Json as_cut = Json::object();
  as_cut.set("low_g", grams(p.windows.of(Stage::as_cut).low));
  as_cut.set("about_g", grams(p.windows.about));
  Json out = Json::object();
  out.set("as_cut", std::move(as_cut));
  for (const Stage stage : {Stage::washed, Stage::tied, Stage::finished}) {
    out.set(word(stage), window_json(p.windows.of(stage)));
  }
  return out;
}

Json break_in_json(const Planned& p) {
  Json steps = Json::array();
  for (const records::BreakInStep& step : p.break_in) {
    Json out = Json::object();
    out.set("stretch_mm", step.stretch ? Json(step.stretch->in_mm()) : Json());
    out.set("turns", step.turns ? Json(step.turns->count()) : Json());
    out.set("cranks", step.cranks ? Json(*step.cranks) : Json());
    out.set("stop_torque_mNm", step.stop_torque ? Json(step.stop_torque->in_mnm()) : Json());
    out.set("hold_s", step.hold ? Json(step.hold->in_s()) : Json());
    out.set("rest_s", step.rest ? Json(step.rest->in_s()) : Json());
    out.set("repeat", step.repeat);
    steps.push(std::move(out));
  }
  return steps;
}

Json motor_json(const MotorFigures& motor) {
  const Planned& p = motor.planned;
  Json out = Json::object();
  out.set("id", printed(motor.id));
  out.set("check_char", std::string(1, tag::check_character(motor.id)));
  out.set("owner", p.owner);
  out.set("strip", p.strip);
  out.set("piece", p.piece.empty() ? Json() : Json(p.piece));
  out.set("strands", p.strands);
  out.set("linear_density_g_per_m", p.linear_density.value.in_g_per_m());
  out.set("linear_density_u_g_per_m", p.linear_density.u.in_g_per_m());
  out.set("limit_g", p.rule ? Json(p.rule->limit.in_g()) : Json());
  out.set("aim_g", p.aim.in_g());
  out.set("stages", stages_json(p));
  out.set("cut_mm", p.cut.in_mm());
  out.set("cut_u_mm", p.cut_u.in_mm());
  out.set("stays_mm", p.stays.in_mm());
  out.set("mm_per_mg", (Mass::mg(1) / p.linear_density.value).in_mm());
  out.set("loop_mm", p.loop.in_mm());
  out.set("width_mm", p.width ? Json(p.width->in_mm()) : Json());
  out.set("section_mm2", p.section.in_mm2());
  out.set("turns_max", p.turns_max.value.count());
  out.set("turns_max_low", p.turns_max.low.count());
  out.set("turns_max_high", p.turns_max.high.count());
  out.set("wind_to_turns", p.wind_to.count());
  out.set("torque_max_mNm", p.torque_max.value.in_mnm());
  out.set("torque_max_low_mNm", p.torque_max.low.in_mnm());
  out.set("torque_max_high_mNm", p.torque_max.high.in_mnm());
  out.set("energy_J", motor.energy ? Json(motor.energy->in_joule()) : Json());
  out.set("break_in", break_in_json(p));
  if (p.part) {
    out.set("part", *p.part);
    out.set("spacer_mm", p.spacer ? Json(p.spacer->in_mm()) : Json());
    out.set("ballast_g", grams(p.ballast));
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
    Json piece = Json::object();
    piece.set("strip", strip.name);
    piece.set("piece", strip.pieces[cuts.piece].tag);
    piece.set("piece_mm", cuts.length.in_mm());
    piece.set("motors", std::move(motors));
    piece.set("left_mm", cuts.left.in_mm());
    piece.set("scrap", cuts.scrap);
    out.push(std::move(piece));
  }
  return out;
}

}  // namespace

Json check_json(const plan::Plan& plan, const Batch& batch, const Diagnostics& diagnostics) {
  Json motors = Json::array();
  for (const MotorFigures& motor : batch.motors) {
    motors.push(motor_json(motor));
  }
  Json cut_plan = Json::object();
  cut_plan.set("proven", batch.cutting.made ? Json(batch.cutting.proven) : Json());
  cut_plan.set("gap_mm", batch.cutting.made ? Json(batch.cutting.gap.in_mm()) : Json());
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
  out.set("cuts", cuts_json(plan, batch));
  out.set("cut_plan", std::move(cut_plan));
  out.set("curve", std::move(curve));
  out.set("diagnostics", to_json(diagnostics));
  return out;
}

}  // namespace loopledger::cli
