// SPDX-License-Identifier: MIT
//
// From what a user measured on a test page to what makes a print come out true.
#pragma once

#include <string>

#include "page/page.h"
#include "plan/printer_misses.h"
#include "plan/stock.h"

namespace loopledger::page {

/// The inverse of the miss: what comes out `right` and `down` of its place, on a scale of bar : 100
/// mm, comes out true. On a label printer (dpi > 0) only the shift, in whole dots: a stretched code
/// would no longer lie on dots.
[[nodiscard]] PrintCorrection print_correction(const plan::PrinterMiss& miss, int dpi);

/// "moved 0.6 mm left and 0.3 mm down, scaled by 1.004 across"; empty when nothing is changed.
[[nodiscard]] std::string described(const PrintCorrection& correction);

}  // namespace loopledger::page
