// SPDX-License-Identifier: MIT
//
// Slow and obviously right: from one knot to the next, as questions to the whole list of what
// counts there; and where each knot begins. Part of slow_model.h.
#pragma once

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <vector>

#include "calc/turns_torque.h"
#include "calc/weigh.h"
#include "motor/now.h"

namespace loopledger::test {

using motor::Standing;
using records::Entry;
using records::Kind;

using Places = std::vector<Standing>;
using Question = std::function<bool(const Entry&)>;

/// The newest place of which something holds; null: none.
inline const Standing* newest(const Places& places, const Question& holds) {
  const auto found = std::find_if(places.rbegin(), places.rend(),
                                  [&](const Standing& s) { return holds(*s.entry); });
  return found == places.rend() ? nullptr : &*found;
}

inline int count(const Places& places, const Question& holds) {
  return static_cast<int>(
      std::ranges::count_if(places, [&](const Standing& s) { return holds(*s.entry); }));
}

inline bool is(const Entry& e, Kind kind) { return e.kind == kind; }

inline bool is_break(const Entry& e) {
  return is(e, Kind::broke) || (is(e, Kind::wound) && e.end == WindEnd::broke);
}

inline bool is_over(const Entry& e) { return is_break(e) || is(e, Kind::retired); }

inline bool is_worked(const Entry& e) {
  return is_over(e) || is(e, Kind::wound) || is(e, Kind::break_in) || is(e, Kind::flown);
}

/// A knot's life up to some moment, and what is still known of the strip from before its knot.
struct Story {
  const records::Planned& p;
  Places places;
  std::optional<Mass> kept;
  Area at_least;                    ///< section
  std::optional<Length> at_most{};  ///< loop

  [[nodiscard]] bool worked() const { return newest(places, is_worked) != nullptr; }

  // --- what the scale said -----------------------------------------------------------------------
  [[nodiscard]] std::optional<Mass> reading(Stage stage) const {
    const Standing* const s = newest(
        places, [&](const Entry& e) { return motor::stage_weighed(e) == std::optional(stage); });
    return s != nullptr ? s->entry->reading : stage == Stage::washed ? kept : std::nullopt;
  }
  [[nodiscard]] std::optional<Mass> washed_rubber() const {
    const auto read = reading(Stage::washed);
    return read ? std::optional(calc::counted(p, Stage::washed, *read).rubber) : std::nullopt;
  }
  /// The stage of the newest reading behind "as cut".
  [[nodiscard]] std::optional<Stage> newest_stage() const {
    const Standing* const s = newest(places, [](const Entry& e) {
      const auto stage = motor::stage_weighed(e);
      return stage && *stage != Stage::as_cut;
    });
    return s != nullptr ? motor::stage_weighed(*s->entry)
           : kept       ? std::optional(Stage::washed)
                        : std::nullopt;
  }
  [[nodiscard]] std::optional<Mass> rubber() const {
    const auto stage = newest_stage();
    return stage ? std::optional(calc::counted(p, *stage, *reading(*stage)).rubber) : std::nullopt;
  }
  /// The rubber that the loop is made of, at most.
  [[nodiscard]] bool is_cut_light() const {
    const auto cut = reading(Stage::as_cut);
    const auto low = p.windows.of(Stage::as_cut).low;
    return !newest_stage() && cut && low && cut->in_mg() < low->in_mg() - 1e-6;
  }
  [[nodiscard]] std::optional<Mass> strip() const {
    return is_cut_light()
               ? std::optional(calc::counted(p, Stage::as_cut, *reading(Stage::as_cut)).rubber)
               : rubber();
  }
  /// Against the window that it was planned with: -1 lighter, 0 within, 1 heavier.
  [[nodiscard]] int verdict() const {
    const auto stage = newest_stage();
    if (!stage) {
      return is_cut_light() ? -1 : 0;
    }
    const double mg = (*stage == Stage::washed ? *rubber() : *reading(*stage)).in_mg();
    const records::Window window = p.windows.of(*stage);
    return window.low && mg < window.low->in_mg() - 1e-6     ? -1
           : window.high && mg > window.high->in_mg() + 1e-6 ? 1
                                                             : 0;
  }

  // --- what the ruler said -----------------------------------------------------------------------
  /// Whether something was done to this knot before that place.
  [[nodiscard]] bool worked_before(const Standing& s) const {
    return std::any_of(places.data(), &s, [](const Standing& b) { return is_worked(*b.entry); });
  }
  /// All lengths of the loop as tied, or all as broken in, in the order in which they were read.
  [[nodiscard]] std::vector<Length> lengths(bool broken_in) const {
    std::vector<Length> read;
    for (const Standing& s : places) {
      const bool breaks_in = is(*s.entry, Kind::break_in);
      if (is(*s.entry, Kind::tied) && s.entry->loop && !broken_in) {
        read.push_back(*s.entry->loop);
      }
      if (breaks_in && s.entry->loop_before && worked_before(s) == broken_in) {
        read.push_back(*s.entry->loop_before);
      }
      if (breaks_in && s.entry->loop_after && broken_in) {
        read.push_back(*s.entry->loop_after);
      }
    }
    return read;
  }
  [[nodiscard]] std::optional<Length> tied() const {
    const auto read = lengths(false);
    return read.empty() ? std::nullopt : std::optional(read.back());
  }
  [[nodiscard]] std::optional<Length> broken_in() const {
    const auto read = lengths(true);
    return read.empty() ? std::nullopt : std::optional(read.back());
  }
  [[nodiscard]] std::optional<Length> of_mass() const {
    const auto mass = strip();
    if (tied() || !mass || *mass <= Mass{} || verdict() >= 0) {
      return std::nullopt;
    }
    const Length loop = motor::loop_of_mass(p, *mass);
    return loop < p.loop ? std::optional(loop) : std::nullopt;
  }
  [[nodiscard]] Length as_tied() const {
    return tied() ? *tied() : of_mass() ? *of_mass() : p.loop;
  }
  [[nodiscard]] Length loop() const { return broken_in().value_or(as_tied()); }

  // --- what it stands ----------------------------------------------------------------------------
  [[nodiscard]] std::optional<Length> longest() const {
    const auto mass = strip();
    if (!mass || *mass <= Mass{}) {
      return at_most;
    }
    const Length most = motor::loop_of_mass(p, *mass) + motor::loop_tolerance(p, *mass);
    return at_most && *at_most < most ? at_most : std::optional(most);
  }
  /// The longest that the mass allows, if what was measured is longer.
  [[nodiscard]] std::optional<Length> held() const {
    return tied() && longest() && *tied() > *longest() ? longest() : std::nullopt;
  }
  [[nodiscard]] Length loop_for_turns() const {
    const Length knot = held().value_or(as_tied());
    return broken_in() && *broken_in() < knot * (1 + motor::kMostGrowth) ? *broken_in()
           : broken_in() ? knot * (1 + motor::kMostGrowth)
                         : knot;
  }
  [[nodiscard]] bool is_to_be_snipped() const {
    return p.aim_is_limit && newest_stage() == Stage::washed;
  }
  /// Shorter than its mass allows.
  [[nodiscard]] bool is_too_short(Mass rubber) const {
    if (tied()) {
      return *tied() < motor::loop_of_mass(p, rubber);
    }
    return verdict() > 0 && !is_to_be_snipped();
  }
  [[nodiscard]] Area section() const {
    const auto mass = rubber();
    if (!mass || *mass <= Mass{} || !is_too_short(*mass)) {
      return std::max(p.section, at_least);
    }
    const LinearDensity strip = *mass / (p.strands * as_tied() + p.knot);
    return std::max({p.section, at_least, p.strands * (strip / p.density)});
  }
  [[nodiscard]] double density_u() const { return p.linear_density.u / p.linear_density.value; }
  [[nodiscard]] calc::Factor<double> factor() const { return {p.turns_factor, p.turns_factor_u}; }
  [[nodiscard]] Estimate<Turns> by_factor() const {
    return calc::largest_turns(factor(), loop_for_turns(), section(), density_u());
  }
  /// Of the planned turns, for this loop and section.
  [[nodiscard]] double of_planned() const {
    return loop_for_turns() / p.loop / std::sqrt(section() / p.section);
  }
  /// The fewest turns at which it felt solid.
  [[nodiscard]] std::optional<Turns> solid() const {
    std::optional<Turns> fewest;
    for (const Standing& s : places) {
      const Entry& e = *s.entry;
      if (is(e, Kind::wound) && e.end == WindEnd::solid && e.turns && *e.turns > Turns{} &&
          (!fewest || *e.turns < *fewest)) {
        fewest = e.turns;
      }
    }
    return fewest;
  }
  [[nodiscard]] Estimate<Turns> of_rubber() const {
    const Estimate<Turns>& plan = p.turns_max;
    const double share = of_planned();
    return by_factor().low < plan.low * share * (1 - 1e-6)
               ? by_factor()
               : Estimate<Turns>{plan.value * share, plan.low * share, plan.high * share};
  }
  [[nodiscard]] bool felt_solid_early() const { return solid() && *solid() < of_rubber().low; }
  [[nodiscard]] Estimate<Turns> largest() const {
    return felt_solid_early()
               ? Estimate<Turns>{*solid(), *solid(), std::max(of_rubber().high, *solid())}
               : of_rubber();
  }
  [[nodiscard]] Turns wind_to() const {
    const Turns by_rule = calc::wind_to(by_factor(), factor(), density_u(), p.turns_factor_fitted);
    const Turns by_plan = p.wind_to * of_planned();
    Turns most = calc::most_to_wind(largest().low);
    most = solid() ? std::min(most, *solid() * motor::kOfSolid) : most;
    return std::min(by_rule < by_plan * (1 - 1e-6) ? by_rule : by_plan, most);
  }
};

/// All of them, the last is this one.
[[nodiscard]] std::vector<Story> stories_of(const records::Record& record, const Places& places);

}  // namespace loopledger::test
