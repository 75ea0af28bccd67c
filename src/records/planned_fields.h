// SPDX-License-Identifier: MIT
//
// The keys of a record's [planned] table, each named once: the writer and the reader both walk
// these lists, so they can't drift apart. Quantities, flags and numbers are always written, texts
// and optional values only when there is something to write; a reader asks for all that is always
// written. Keys are never reused for something else.
//
// `io(name, member)` is called for each; `P` is Planned or const Planned.
#pragma once

#include "records/planned.h"

namespace loopledger::records {

template <class Io, class P>
void walk_material(Io& io, P& p) {
  io("title", p.title);
  io("date", p.date);
  io("for", p.purpose);
  io("owner", p.owner);
  io("strip", p.strip);
  io("lot", p.lot);
  io("piece", p.piece);
  io("width", p.width);
  io("slit", p.slit);
  io("strands", p.strands);
  io("linear_density", p.linear_density);
  io("density", p.density);
  io("section", p.section);
  io("knot", p.knot);
  io("tails", p.tails);
  io("allowance", p.allowance);
  io("talc", p.talc);
  io("ring", p.ring);
  io("ring_count", p.ring_count);
  io("rings", p.rings);
  io("lubricant", p.lubricant);
  io("uptake", p.uptake);
  io("left", p.left);
  io("adhesive", p.adhesive);
  io("adhesive_mass", p.adhesive_mass);
}

template <class Io, class P>
void walk_aim(Io& io, P& p) {
  io("rule", p.rule);
  io("scale_step", p.scale_step);
  io("scale_error", p.scale_error);
  io("ruler_step", p.ruler_step);
  io("confidence", p.confidence);
  io("aim_is_limit", p.aim_is_limit);
  io("loop_given", p.loop_given);
  io("aim", p.aim);
  io("window", p.window);
  io("as_cut", p.windows.of(Stage::as_cut));
  io("about", p.windows.about);
  io("washed", p.windows.of(Stage::washed));
  io("tied", p.windows.of(Stage::tied));
  io("finished", p.windows.of(Stage::finished));
  io("stays", p.stays);
  io("cut", p.cut);
  io("cut_u", p.cut_u);
  io("loop", p.loop);
  io("hooks", p.hooks);
  io("part", p.part);
  io("spacer", p.spacer);
  io("ballast", p.ballast);
}

template <class Io, class P>
void walk_strength(Io& io, P& p) {
  io("turns_factor", p.turns_factor);
  io("turns_factor_u", p.turns_factor_u);
  io("turns_factor_fitted", p.turns_factor_fitted);
  io("torque_factor", p.torque_factor);
  io("torque_factor_u", p.torque_factor_u);
  io("torque_factor_given", p.torque_factor_given);
  io("turns_max", p.turns_max);
  io("wind_to", p.wind_to);
  io("torque_max", p.torque_max);
  io("winder_ratio", p.winder_ratio);
  io("recipe", p.recipe);
  io("break_in", p.break_in);
}

template <class Io, class P>
void walk_planned(Io& io, P& p) {
  walk_material(io, p);
  walk_aim(io, p);
  walk_strength(io, p);
}

template <class Io, class R>
void walk_rule(Io& io, R& rule) {
  io("name", rule.name);
  io("limit", rule.limit);
  io("counts", rule.counts);
  io("weighed", rule.weighed);
  io("official_error", rule.official_error);
}

template <class Io, class W>
void walk_window(Io& io, W& window) {
  io("low", window.low);
  io("high", window.high);
  io("guard", window.guard);
}

template <class Io, class E>
void walk_estimate(Io& io, E& estimate) {
  io("value", estimate.value);
  io("low", estimate.low);
  io("high", estimate.high);
}

template <class Io, class S>
void walk_step(Io& io, S& step) {
  io("stretch", step.stretch);
  io("turns", step.turns);
  io("cranks", step.cranks);
  io("stop_torque", step.stop_torque);
  io("hold", step.hold);
  io("rest", step.rest);
  io("repeat", step.repeat);
  io("note", step.note);
}

}  // namespace loopledger::records
