// SPDX-License-Identifier: MIT
#include "page/print_correction.h"

#include <fmt/format.h>

#include <cmath>
#include <vector>

#include "base/quantity_text.h"

namespace loopledger::page {
namespace {

constexpr double kHair = 0.005;  // mm; nobody sees less

}  // namespace

PrintCorrection print_correction(const plan::PrinterMiss& miss, int dpi) {
  if (dpi > 0) {
    const double dot = 25.4 / dpi;
    return {.dx = -std::round(miss.right.in_mm() / dot) * dot,
            .dy = -std::round(miss.down.in_mm() / dot) * dot};
  }
  const double across = miss.bar_across / plan::kCheckBar;
  const double down = miss.bar_down / plan::kCheckBar;
  return {.dx = -miss.right.in_mm() / across,
          .dy = -miss.down.in_mm() / down,
          .sx = 1 / across,
          .sy = 1 / down};
}

std::string described(const PrintCorrection& correction) {
  std::vector<std::string> parts;
  const auto move = [&parts](double mm, const char* plus, const char* minus) {
    if (std::abs(mm) >= kHair) {
      parts.push_back(fmt::format("{}{} mm {}", parts.empty() ? "moved " : "",
                                  rounded(std::abs(mm), 2), mm > 0 ? plus : minus));
    }
  };
  move(correction.dx, "right", "left");
  move(correction.dy, "down", "up");
  std::string text = fmt::format("{}", fmt::join(parts, " and "));
  const auto scale = [&text](double by, const char* way) {
    if (std::abs(by - 1) >= 5e-5) {
      text += fmt::format("{}scaled by {} {}", text.empty() ? "" : ", ", fixed(by, 4), way);
    }
  };
  scale(correction.sx, "across");
  scale(correction.sy, "down");
  return text;
}

}  // namespace loopledger::page
