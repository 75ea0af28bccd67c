// SPDX-License-Identifier: MIT
#include "records/crc32c.h"

#include <fmt/format.h>

#include <boost/crc.hpp>

namespace loopledger::records {

std::uint32_t crc32c(std::string_view bytes) {
  boost::crc_optimal<32, 0x1EDC6F41, 0xFFFFFFFF, 0xFFFFFFFF, true, true> sum;
  sum.process_bytes(bytes.data(), bytes.size());
  return static_cast<std::uint32_t>(sum.checksum());
}

std::string crc32c_text(std::string_view bytes) { return fmt::format("{:08x}", crc32c(bytes)); }

}  // namespace loopledger::records
