// SPDX-License-Identifier: MIT
//
// Whether a label is of this ledger. Two ledgers may hold motors of the same id; what tells them
// apart is what the label says of the motor.
#pragma once

#include <string_view>
#include <vector>

#include "records/entry.h"
#include "tag/tag_text.h"

namespace loopledger::motor {

/// Which of a label's figures the record never had: "mass", "loop", "date". Empty: the label fits.
/// Compared at half of the label's last digit with all that the record has held, planned or logged,
/// corrected entries too, since a label may be older than its correction. A text that the record
/// says was printed always fits. Turns and torque change too often to tell anything.
[[nodiscard]] std::vector<std::string_view> tag_misfits(const tag::TagFigures& figures,
                                                        const records::Record& record);

}  // namespace loopledger::motor
