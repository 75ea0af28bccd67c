// SPDX-License-Identifier: MIT
//
// PNG chunks with right checksums: else hardly anything that a fuzzer makes is looked into.
#pragma once

#include <string>
#include <string_view>

namespace loopledger::fuzz {

/// The bytes with the checksum of each whole chunk put right; bytes of anything else as they are.
[[nodiscard]] std::string with_right_checksums(std::string_view bytes);

}  // namespace loopledger::fuzz
