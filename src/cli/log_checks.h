// SPDX-License-Identifier: MIT
//
// What is looked at before an entry is added by hand or from a file, beyond what its words must be:
// values that can hardly be true, and what was said a moment ago already.
#pragma once

#include <optional>

#include "base/date.h"
#include "base/diagnostic.h"
#include "records/entry.h"

namespace loopledger::cli {

/// Within this an entry that says the same is more likely typed twice. Common sense, no source.
inline constexpr Duration kSoon = Duration::min(10);

/// Error log-doubt when the entry can hardly be true (cli/doubt.h); else empty.
[[nodiscard]] Diagnostics doubt_refusal(const records::Record& record, const records::Entry& entry);

/// The entry of this life that says the same of tying, winding, flying or breaking. @param at the
/// new entry's time: only what lies within kSoon of it is looked at; empty: all of them are
[[nodiscard]] const records::Entry* said_before(const records::Record& record,
                                                const records::Entry& entry,
                                                const std::optional<Moment>& at);

/// Warning log-again with how to take `entry` back; empty when said_before() finds nothing. @pre
/// entry.key is set
[[nodiscard]] Diagnostics again_warning(const records::Record& record, const records::Entry& entry,
                                        const std::optional<Moment>& at);

}  // namespace loopledger::cli
