// SPDX-License-Identifier: MIT
//
// What a motor is called: a stem of 1 to 8 letters or digits and a number, printed "TH-01" (two
// digits, three from 100 on). The check character and the reading of typed ids are in tag/id.h.
#pragma once

#include <compare>
#include <string>
#include <string_view>

namespace loopledger {

inline constexpr int kStemMaxLength = 8;
inline constexpr int kMotorNumberMax = 9999;
/// What stems, numbers and check characters are made of, in the order of [7064].
inline constexpr std::string_view kIdAlphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";

struct MotorId {
  std::string stem;  ///< upper case, A-Z and 0-9
  int number = 0;    ///< 1 to kMotorNumberMax
  // NOLINTNEXTLINE(modernize-use-nullptr): the 0 is the compiler's own
  friend auto operator<=>(const MotorId&, const MotorId&) = default;
};

/// "TH-01"
[[nodiscard]] std::string printed(const MotorId& id);

/// 1 to 8 of A-Z, a-z, 0-9.
[[nodiscard]] bool is_stem(std::string_view text);

}  // namespace loopledger
