// SPDX-License-Identifier: MIT
//
// Which text goes into a label's QR code, and how large its modules are, for the room there is. A
// larger module is worth more than a longer text: under 0.45 mm phones begin to fail.
#pragma once

#include <span>
#include <string>

#include "base/quantity.h"
#include "base/result.h"
#include "tag/qr.h"

namespace loopledger::tag {

inline constexpr Length kModuleGood = Length::mm(0.45);  // wanted wherever there is room
inline constexpr Length kModuleMax = Length::mm(0.80);
inline constexpr Length kModuleMin = Length::mm(0.35);  // never under it
inline constexpr Length kSymbolMax = Length::mm(22);    // side without quiet zone

struct QrFit {
  std::string text;
  int modules = 0;  ///< of the symbol that make_qr gives the text, on a side without quiet zone
  Length module;
  /// Side with the quiet zone.
  [[nodiscard]] Length side() const { return module * (modules + 2 * kQuietModules); }
};

/// The first of `texts` (longest first) whose modules reach 0.45 mm in a square of side `room`,
/// quiet zone included; if none does, the one with the largest modules. Modules are at most 0.80
/// mm, the symbol without its quiet zone at most 22 mm; with `dpi` > 0 a module is a whole number
/// of the printer's dots. Nothing is encoded that has a qr_size: encoding takes most of a label's
/// time, and layouts ask for several rooms. Errors: `qr-empty`, `qr-room` when no module of 0.35 mm
/// fits, and those of make_qr.
[[nodiscard]] Result<QrFit> qr_fit(std::span<const std::string> texts, Length room, int dpi);

}  // namespace loopledger::tag
