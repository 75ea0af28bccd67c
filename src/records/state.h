// SPDX-License-Identifier: MIT
//
// Where a motor is in its life, from what stands in its record: the one reading that `show`,
// `list` and labels share. Entries count in the file's order, corrected ones don't.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "records/entry.h"

namespace loopledger::records {

/// A motor that broke, or was retired, is `retired` until it is tied again.
enum class State { planned, tied, broken_in, flown, retired };

/// "planned", "tied", "broken_in", "flown", "retired"
[[nodiscard]] std::string_view word(State state);
[[nodiscard]] std::optional<State> state_from(std::string_view text);

[[nodiscard]] State state_of(const std::vector<Entry>& entries);

/// What is known now of a motor, the newest of each; edited lines are left out.
struct Known {
  std::optional<Mass> washed;    ///< scale reading at that stage
  std::optional<Mass> tied;      ///< the same
  std::optional<Mass> finished;  ///< the same
  std::optional<Length> loop;    ///< as it hangs now: after break-in, else as tied
  bool loop_broken_in = false;
  std::optional<Turns> best_turns;    ///< most turns of a winding since it was tied
  std::optional<Torque> best_torque;  ///< the torque read at those turns
  std::optional<Moment> best_at;      ///< when that was, by the entry's own claim
  std::optional<Temperature> best_temperature;
  std::optional<Moment> worked_at;  ///< when it was last stretched or wound
  std::optional<Turns> backed_off;  ///< turns left in at the last launch
  int windings = 0;                 ///< since it was tied
  int flights = 0;                  ///< since it was tied
};

/// What the loop that is known now is: logged broken in, logged tied, or only planned.
[[nodiscard]] LoopIs loop_is(const Known& known);

[[nodiscard]] Known known_of(const std::vector<Entry>& entries);

/// The entries that stand and are relied on since the motor was tied, or tied again after it broke
/// or was retired: what was wound before says nothing of it.
[[nodiscard]] std::vector<const Entry*> this_life(const std::vector<Entry>& entries);

/// All its lives in order, this_life() the last of them: a motor that broke or was retired and is
/// tied again begins a new one. At least one, which may be empty.
[[nodiscard]] std::vector<std::vector<const Entry*>> lives(const std::vector<Entry>& entries);

/// The stage at which an entry weighs the motor: tying weighs it tied. Empty: it weighs nothing, or
/// does not say.
[[nodiscard]] std::optional<Stage> stage_weighed(const Entry& entry);

}  // namespace loopledger::records
