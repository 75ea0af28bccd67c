// SPDX-License-Identifier: MIT
#include "motor/life_fold.h"

#include <algorithm>
#include <cmath>

#include "calc/break_in.h"
#include "calc/turns_torque.h"
#include "calc/weigh.h"

namespace loopledger::motor {
namespace {

using records::Entry;
using records::Kind;

State state_after(State now, const Entry& e) {
  switch (e.kind) {
    case Kind::tied:
      return std::max(now, State::tied);
    case Kind::weighed:
      return e.stage == Stage::tied || e.stage == Stage::finished ? std::max(now, State::tied)
                                                                  : now;
    case Kind::break_in:
      return std::max(now, State::broken_in);
    case Kind::wound:
      return e.end == WindEnd::broke ? State::retired : std::max(now, State::broken_in);
    case Kind::flown:
      return std::max(now, State::flown);
    case Kind::broke:
    case Kind::retired:
      return State::retired;
    case Kind::planned:
    case Kind::labelled:
    case Kind::piece:
    case Kind::note:
    case Kind::other:
      break;
  }
  return now;
}

bool works(Kind kind) {
  return kind == Kind::break_in || kind == Kind::wound || kind == Kind::flown ||
         kind == Kind::broke || kind == Kind::retired;
}

bool gives_figures(Kind kind) {
  return kind == Kind::weighed || kind == Kind::tied || kind == Kind::break_in ||
         kind == Kind::wound;
}

bool same_mass(const records::Planned& p, Mass a, Mass b) {
  const double u = calc::scale_u(p.scale_step, p.scale_error).in_si();
  return std::fabs((a - b).in_si()) <= 3 * std::sqrt(2.0) * u + 1e-15;
}

constexpr Mass kNoMass = Mass::mg(1e-6);  ///< what binary fractions make of a reading

bool is_past(const Entry& wound, Turns most) { return wound.turns && *wound.turns > most; }

/// Of two windings, the one to go by: with a torque, then with more turns; of equal ones the first.
bool is_better(const Winding& a, const Winding& than) {
  return a.torque.has_value() != than.torque.has_value() ? a.torque.has_value()
                                                         : a.turns > than.turns;
}

}  // namespace

LifeFold::LifeFold(const records::Planned& planned)
    : planned_(&planned), section_(planned.section), done_(planned.break_in.size(), 0) {}

bool LifeFold::is_ended_by(const Entry& tied) const {
  if (tied.kind != Kind::tied) {
    return false;
  }
  return worked_ || (tied.loop && tied_loop_ && !same_loop(p(), *tied.loop, *tied_loop_)) ||
         (tied.reading && read_.tied && !same_mass(p(), *tied.reading, *read_.tied));
}

std::optional<Mass> LifeFold::washed_kept(const Entry& tied) const {
  if (worked_ || !read_.washed) {
    return std::nullopt;
  }
  const Mass rubber = calc::rubber_in(p(), Stage::washed, *read_.washed);
  const bool loop_fits =
      !tied.loop ||
      (rubber > Mass{} && std::fabs((*tied.loop - loop_of_mass(p(), rubber)).in_si()) <=
                              loop_tolerance(p(), rubber).in_si());
  const bool mass_fits =
      !tied.reading || calc::check_tying(p(), *read_.washed, *tied.reading).agrees;
  return loop_fits && mass_fits ? read_.washed : std::nullopt;
}

Area LifeFold::thickest_washed(Length loop) const {
  const Mass rubber = calc::rubber_in(p(), Stage::washed, *read_.washed);
  if (rubber <= Mass{} || p().density <= Density{} || p().linear_density.value <= LinearDensity{}) {
    return section_;
  }
  const Length least = loop_of_mass(p(), rubber) - loop_tolerance(p(), rubber);
  if (least <= Length{} || loop >= least) {
    return section_;
  }
  return rubber / (least * p().strands + p().knot) * p().strands / p().density;
}

LifeFold LifeFold::followed_by(const Entry& tied) const {
  LifeFold next(p());
  if (const auto washed = washed_kept(tied)) {
    next.read_.washed = washed;
    next.last_stage_ = Stage::washed;
  }
  const bool is_longer = tied.loop && tied_loop_ && *tied.loop > *tied_loop_;
  if (!worked_ && !is_longer) {
    // The same strip: what was tied off made it no thinner, and no longer.
    next.section_ = figures().section;
    next.longest_ = longest();
    if (!next.read_.washed && read_.washed && tied.loop) {
      next.section_ = std::max(next.section_, thickest_washed(*tied.loop));
    }
  }
  return next;
}

void LifeFold::take(const Standing& standing) {
  const Entry& e = *standing.entry;
  life_.entries.push_back(standing);
  state_ = state_after(state_, e);
  take_reading(e);
  take_loops(e);
  worked_ = worked_ || works(e.kind);
  if (e.kind == Kind::break_in) {
    take_step(e);
  }
  if (e.kind == Kind::wound || e.kind == Kind::broke) {
    take_strain(e);
  }
  if (e.kind == Kind::wound || e.kind == Kind::break_in) {
    worked_at_ = standing.at;
  }
  if (gives_figures(e.kind) && standing.at) {
    figures_at_ = standing.at;
  }
  flights_ += e.kind == Kind::flown ? 1 : 0;
}

void LifeFold::take_reading(const Entry& e) {
  const auto stage = stage_weighed(e);
  if (!stage) {
    return;
  }
  switch (*stage) {
    case Stage::as_cut:
      read_.as_cut = e.reading;
      return;
    case Stage::washed:
      read_.washed = e.reading;
      break;
    case Stage::tied:
      read_.tied = e.reading;
      break;
    case Stage::finished:
      read_.finished = e.reading;
      break;
  }
  last_stage_ = stage;
}

void LifeFold::take_loops(const Entry& e) {
  if (e.kind == Kind::tied && e.loop) {
    tied_loop_ = e.loop;
  }
  if (e.kind == Kind::break_in && e.loop_before) {
    (worked_ ? broken_in_loop_ : tied_loop_) = e.loop_before;
  }
  if (e.kind == Kind::break_in && e.loop_after) {
    broken_in_loop_ = e.loop_after;
  }
}

void LifeFold::take_step(const Entry& e) {
  const auto next = [&] {
    std::size_t i = 0;
    while (i < done_.size() && done_[i] >= p().break_in[i].repeat) {
      ++i;
    }
    return i;
  };
  const std::size_t at = e.step ? static_cast<std::size_t>(std::max(*e.step, 1) - 1) : next();
  if (at >= done_.size()) {
    return;
  }
  for (std::size_t i = 0; i < at; ++i) {
    done_[i] = std::max(done_[i], p().break_in[i].repeat);  // who is at step 3 has done with 1, 2
  }
  ++done_[at];
}

void LifeFold::take_strain(const Entry& e) {
  wound_ = wound_ || e.kind == Kind::wound;
  if (e.kind == Kind::wound && e.end == WindEnd::solid && e.turns && *e.turns > Turns{}) {
    solid_ = solid_ ? std::min(*solid_, *e.turns) : *e.turns;
  }
  const Figures now = figures();
  life_.strains.push_back({&e, now.counts, now.section});
}

std::optional<Mass> LifeFold::rubber() const {
  if (!last_stage_) {
    return std::nullopt;
  }
  return calc::rubber_in(p(), *last_stage_, *read_.of(*last_stage_));
}

std::optional<Mass> LifeFold::strip() const {
  const auto& low = p().windows.of(Stage::as_cut).low;
  if (!last_stage_ && read_.as_cut && low && *read_.as_cut < *low - kNoMass) {
    return calc::rubber_in(p(), Stage::as_cut, *read_.as_cut);
  }
  return rubber();
}

std::optional<Length> LifeFold::longest() const {
  const auto mass = strip();
  if (!mass || *mass <= Mass{} || p().linear_density.value <= LinearDensity{}) {
    return longest_;
  }
  const Length of_mass = loop_of_mass(p(), *mass) + loop_tolerance(p(), *mass);
  return longest_ ? std::min(of_mass, *longest_) : of_mass;
}

LifeFold::Figures LifeFold::figures() const {
  Figures out;
  out.section = section_;
  out.as_tied = tied_loop_.value_or(p().loop);
  const auto mass = strip();
  const bool weighs = mass && *mass > Mass{} && p().linear_density.value > LinearDensity{};
  if (weighs) {
    // Held against the planned window, which is of washed rubber without its tails. Strip as cut
    // counts only where it is too light.
    const Stage stage = last_stage_.value_or(Stage::as_cut);
    const records::Window& window = p().windows.of(stage);
    const Mass reads = stage == Stage::washed ? *mass : *read_.of(stage);
    const bool is_light = window.low && reads < *window.low - kNoMass;
    const bool is_heavy = window.high && reads > *window.high + kNoMass;
    const Length of_mass = loop_of_mass(p(), *mass);
    if (!tied_loop_ && is_light && of_mass < p().loop) {
      out.as_tied = of_mass;
      out.of_mass = true;
    }
    // Washed strip that is too heavy for its limit is still to be snipped; all else that is too
    // heavy for its loop is thicker.
    const bool is_snipped = !tied_loop_ && p().aim_is_limit && stage == Stage::washed;
    const bool is_thick =
        stage != Stage::as_cut && (tied_loop_ ? out.as_tied < of_mass : is_heavy && !is_snipped);
    if (is_thick && p().density > Density{}) {
      const LinearDensity read = *mass / (out.as_tied * p().strands + p().knot);
      out.section = std::max(section_, read * p().strands / p().density);
    }
  }
  out.loop = out.as_tied;
  if (broken_in_loop_) {
    out.loop = *broken_in_loop_;
    out.loop_is = LoopIs::broken_in;
    out.of_mass = false;
  } else if (tied_loop_) {
    out.loop_is = LoopIs::tied;
  }
  const auto most = longest();
  out.held = tied_loop_ && most && out.as_tied > *most ? most : std::nullopt;
  const Length tied = out.held.value_or(out.as_tied);
  out.counts = broken_in_loop_ ? std::min(out.loop, tied * (1 + kMostGrowth)) : tied;
  return out;
}

std::optional<NextStep> LifeFold::next_step(bool winding) const {
  if (wound_) {
    return std::nullopt;
  }
  for (std::size_t i = 0; i < done_.size(); ++i) {
    if (done_[i] < p().break_in[i].repeat && (!winding || calc::winds(p().break_in[i]))) {
      return NextStep{i, done_[i] + 1};
    }
  }
  return std::nullopt;
}

void LifeFold::finish_turns(Now& now, const Figures& f) const {
  now.largest = p().turns_max;
  now.wind_to = p().wind_to;
  if (p().loop > Length{} && p().section > Area{} && p().linear_density.value > LinearDensity{}) {
    // The planned turns for what the motor is now, and what the factor gives for it: in a sound
    // head the same but for rounding, in a damaged one, or one accepted as it was, neither raises
    // the other.
    constexpr double kSame = 1 - 1e-6;
    const double grown = f.counts / p().loop * std::sqrt(p().section / f.section);
    const Estimate<Turns>& planned = p().turns_max;
    now.largest = {planned.value * grown, planned.low * grown, planned.high * grown};
    now.wind_to = p().wind_to * grown;
    const calc::Factor<double> k{p().turns_factor, p().turns_factor_u};
    const double u = p().linear_density.u / p().linear_density.value;
    const Estimate<Turns> by_factor = calc::largest_turns(k, f.counts, f.section, u);
    const Turns wind_to = calc::wind_to(by_factor, k, u, p().turns_factor_fitted);
    now.largest = by_factor.low < now.largest.low * kSame ? by_factor : now.largest;
    now.wind_to = wind_to < now.wind_to * kSame ? wind_to : now.wind_to;
  }
  if (solid_) {
    now.wind_to = std::min(now.wind_to, *solid_ * kOfSolid);
  }
  if (solid_ && *solid_ < now.largest.low) {
    now.largest = {*solid_, *solid_, std::max(now.largest.high, *solid_)};
  }
  now.do_not_pass = now.largest.low;
  now.wind_to = std::min(now.wind_to, calc::most_to_wind(now.do_not_pass));  // heads may say more
}

void LifeFold::finish(Now& now) {
  const Figures f = figures();
  now.state = state_;
  now.read = read_;
  now.washed = read_.washed ? std::optional(calc::rubber_in(p(), Stage::washed, *read_.washed))
                            : std::nullopt;
  now.rubber = rubber();
  now.loop = f.loop;
  now.loop_is = f.loop_is;
  now.loop_of_mass = f.of_mass;
  now.loop_as_tied = f.as_tied;
  now.tied_measured = tied_loop_.has_value();
  now.section = f.section;
  now.loop_held = f.held;
  if (broken_in_loop_ && f.as_tied > Length{}) {
    now.growth = Share::ratio(*broken_in_loop_ / f.as_tied - 1);
  }
  finish_turns(now, f);
  now.flights = flights_;
  now.worked_at = worked_at_;
  now.figures_at = figures_at_;
  now.step = next_step(false);
  now.winding_step = next_step(true);
  finish_windings(now);
}

void LifeFold::finish_windings(Now& now) {
  for (const Standing& standing : life_.entries) {
    const Entry& e = *standing.entry;
    if (e.kind != Kind::wound) {
      continue;
    }
    ++now.windings;
    now.last_turns = e.turns ? e.turns : now.last_turns;
    if (e.backed_off && (!e.turns || *e.backed_off <= *e.turns)) {
      now.backed_off = e.backed_off;
    }
    if (is_past(e, now.do_not_pass)) {
      now.marked.push_back({Mark::beyond, &e, nullptr});
    } else if (auto own = calc::own_curve_of(e); own && own->curve.top_turns() <= now.do_not_pass) {
      now.own_curve = std::move(own);
    }
    if (!e.turns || *e.turns <= Turns{}) {
      continue;
    }
    now.full_winds += *e.turns >= kFullWind * now.wind_to ? 1 : 0;
    const bool read = e.torque && *e.torque > Torque{};
    const Winding winding{*e.turns, read ? e.torque : std::nullopt, standing.at, e.temperature};
    if (is_past(e, now.do_not_pass)) {
      now.beyond = !now.beyond || winding.turns > now.beyond->turns ? winding : now.beyond;
      continue;
    }
    now.most = !now.most || winding.turns > now.most->turns ? winding : now.most;
    now.best = !now.best || is_better(winding, *now.best) ? winding : now.best;
  }
}

}  // namespace loopledger::motor
