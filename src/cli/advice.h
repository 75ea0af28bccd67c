// SPDX-License-Identifier: MIT
//
// What is known of a motor now, and what to do next: the planned figures brought up to date with
// what its record says since. `show`, `scan`, labels and cards read it here.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "calc/break_in.h"
#include "calc/own_curve.h"
#include "records/entry.h"
#include "records/state.h"

namespace loopledger::cli {

/// The step of the recipe that comes next.
struct NextStep {
  std::size_t index = 0;  ///< into Planned::break_in
  int time = 1;           ///< of its repeats, from 1
};

struct Advice {
  records::State state = records::State::planned;
  records::Known known;
  Length loop;                  ///< now: logged, else as planned
  Length loop_as_tied;          ///< logged, else as planned
  bool tied_logged = false;     ///< that was logged
  std::optional<Share> growth;  ///< of the broken-in loop over the loop as tied: the set
  Estimate<Turns> largest;      ///< for the loop as it is now
  Turns wind_to;
  Turns do_not_pass;
  int full_winds = 0;            ///< windings to kFullWind of `wind_to` and more
  std::optional<NextStep> step;  ///< empty: no recipe, it is done, or the motor was wound since
};

/// From this share of "wind to" on, a winding counts as a full one. Common sense, no source.
inline constexpr double kFullWind = 0.9;

/// Largest turns go with the loop length (figure 4): a broken-in length moves them.
[[nodiscard]] Advice advice_for(const records::Record& record);

/// The step of the recipe that comes next, or, with `winding`, the next one that winds. A
/// break-in entry that names its step counts for that step, another for the one that is next; who
/// is at a step has done with those before it. Empty: no recipe, it is done, or the motor was wound
/// since.
[[nodiscard]] std::optional<NextStep> next_of_recipe(const records::Record& record,
                                                     bool with_turns);

/// A step of the recipe for the loop as it is.
[[nodiscard]] calc::StepNow step_now_of(const records::Planned& planned, const Advice& advice,
                                        std::size_t index);

/// "set +3.0 %"; far from what was published, or shrunk, it says so. @pre advice.growth
[[nodiscard]] std::string set_words(const Advice& advice);

/// What to do next, a sentence without its full stop.
[[nodiscard]] std::string next_step(const records::Record& record, const Advice& advice,
                                    Units units);

/// What is asked of the day, all optional.
struct Today {
  std::optional<Moment> now;
  std::optional<Temperature> temperature;
  std::optional<Torque> launch;  ///< torque wanted at launch
  std::optional<Turns> let_out;  ///< turns to be let out before it: the reverse
};

/// How long it has rested since it was last stretched or wound; empty: never, or the clock says
/// earlier.
[[nodiscard]] std::optional<Duration> rested(const Advice& advice, const Today& today);

/// The torque of a motor as it unwinds (calc/unwinding.h).
struct LaunchCurve {
  calc::TorqueCurve curve;            ///< from its best winding
  calc::TorqueCurve full;             ///< from its largest turns, or its best winding beyond them
  std::optional<calc::OwnCurve> own;  ///< where its shape was read; empty: the default's
};

/// From its best winding and the torque read there; without that torque, from the top of its own
/// curve. Empty: no torque is known.
[[nodiscard]] std::optional<LaunchCurve> launch_curve(const records::Record& record,
                                                      const Advice& advice);

/// "torque curve: its own, 5 torques read while unwinding on 2026-05-01"
[[nodiscard]] std::string curve_words(const calc::OwnCurve& own);

/// The lines of launch and energy: what to back off for the torque that is asked for, what is left
/// when turns are let out, where the curve comes from, the energy. Only what is known or asked.
[[nodiscard]] std::vector<std::string> launch_lines(const records::Record& record,
                                                    const Advice& advice, const Today& today,
                                                    Units units);

/// "1180 turns = 118 cranks"; whole turns, none more than asked for.
[[nodiscard]] std::string turns_and_cranks(Turns turns, double ratio);

/// The mass of its washed rubber, without tails, by its washed reading; empty when there is none.
[[nodiscard]] std::optional<Mass> washed_rubber(const records::Record& record,
                                                const Advice& advice);
/// The same, or as planned.
[[nodiscard]] Mass rubber_of(const records::Record& record, const Advice& advice);

/// The lines under "Next": best winding, windings, rest, set, launch, temperature. Only what is
/// known.
[[nodiscard]] std::vector<std::string> today_lines(const records::Record& record,
                                                   const Advice& advice, const Today& today,
                                                   Units units);

}  // namespace loopledger::cli
