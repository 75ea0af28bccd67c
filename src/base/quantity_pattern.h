// SPDX-License-Identifier: MIT
//
// Regular expressions for what base/quantity_text.h reads, made from its own tables, for editors
// that check a plan while it is typed. Only what every dialect knows: groups, alternatives, classes
// of ASCII characters, repetition and anchors.
//
// They take all that the readers take, but for an exponent in a mixed number ("1e1 1/2"). What an
// expression can't tell they take and the readers refuse: a value out of bounds, a mixed number
// whose fraction is 1 or more ("12 3/2"), a number too large to hold, times in the wrong order
// ("30 min 1 h"). A minus is taken before 0 only:
// no quantity that a plan asks for is negative.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace loopledger {

inline constexpr std::size_t kMaxQuantityText = 100;  ///< bytes of a text that the readers take

/// Whether a number without a unit will do for this kind: a share, or "number" for a factor. From
/// the tables of quantity_text.cpp, as all that the patterns say.
[[nodiscard]] bool may_be_bare(std::string_view kind);

/// A bare number: what number_from reads.
[[nodiscard]] std::string number_pattern();

/// A quantity; `kind` as in UnitName, or "number" for a factor. `uncertain`: it may carry a "±".
[[nodiscard]] std::string quantity_pattern(std::string_view kind, bool uncertain);

}  // namespace loopledger
