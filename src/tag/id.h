// SPDX-License-Identifier: MIT
//
// Motor ids as people write and type them: "TH-01-J" is stem, number, check character. The check
// is ISO/IEC 7064 hybrid MOD 37,36 over stem and number as printed, without the hyphen [7064].
//
// How typed text is split. With two hyphens nothing is open: stem, number, check. Without a hyphen
// the longest run of digits at the end is the number, and one character behind it is the check, so
// a stem that ends in a digit needs its hyphen ("F1-03"; "f1d03" is F1D-03). Where a last digit
// could be either ("TH077": TH-77, or TH-07 with check 7), it belongs to the number, unless the
// text is exactly the printed form of an id with its right check: then it is an error, since both
// motors may exist.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/motor_id.h"
#include "base/result.h"

namespace loopledger::tag {

/// Check character over 0-9 and A-Z. Source: [7064], MOD 37,36.
/// @pre text is upper case letters and digits only
[[nodiscard]] char check_character(std::string_view text);

[[nodiscard]] char check_character(const MotorId& id);

/// "TH-01-J"
[[nodiscard]] std::string with_check(const MotorId& id);

struct TypedId {
  MotorId id;
  bool checked = false;  ///< a check character was typed, and it was exactly right
};

/// Reads an id as typed: any case, with or without hyphens and check, leading zeros free ("th1",
/// "TH-01", "th-01-k", "TH01K"). Behind a hyphen, in the number, O is 0, I and L are 1; as check,
/// 0 and 1 are accepted for O and I (not `checked` then: one slip in 500 would pass). A wrong check
/// is an error `id-check` whose hint names the ids one slip away; text that is no id, or that can
/// be two, is `id-form`.
[[nodiscard]] Result<TypedId> id_from(std::string_view typed);

/// The ids that one slip (a wrong character, or two neighbours swapped) turns into what was typed,
/// most plausible first: a wrong check, then swaps, then wrong digits, then wrong letters. Empty
/// for text without a check. A ledger may keep those that it holds.
[[nodiscard]] std::vector<MotorId> ids_one_slip_away(std::string_view typed);

}  // namespace loopledger::tag
