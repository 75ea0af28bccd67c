// SPDX-License-Identifier: MIT
#include "json/record_json.h"

#include "calc/break_in.h"
#include "calc/cranks.h"
#include "calc/curve.h"
#include "records/fields.h"
#include "tag/id.h"

namespace loopledger::json {
namespace {

using records::Entry;
using records::Planned;

Json gram_json(const std::optional<Mass>& mass) { return mass ? Json(mass->in_g()) : Json(); }

Json text_or_null(const std::string& text) { return text.empty() ? Json() : Json(text); }

Json window_json(const records::Window& window) {
  Json out = Json::object();
  out.set("low_g", gram_json(window.low));
  out.set("high_g", gram_json(window.high));
  out.set("guard_mg", window.guard ? Json(window.guard->in_mg()) : Json());
  return out;
}

Json stages_json(const Planned& p) {
  Json as_cut = Json::object();
  as_cut.set("low_g", gram_json(p.windows.of(Stage::as_cut).low));
  as_cut.set("about_g", gram_json(p.windows.about));
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
    const auto stop = step.stop_torque ? std::optional(calc::stop_torque(p, step)) : std::nullopt;
    out.set("stop_torque_low_mNm", stop ? Json(stop->low.in_mnm()) : Json());
    out.set("stop_torque_high_mNm", stop ? Json(stop->high.in_mnm()) : Json());
    out.set("hold_s", step.hold ? Json(step.hold->in_s()) : Json());
    out.set("rest_s", step.rest ? Json(step.rest->in_s()) : Json());
    out.set("repeat", step.repeat);
    out.set("note", text_or_null(step.note));
    steps.push(std::move(out));
  }
  return steps;
}

void set_value(Json& to, const std::string& name, const std::optional<Stage>& v) {
  to.set(name, v ? Json(word(*v)) : Json());
}
void set_value(Json& to, const std::string& name, const std::optional<WindEnd>& v) {
  to.set(name, v ? Json(word(*v)) : Json());
}
void set_value(Json& to, const std::string& name, const std::optional<BreakPlace>& v) {
  to.set(name, v ? Json(word(*v)) : Json());
}
void set_value(Json& to, const std::string& name, const std::optional<Mass>& v) {
  to.set(name + "_g", v->in_g());
}
void set_value(Json& to, const std::string& name, const std::optional<Length>& v) {
  to.set(name + "_mm", v->in_mm());
}
void set_value(Json& to, const std::string& name, const std::optional<Torque>& v) {
  to.set(name + "_mNm", v->in_mnm());
}
void set_value(Json& to, const std::string& name, const std::optional<Duration>& v) {
  to.set(name + "_s", v->in_s());
}
void set_value(Json& to, const std::string& name, const std::optional<Temperature>& v) {
  to.set(name + "_degC", v->in_deg_c());
}
void set_value(Json& to, const std::string& name, const std::optional<Turns>& v) {
  to.set(name, v->count());
}
void set_value(Json& to, const std::string& name, const std::optional<int>& v) { to.set(name, *v); }
void set_value(Json& to, const std::string& name, const std::string& v) { to.set(name, v); }
void set_value(Json& to, const std::string& name, const std::vector<records::TurnsTorque>& v) {
  Json pairs = Json::array();
  for (const records::TurnsTorque& pair : v) {
    Json one = Json::object();
    one.set("turns", pair.turns.count()).set("torque_mNm", pair.torque.in_mnm());
    pairs.push(std::move(one));
  }
  to.set(name, std::move(pairs));
}

}  // namespace

void add_planned(Json& out, const Planned& p) {
  out.set("owner", text_or_null(p.owner)).set("for", text_or_null(p.purpose));
  out.set("plan_date", p.date ? Json(iso(*p.date)) : Json());
  out.set("rule", p.rule ? Json(p.rule->name) : Json());
  out.set("strip", p.strip).set("lot", text_or_null(p.lot));
  out.set("piece", text_or_null(p.piece));
  out.set("strands", p.strands);
  out.set("linear_density_g_per_m", p.linear_density.value.in_g_per_m());
  out.set("linear_density_u_g_per_m", p.linear_density.u.in_g_per_m());
  out.set("limit_g", p.rule ? Json(p.rule->limit.in_g()) : Json());
  out.set("aim_g", p.aim.in_g());
  out.set("stages", stages_json(p));
  out.set("tails_mm", p.tails.in_mm()).set("cut_mm", p.cut.in_mm());
  out.set("cut_u_mm", p.cut_u.in_mm());
  out.set("stays_mm", p.stays.in_mm());
  out.set("mm_per_mg", (Mass::mg(1) / p.linear_density.value).in_mm());
  out.set("loop_mm", p.loop.in_mm());
  out.set("loop_broken_in_mm", calc::broken_in_loop(p.loop).in_mm());
  const auto slack = records::slack(p);
  out.set("hooks_mm", p.hooks ? Json(p.hooks->in_mm()) : Json());
  out.set("slack_mm", slack ? Json(slack->in_mm()) : Json());
  out.set("width_mm", p.width ? Json(p.width->in_mm()) : Json());
  out.set("slit", p.slit);
  out.set("section_mm2", p.section.in_mm2());
  out.set("turns_max", p.turns_max.value.count());
  out.set("turns_max_low", p.turns_max.low.count());
  out.set("turns_max_high", p.turns_max.high.count());
  out.set("wind_to_turns", p.wind_to.count());
  out.set("torque_max_mNm", p.torque_max.value.in_mnm());
  out.set("torque_max_low_mNm", p.torque_max.low.in_mnm());
  out.set("torque_max_high_mNm", p.torque_max.high.in_mnm());
  out.set("recipe", text_or_null(p.recipe));
  out.set("break_in", break_in_json(p));
  if (p.part) {
    out.set("part", *p.part);
    out.set("spacer_mm", p.spacer ? Json(p.spacer->in_mm()) : Json());
    out.set("ballast_g", gram_json(p.ballast));
  }
}

Json planned_json(const Planned& planned) {
  Json out = Json::object();
  add_planned(out, planned);
  return out;
}

Json entry_json(const Entry& entry) {
  Json out = Json::object();
  out.set("key", entry.key);
  const bool other = entry.kind == records::Kind::other;
  out.set("kind", other ? Json(entry.kind_text) : Json(records::word(entry.kind)));
  for (const records::Field& field : records::fields_of(entry.kind)) {
    if (records::toml_value(entry, field)) {
      std::visit([&](auto member) { set_value(out, std::string(field.name), entry.*member); },
                 field.member);
    }
  }
  if (!entry.unknown.empty()) {
    Json unknown = Json::object();
    for (const auto& [name, value] : entry.unknown) {
      unknown.set(name, value);
    }
    out.set("unknown", std::move(unknown));
  }
  out.set("edited", entry.edited).set("line", entry.line);
  return out;
}

namespace {

/// What launch_lines() says, as numbers.
void add_launch(Json& out, const records::Record& record, const motor::Now& a,
                const motor::Today& today) {
  const auto launch = motor::launch_curve(record, a);
  Json curve;
  Json back_off;
  Json left = Json::object();
  Json energy;
  Json specific;
  Json full;  // from its largest turns: what published figures are to be held against
  if (launch) {
    const calc::TorqueCurve& torque = launch->curve;
    Json points = Json::array();
    for (const calc::TorquePoint& p : torque.points()) {
      points.push(
          Json::object().set("turns", p.turns.count()).set("torque_mNm", p.torque.in_mnm()));
    }
    curve = Json::object();
    curve.set("own", launch->own.has_value());
    curve.set("unwinding", !launch->own || launch->own->unwinding);
    curve.set("points", std::move(points));
    const Energy stored = torque.energy_below(torque.top_turns());
    energy = stored.in_joule();
    specific = (stored / motor::rubber_of(record, a)).in_joule_per_g();
    full = (launch->full.energy_below(launch->full.top_turns()) / motor::rubber_of(record, a))
               .in_joule_per_g();
    if (today.launch) {
      back_off = calc::back_off(torque, *today.launch).count();
    }
    if (today.let_out) {
      const calc::BackedOff backed = calc::let_out(torque, *today.let_out);
      left.set("turns", backed.turns.count()).set("torque_mNm", backed.torque.in_mnm());
      left.set("energy_lost_share", backed.lost.as_ratio());
    }
  }
  out.set("back_off_turns", std::move(back_off));
  out.set("backed_off", launch && today.let_out ? std::move(left) : Json());
  out.set("curve", std::move(curve));
  out.set("energy_J", std::move(energy)).set("energy_J_per_g", std::move(specific));
  out.set("full_energy_J_per_g", std::move(full));
}

}  // namespace

Json advice_json(const records::Record& record, const motor::Now& a, const motor::Today& today) {
  Json out = Json::object();
  out.set("next", motor::next_step(record, a, today, Units::metric));
  out.set("loop_mm", a.loop.in_mm()).set("loop_is", word(a.loop_is));
  out.set("loop_growth_percent", a.growth ? Json(a.growth->in_percent()) : Json());
  out.set("wind_to_turns", a.wind_to.count());
  out.set("do_not_pass_turns", a.do_not_pass.count());
  out.set("turns_max", a.largest.value.count());
  out.set("turns_max_low", a.largest.low.count());
  out.set("turns_max_high", a.largest.high.count());
  const motor::Winding best = a.best.value_or(motor::Winding{});
  out.set("best_turns", a.best ? Json(best.turns.count()) : Json());
  out.set("best_torque_mNm", best.torque ? Json(best.torque->in_mnm()) : Json());
  out.set("best_date", best.at ? Json(iso(date_of(*best.at))) : Json());
  out.set("best_temperature_degC", best.temperature ? Json(best.temperature->in_deg_c()) : Json());
  out.set("most_turns", a.most ? Json(a.most->turns.count()) : Json());
  out.set("beyond_turns", a.beyond ? Json(a.beyond->turns.count()) : Json());
  const auto rest = motor::rested(a, today);
  out.set("full_windings", a.full_winds).set("rested_s", rest ? Json(rest->in_s()) : Json());
  out.set("recipe_step", a.step ? Json(a.step->index + 1) : Json());
  const bool geared = calc::has_cranks(today.winder_ratio);
  out.set("winder_ratio", geared ? Json(today.winder_ratio) : Json());
  out.set("cranks",
          geared ? Json(calc::cranks_to_wind_to(a.wind_to, a.do_not_pass, today.winder_ratio))
                 : Json());
  out.set("do_not_pass_cranks",
          geared ? Json(calc::cranks_at_most(a.do_not_pass, today.winder_ratio)) : Json());
  add_launch(out, record, a, today);
  out.set("energy_change_percent",
          today.temperature && best.temperature
              ? Json(calc::energy_change(*best.temperature, *today.temperature).in_percent())
              : Json());
  out.set("windings", a.windings).set("flights", a.flights);
  out.set("washed_g", gram_json(a.read.washed)).set("tied_g", gram_json(a.read.tied));
  out.set("finished_g", gram_json(a.read.finished));
  Json marks = Json::array();
  for (const std::string& line : motor::mark_lines(a, Units::metric)) {
    marks.push(line);
  }
  const std::string mark = motor::mark_words(a);
  out.set("mark", mark.empty() ? Json() : Json(mark));
  out.set("knots", a.lives.size()).set("marks", std::move(marks));
  return out;
}

Json record_json(const records::Record& record, const motor::Today& today,
                 const Diagnostics& diagnostics) {
  const motor::Now now = motor::now_of(record);
  Json planned = json::planned_json(record.planned);
  planned.set("edited", record.planned_edited);
  Json entries = Json::array();
  for (const Entry& e : record.entries) {
    entries.push(json::entry_json(e));
  }
  Json out = Json::object();
  out.set("format", 1)
      .set("id", printed(record.id))
      .set("check_char", std::string(1, tag::check_character(record.id)));
  out.set("state", word(now.state)).set("torn", record.torn);
  out.set("planned", std::move(planned)).set("entries", std::move(entries));
  out.set("advice", json::advice_json(record, now, today))
      .set("diagnostics", json::to_json(diagnostics));
  return out;
}

}  // namespace loopledger::json
