// SPDX-License-Identifier: MIT
//
// The figures a motor was planned with: what calc/ works out, what the ledger keeps for good, and
// what sheets and labels print. Everything that is needed to judge a later reading is in here, so
// that a motor can be weighed without its plan. All of it is data; calc/ fills it.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "base/date.h"
#include "base/quantity.h"
#include "base/terms.h"

namespace loopledger::records {

/// The scale readings between which a motor may be left at one stage. As cut has no `high`.
struct Window {
  std::optional<Mass> low;   ///< on the scale's step, rounded up
  std::optional<Mass> high;  ///< on the scale's step, rounded down
  /// How far the counted mass is under the limit at the highest reading that the rule allows there,
  /// not rounded. A window of a given mass may end lower.
  std::optional<Mass> guard;
  friend bool operator==(const Window&, const Window&) = default;
};

struct Windows {
  std::array<Window, 4> at{};  ///< by Stage
  std::optional<Mass> about;   ///< as cut: what the whole cut strip should read, talc on
  [[nodiscard]] const Window& of(Stage s) const { return at[static_cast<std::size_t>(s)]; }
  [[nodiscard]] Window& of(Stage s) { return at[static_cast<std::size_t>(s)]; }
  friend bool operator==(const Windows&, const Windows&) = default;
};

/// One break-in step with its figures. Empty where the recipe's step does not say.
struct BreakInStep {
  std::optional<Length> stretch;  ///< hook to hook
  std::optional<Turns> turns;
  std::optional<int> cranks;          ///< whole ones that its turns hold, by the plan's winder
  std::optional<Torque> stop_torque;  ///< stop at turns or torque, whichever comes first
  std::optional<Duration> hold;
  std::optional<Duration> rest;
  int repeat = 1;
  std::string note{};  ///< what numbers can't say
};

/// The rule a motor was planned under.
struct PlannedRule {
  std::string name;
  Mass limit;
  Counts counts;
  Weighed weighed = Weighed::fresh;
  Mass official_error;
  friend bool operator==(const PlannedRule&, const PlannedRule&) = default;
};

struct Planned {
  // Whose it is and what for.
  std::string title;  ///< of the plan
  std::optional<Date> date;
  std::string purpose;  ///< `for`
  std::string owner;

  // What it is made of.
  std::string strip;
  std::string lot;
  std::string piece;            ///< tag of the piece it is cut from; empty: no cutting plan
  std::optional<Length> width;  ///< of the strip, or as it is to be slit
  bool slit = false;            ///< width is to be slit from a wider strip
  int strands = 2;
  Uncertain<LinearDensity> linear_density;  ///< washed; of the slit strip when slit
  Density density;
  Area section;  ///< all strands together, not stretched
  Length knot;
  Length tails;
  Length allowance;  ///< as given, or what the cut's 95 % interval needs
  Uncertain<Share> talc;
  std::string ring;  ///< name; empty: none
  int ring_count = 0;
  Uncertain<Mass> rings;  ///< all rings of one motor; u without the event's scale
  std::string lubricant;
  Uncertain<Share> uptake;
  Uncertain<Share> left;
  std::string adhesive;
  Uncertain<Mass> adhesive_mass;

  // What it is held against.
  std::optional<PlannedRule> rule;
  Mass scale_step;
  Mass scale_error;
  Length ruler_step;
  Share confidence;

  // What it should become.
  bool aim_is_limit = false;  ///< mass = "limit": the window hangs from the rule's limit
  bool loop_given = false;    ///< the plan gave the loop length: it carries no uncertainty
  Mass aim;                   ///< washed rubber, middle of the unrounded washed window
  Mass window;                ///< width asked for
  Windows windows;
  Length stays;  ///< n L + knot
  Length cut;    ///< what the piece gives up
  Length cut_u;  ///< of the strip that stays: 1.96 of it are half its 95 % interval
  Length loop;   ///< as tied
  std::optional<Length> hooks;
  std::optional<double> part;    ///< share of the full motor
  std::optional<Length> spacer;  ///< of a part motor with known hooks
  std::optional<Mass> ballast;   ///< of a part motor: full mass - part mass

  // What it should stand. Estimates; never shown as the number to wind to.
  double turns_factor = 0;    ///< k_N
  double turns_factor_u = 0;  ///< relative
  bool turns_factor_fitted = false;
  Pressure torque_factor;      ///< k_Q
  double torque_factor_u = 0;  ///< relative
  bool torque_factor_given = false;
  Estimate<Turns> turns_max;
  Turns wind_to;
  Estimate<Torque> torque_max;
  double winder_ratio = 1;
  std::string recipe;  ///< name; empty: none
  std::vector<BreakInStep> break_in;
};

/// Do not pass: the lower end of the interval of the largest turns.
[[nodiscard]] inline Turns do_not_pass(const Planned& p) { return p.turns_max.low; }

/// How much longer the loop, as tied, is than the room it has between the hooks (beside the spacer
/// of a part motor); negative: it has to be stretched to reach. Empty: no hook distance is known.
[[nodiscard]] inline std::optional<Length> slack(const Planned& p) {
  return p.hooks ? std::optional(p.loop + p.spacer.value_or(Length{}) - *p.hooks) : std::nullopt;
}

}  // namespace loopledger::records
