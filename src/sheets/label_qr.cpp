// SPDX-License-Identifier: MIT
#include "sheets/label_qr.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "tag/qr_fit.h"

namespace loopledger::sheets {
namespace {

/// Moved to a whole dot of the printer, so that no module's edge falls between two; never under
/// `least`.
double on_dot(double mm, double least, double dot) {
  if (dot <= 0) {
    return std::max(mm, least);
  }
  const double below = std::floor(mm / dot + 1e-6) * dot;
  return below + 1e-6 >= least ? below : std::ceil(least / dot - 1e-6) * dot;
}

/// Height of the room that a symbol takes, with what of its quiet zone reaches into it from above.
double room_needed(const tag::QrFit& fit, const Rect& cell, const Rect& room) {
  const double module = fit.module.in_mm();
  const double quiet = module * tag::kQuietModules;
  return module * fit.modules + std::max(0.0, quiet - (room.y - cell.y));
}

}  // namespace

Result<PlacedQr> place_qr(const std::vector<std::string>& texts, const Rect& cell, const Rect& room,
                          double share, int dpi) {
  // The symbol stays in the room; its quiet zone, being blank, may lie over the label's clear edge.
  const double quiet_at_least = tag::kModuleMin.in_mm() * tag::kQuietModules;
  const double dot = dpi > 0 ? 25.4 / dpi : 0;
  const double square = std::min({cell.h - dot, room.h + 2 * quiet_at_least, room.w * share});
  Result<tag::QrFit> fit = tag::qr_fit(texts, Length::mm(square), dpi);
  if (fit && room_needed(*fit, cell, room) > room.h) {
    const double share_of = room.h / room_needed(*fit, cell, room);
    fit = tag::qr_fit(texts, Length::mm(square * share_of), dpi);
  }
  if (!fit) {
    return fit.diagnostics();
  }
  const double module = fit->module.in_mm();
  const double side = module * fit->modules;
  const double quiet = module * tag::kQuietModules;
  const double x = on_dot(std::min(room.x + room.w, cell.x + cell.w - quiet) - side, room.x, dot);
  const double y = on_dot(std::min(room.y + (room.h - side) / 2, cell.y + cell.h - quiet - side),
                          cell.y + quiet, dot);
  return PlacedQr{.x = x,
                  .y = y,
                  .module = module,
                  .text = std::move(fit->text),
                  .text_width = x - quiet - room.x};
}

}  // namespace loopledger::sheets
