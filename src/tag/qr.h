// SPDX-License-Identifier: MIT
//
// A text as a QR symbol (ISO/IEC 18004): modules only, drawing is page/'s and pdf/'s work. Error
// correction is M, raised for as long as the version stays the same.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace loopledger::tag {

inline constexpr int kQuietModules = 4;  // [qr]

struct QrSymbol {
  int modules = 0;  ///< side without quiet zone: 17 + 4 version
  int version = 0;
  char level = 'M';        ///< M, Q or H
  std::vector<bool> dark;  ///< row by row, modules x modules
  [[nodiscard]] bool at(int column, int row) const {
    return dark[static_cast<std::size_t>(row) * static_cast<std::size_t>(modules) +
                static_cast<std::size_t>(column)];
  }
};

/// Smallest symbol for the text at level M or better. Errors: `qr-empty`, `qr-too-long`,
/// `qr-text` (not printable ASCII).
[[nodiscard]] Result<QrSymbol> make_qr(std::string_view text);

/// Version and level that make_qr gives a text, from the capacities of the standard, without
/// encoding it. Empty beyond version 9.
struct QrSize {
  int version = 0;
  char level = 'M';
  [[nodiscard]] int modules() const { return 17 + 4 * version; }
};
[[nodiscard]] std::optional<QrSize> qr_size(std::string_view text);

}  // namespace loopledger::tag
