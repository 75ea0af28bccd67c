// SPDX-License-Identifier: MIT
//
// The words of a tag, one field each, as tag_text.cpp writes them: shared by the writer, the reader
// and the comparison with a record, so that the digits are decided in one place. Each word is empty
// where the figure is not known or outside what its field holds.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "tag/tag_text.h"

namespace loopledger::tag {

inline constexpr std::string_view kVersionWord = "L1";

[[nodiscard]] std::string state_word(const std::optional<TagState>& state);
[[nodiscard]] std::string turns_word(const std::optional<Turns>& turns);     ///< 1180T
[[nodiscard]] std::string torque_word(const std::optional<Torque>& torque);  ///< 44GFCM, 4.4GFCM
[[nodiscard]] std::string mass_word(const std::optional<Mass>& mass);        ///< 1.496G
[[nodiscard]] std::string loop_word(const std::optional<Length>& loop);      ///< 303MM
[[nodiscard]] std::string date_word(const std::optional<Date>& date);        ///< 260131

/// Decimals in grams with which a mass is printed: 3, or 1 from 100 g on.
[[nodiscard]] int mass_decimals(Mass mass);

}  // namespace loopledger::tag
