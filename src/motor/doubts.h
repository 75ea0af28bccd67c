// SPDX-License-Identifier: MIT
//
// The one rule set for slips: what speaks against an entry before it is stored, named by what it
// most likely is, with what to type instead. `log`, `log --from`, the bench and every other way in
// ask exactly this and nothing else; each takes the entry all the same when told a second time.
//
// An entry is held against the motor as it was at the entry's own time, or at that of what it
// corrects: see record_before().
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.h"
#include "base/quantity_text.h"
#include "calc/weigh.h"
#include "motor/now.h"
#include "records/entry.h"

namespace loopledger::motor {

/// What a doubt most likely is; the likelier of two stands first.
enum class Slip {
  point,         ///< a reading without its decimal point, or a scale in milligrams
  same_reading,  ///< the same as just now on the scale: not washed, not snipped
  unit,          ///< a loop in another unit
  digits,        ///< two digits of a loop swapped
  cranks,        ///< cranks of the winder typed as turns
  not_cranks,    ///< turns typed as cranks
  ten_times,     ///< a reading or a torque ten times off
  hours,         ///< minutes typed as hours
  time,          ///< a time before 1970 or beyond tomorrow
  ring,          ///< tied minus washed is not rings and glue
  loop,          ///< a loop that fits neither the mass nor what was planned
  mass,          ///< a reading far off
  beyond,        ///< pairs, turns left in or left over beyond what was wound, steps beyond the last
  turns,         ///< past where nearly all would have broken
  torque,        ///< past the largest torque
  head,          ///< the figures it is held against are damaged
  retired,       ///< it broke or was retired
  not_tied       ///< wound before it was tied
};
/// "point", "same-reading", …: stable, for JSON and tests.
[[nodiscard]] std::string_view code(Slip slip);

struct Doubt {
  Slip slip = Slip::mass;
  std::string typed;   ///< what was typed: "1767", "a loop of 283 cm"; may be empty
  std::string says;    ///< what speaks against it, behind `typed`
  std::string likely;  ///< what it is likely to be: "1.767 g"; may be empty
  std::string type;    ///< what to type instead: "1.767"; may be empty
};

/// "1767 looks like 1.767 g without its point"
[[nodiscard]] std::string statement(const Doubt& doubt);
/// All of them as a question in one line, the first with what to type: "…? type 1.767". Empty for
/// none.
[[nodiscard]] std::string question(const std::vector<Doubt>& doubts);

/// How a number came to be the entry's turns.
enum class TurnsAre { typed, asked_for, guessed };

/// What is known beside the record.
struct DoubtContext {
  Moment now{};
  std::optional<double> winder_ratio{};  ///< today's; else the one planned with
  Units units = Units::metric;
  bool just_typed = false;      ///< the motor's newest entry was typed at this bench
  bool stage_inferred = false;  ///< nobody said the stage of the reading
  bool in_cranks = false;       ///< the turns were typed as cranks
  TurnsAre turns_are = TurnsAre::typed;
};

/// All that speaks against `entry`, the likeliest first. Its key is set where its time is known.
/// @param now of `record`; both as they were before the entry
[[nodiscard]] std::vector<Doubt> doubts_about(const records::Record& record, const Now& now,
                                              const records::Entry& entry,
                                              const DoubtContext& context);

/// The same with the record as it was before the entry.
[[nodiscard]] std::vector<Doubt> doubts_of(const records::Record& record,
                                           const records::Entry& entry,
                                           const DoubtContext& context);

/// The record as it was when `entry` happened: what stands before it in time, each correction in
/// its place, or before the place of what it corrects. Empty: all of the record does.
[[nodiscard]] std::optional<records::Record> record_before(const records::Record& record,
                                                           const records::Entry& entry);

/// The mass that a stage should read, the middle of its window; empty without a window.
[[nodiscard]] std::optional<Mass> expected_reading(const records::Planned& planned, Stage stage);

/// Tied minus washed, held against rings and glue: "…: 1 ring forgotten?".
[[nodiscard]] std::string words_of_tying(const calc::TyingCheck& check, Mass scale_step);

// Common sense, no source, for all of these.
inline constexpr double kMassNear = 1.2;          ///< masses are planned far better than loops
inline constexpr double kTenTimes = 1.3;          ///< ten times off within this factor of that
inline constexpr double kPlannedLoopNear = 0.08;  ///< a loop off the planned one, nothing weighed
/// Of the loop before: a new knot of worked rubber is hardly shorter than this share of it.
inline constexpr double kLeastNewKnot = 0.4;
/// Fewer turns than this share of what is aimed at may be cranks.
inline constexpr double kFewTurns = 0.25;
/// A flight is hardly longer.
inline constexpr Duration kLongestFlight = Duration::h(1);
/// Within this an entry that says the same is more likely typed twice.
inline constexpr Duration kSoon = Duration::min(10);

}  // namespace loopledger::motor
