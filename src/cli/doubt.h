// SPDX-License-Identifier: MIT
//
// Values that are more likely a slip of the finger or of the scale than true: the bench asks back
// before it stores them, `log` refuses the worst unless told that they are meant. Pure.
#pragma once

#include <optional>
#include <string>

#include "base/quantity_text.h"
#include "records/entry.h"

namespace loopledger::cli {

/// A value is near what is wanted within this factor. Common sense, no source.
inline constexpr double kNear = 1.35;

/// The mass that a stage should read, the middle of its window; empty without a window.
[[nodiscard]] std::optional<Mass> expected_reading(const records::Planned& planned, Stage stage);

/// Why the entry can hardly be true: a reading far from what was planned, more turns than nearly
/// all motors stand. Empty when nothing speaks against it.
[[nodiscard]] std::string hardly_true(const records::Record& record, const records::Entry& entry);

/// Why the entry should be asked back at the bench: the same, a loop far from what was planned, a
/// ring forgotten. Empty when nothing speaks against it.
[[nodiscard]] std::string doubt_about(const records::Record& record, const records::Entry& entry,
                                      Units units);

}  // namespace loopledger::cli
