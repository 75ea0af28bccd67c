// SPDX-License-Identifier: MIT
//
// Ids as files and file names have them: exactly as printed, in no other spelling. (What people
// type is read by tag/id.h.)
#pragma once

#include <optional>
#include <string_view>

#include "base/motor_id.h"

namespace loopledger::records {

/// The id that is printed as `text`; empty when none is.
[[nodiscard]] std::optional<MotorId> printed_id_from(std::string_view text);

}  // namespace loopledger::records
