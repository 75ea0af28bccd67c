// SPDX-License-Identifier: MIT
#include "tag/qr_fit.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/quantity_text.h"

namespace loopledger::tag {
namespace {

constexpr double kRounding = 1e-9;  // a module that misses by less is taken as fitting

/// The largest module that room, bounds and printer allow; zero when the printer has none.
Length largest_module(int modules, Length room, int dpi) {
  const Length module =
      std::min({kModuleMax, kSymbolMax / modules, room / (modules + 2 * kQuietModules)});
  if (dpi <= 0) {
    return module;
  }
  const Length dot = Length::in(1) / dpi;
  return dot * std::floor(module / dot + kRounding);
}

bool reaches(Length module, Length wanted) { return module >= wanted * (1 - kRounding); }

/// Modules on the symbol's side; by encoding it where the table ends.
Result<int> modules_of(const std::string& text) {
  if (const auto size = qr_size(text)) {
    return size->modules();
  }
  const auto symbol = make_qr(text);
  return symbol ? Result<int>(symbol->modules) : Result<int>(symbol.diagnostics());
}

Diagnostic no_room(Length room, int modules, int dpi) {
  Length module = kModuleMin;
  if (dpi > 0) {
    const Length dot = Length::in(1) / dpi;
    module = dot * std::ceil(kModuleMin / dot - kRounding);
  }
  const Length needed = module * (modules + 2 * kQuietModules);
  return error("qr-room",
               "the QR code needs a square of " + fixed(std::ceil(needed.in_mm() * 10) / 10, 1) +
                   " mm, and the label leaves " + fixed(room.in_mm(), 1) + " mm",
               "use larger labels, or a shorter link");
}

}  // namespace

Result<QrFit> qr_fit(std::span<const std::string> texts, Length room, int dpi) {
  const std::string* chosen = nullptr;
  Length module;
  int modules = 0;
  for (const std::string& text : texts) {
    const auto size = modules_of(text);
    if (!size) {
      return size.diagnostics();
    }
    const Length here = largest_module(*size, room, dpi);
    if (chosen == nullptr || here > module) {
      chosen = &text;
      module = here;
      modules = *size;
    }
    if (reaches(module, kModuleGood)) {
      break;
    }
  }
  if (chosen == nullptr) {
    return error("qr-empty", "expected a text for the QR code, found none");
  }
  if (!reaches(module, kModuleMin)) {
    return no_room(room, modules, dpi);
  }
  return QrFit{*chosen, modules, module};
}

}  // namespace loopledger::tag
