// SPDX-License-Identifier: MIT
//
// What is looked at before an entry is added by hand or from a file, beyond what its words must be:
// values that are more likely a slip, what was said a moment ago already, and what a correction's
// time is.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/date.h"
#include "base/diagnostic.h"
#include "base/motor_id.h"
#include "motor/doubts.h"
#include "records/entry.h"

namespace loopledger::motor {

/// Errors log-doubt, one for each doubt in its order, with what to type.
[[nodiscard]] Diagnostics doubt_refusal(const MotorId& id, const std::vector<Doubt>& doubts);

/// The entry of this life that says the same of tying, winding, flying or breaking. @param at the
/// new entry's time: only what lies within motor::kSoon of it is looked at; empty: all of them are
[[nodiscard]] const records::Entry* said_before(const records::Record& record,
                                                const records::Entry& entry,
                                                const std::optional<Moment>& at);

/// Warning log-again with how to take `entry` back; empty when said_before() finds nothing. @pre
/// entry.key is set
[[nodiscard]] Diagnostics again_warning(const records::Record& record, const records::Entry& entry,
                                        const std::optional<Moment>& at);

/// The key that `corrects` means: whole, or its last four characters. Error log-corrects: none, or
/// several, or a time was given, for a correction stands at the time of what it replaces.
[[nodiscard]] Diagnostics resolve_correction(records::Entry& entry, const records::Record& record,
                                             bool time_given);

/// A key of this time that the record does not have yet; of a correction not before the others of
/// the same entry, so that the newest typed counts.
/// @param is_claimed somebody said when it was; else it stands behind all that was logged, whatever
/// the clock says
/// @param random_four four characters for records::make_key, other ones at each call
[[nodiscard]] std::string new_key(Moment at, bool is_claimed, const records::Entry& entry,
                                  const records::Record& record,
                                  const std::function<std::string()>& random_four);

}  // namespace loopledger::motor
