// SPDX-License-Identifier: MIT
//
// CRC-32C, the checksum of records: polynomial 0x1EDC6F41, bits reflected, begun with and ended by
// all ones, as in RFC 3720 (iSCSI), 12.1. Check value: "123456789" -> e3069283.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace loopledger::records {

[[nodiscard]] std::uint32_t crc32c(std::string_view bytes);

/// Eight lower-case hexadecimal digits, as records hold it.
[[nodiscard]] std::string crc32c_text(std::string_view bytes);

}  // namespace loopledger::records
