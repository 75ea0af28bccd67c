// SPDX-License-Identifier: MIT
#include "page/label_qr.h"

#include <algorithm>
#include <utility>

#include "tag/qr_fit.h"

namespace loopledger::page {
namespace {

constexpr double kShareOfWidth = 0.44;  // of the room, quiet zone included; people read the rest

}  // namespace

Result<PlacedQr> place_qr(const std::vector<std::string>& texts, const Rect& cell, const Rect& room,
                          int dpi) {
  // The symbol stays in the room; its quiet zone, being blank, may lie over the label's clear edge.
  const double quiet_at_least = tag::kModuleMin.in_mm() * tag::kQuietModules;
  const double square = std::min({cell.h, room.h + 2 * quiet_at_least, room.w * kShareOfWidth});
  Result<tag::QrFit> fit = tag::qr_fit(texts, Length::mm(square), dpi);
  if (!fit) {
    return fit.diagnostics();
  }
  const double module = fit->module.in_mm();
  const double side = module * fit->symbol.modules;
  const double quiet = module * tag::kQuietModules;
  const double x = std::min(room.x + room.w, cell.x + cell.w - quiet) - side;
  const double y = std::clamp(room.y + (room.h - side) / 2, cell.y + quiet,
                              std::max(cell.y + quiet, cell.y + cell.h - quiet - side));
  return PlacedQr{.qr = {.x = x,
                         .y = y,
                         .module = module,
                         .symbol = std::move(fit->symbol),
                         .text = std::move(fit->text)},
                  .text_width = x - quiet - room.x};
}

}  // namespace loopledger::page
