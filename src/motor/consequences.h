// SPDX-License-Identifier: MIT
//
// What follows from an entry that was just added, in words: `log` and the bench share it. Pure.
#pragma once

#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "calc/weigh.h"
#include "motor/now.h"
#include "records/entry.h"

namespace loopledger::motor {

/// "it was 2 mg over when washed": of a reading behind one that was over, nothing taken off since;
/// else empty.
[[nodiscard]] std::string over_before(const records::Planned& planned, Stage stage, Mass now,
                                      const motor::Readings& before);

/// "lubricant counts too, and the motor names none"; empty where all that the rule counts is named.
[[nodiscard]] std::string unnamed_words(const records::Planned& planned);

/// "set +3.0 %" of a motor whose growth is known.
[[nodiscard]] std::string growth_words(const records::Record& record);

/// "a new knot: best 1050 turns and the loop of 292 mm are history"; and what to do if it was only
/// measured again. Empty: the entry begins no new life.
/// @param take_back how the entry is taken back: "undo", or a command
[[nodiscard]] std::vector<std::string> new_knot_words(const records::Record& before,
                                                      const records::Record& after,
                                                      const records::Entry& entry, Units units,
                                                      const std::string& take_back);

/// "replaces wound to 1450 turns; counts at its time, 2026-05-01 10:00"; what a note takes back,
/// and what counts again. Empty: the entry corrects nothing.
[[nodiscard]] std::string correction_words(const records::Record& before,
                                           const records::Record& after,
                                           const records::Entry& entry, Units units);

/// All of it, a line each.
[[nodiscard]] std::vector<std::string> consequences(const records::Record& before,
                                                    const records::Record& after,
                                                    const records::Entry& entry, Units units);

}  // namespace loopledger::motor
