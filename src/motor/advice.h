// SPDX-License-Identifier: MIT
//
// What a motor is to do next, in words, from what it is now (motor/now.h). `show`, `scan`, labels
// and cards read it here; no figure is worked out in here but those of the launch.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "calc/break_in.h"
#include "calc/own_curve.h"
#include "motor/now.h"
#include "records/entry.h"

namespace loopledger::motor {

/// What is asked of the day, all optional.
struct Today {
  std::optional<Moment> now;
  std::optional<Temperature> temperature;
  std::optional<Torque> launch;  ///< torque wanted at launch
  std::optional<Turns> let_out;  ///< turns to be let out before it: the reverse
  double winder_ratio = 1;       ///< of today's winder; 1: not known, turns alone are told
};

/// A step of the recipe for the loop as it is.
[[nodiscard]] calc::StepNow step_now_of(const records::Planned& planned, const motor::Now& now,
                                        std::size_t index);

/// "set +3.0 %"; far from what was published, or shrunk, it says so. @pre now.growth
[[nodiscard]] std::string set_words(const motor::Now& now);

/// What to do next, a sentence without its full stop.
[[nodiscard]] std::string next_step(const records::Record& record, const motor::Now& now,
                                    const Today& today, Units units);

/// What is not as it should be, a line each: damage that figures rest on, lines that are not relied
/// on, entries that count in another place than where they stand, windings past "do not pass".
[[nodiscard]] std::vector<std::string> mark_lines(const motor::Now& now, Units units);
/// The same in a few words for a label, a card or a row; empty when all is well.
[[nodiscard]] std::string mark_words(const motor::Now& now);

/// How long it has rested since it was last stretched or wound; empty: never, or the clock says
/// earlier.
[[nodiscard]] std::optional<Duration> rested(const motor::Now& now, const Today& today);

/// The torque of a motor as it unwinds (calc/unwinding.h).
struct LaunchCurve {
  calc::TorqueCurve curve;            ///< from its best winding
  calc::TorqueCurve full;             ///< from its largest turns, or its best winding beyond them
  std::optional<calc::OwnCurve> own;  ///< where its shape was read; empty: the default's
};

/// From its best winding and the torque read there; without that torque, from the top of its own
/// curve. Empty: no torque is known.
[[nodiscard]] std::optional<LaunchCurve> launch_curve(const records::Record& record,
                                                      const motor::Now& now);

/// "torque curve: its own, 5 torques read while unwinding on 2026-05-01"
[[nodiscard]] std::string curve_words(const calc::OwnCurve& own);

/// The lines of launch and energy: what to back off for the torque that is asked for, what is left
/// when turns are let out, where the curve comes from, the energy. Only what is known or asked.
[[nodiscard]] std::vector<std::string> launch_lines(const records::Record& record,
                                                    const motor::Now& now, const Today& today,
                                                    Units units);

/// "1180 turns = 118 cranks"; whole turns, none more than asked for.
[[nodiscard]] std::string turns_and_cranks(Turns turns, double ratio);

/// The mass of its rubber, by the newest reading of the scale, else as planned.
[[nodiscard]] Mass rubber_of(const records::Record& record, const motor::Now& now);

/// The lines under "Next": best winding, windings, rest, set, launch, temperature. Only what is
/// known.
[[nodiscard]] std::vector<std::string> today_lines(const records::Record& record,
                                                   const motor::Now& now, const Today& today,
                                                   Units units);

}  // namespace loopledger::motor
