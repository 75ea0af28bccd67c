// SPDX-License-Identifier: MIT
//
// Motor ids as people write and type them: "TH-01-K" is stem, number, check character. The check
// is ISO/IEC 7064 hybrid MOD 37,36 over stem and number as printed, without the hyphen [7064].
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

/// "TH-01-K"
[[nodiscard]] std::string with_check(const MotorId& id);

struct TypedId {
  MotorId id;
  bool checked = false;  ///< a check character was typed, and it was right
};

/// Reads an id as typed: any case, with or without hyphens and check, leading zeros free ("th1",
/// "TH-01", "th-01-k", "TH01K"). Behind a hyphen, in the number, O is 0, I and L are 1; as check,
/// 0 and 1 are accepted for O and I. A wrong check is an error `id-check` whose hint names the ids
/// one slip away; text that is no id is `id-form`.
[[nodiscard]] Result<TypedId> id_from(std::string_view typed);

}  // namespace loopledger::tag
