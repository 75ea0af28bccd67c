// SPDX-License-Identifier: MIT
//
// A label's QR symbol in its place: at the right, as large as tag/qr_fit.h makes it in the share of
// the label that people's text can spare. Private to page/.
#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "page/page.h"
#include "sheets/label_grid.h"

namespace loopledger::sheets {

struct PlacedQr {
  double x = 0;
  double y = 0;
  double module = 0;
  std::string text;       ///< still to be encoded, by tag::make_qr
  double text_width = 0;  ///< what is left of the room for text, quiet zone kept
};

/// Where the symbol of one of `texts` (longest first) goes at the right end of `room`, centred in
/// its height; with its quiet zone it takes at most `share` of the room's width, people read the
/// rest. The quiet zone stays inside `cell`; with `dpi` > 0 modules lie on whole dots of the
/// printer. Errors: those of tag::qr_fit.
[[nodiscard]] Result<PlacedQr> place_qr(const std::vector<std::string>& texts, const Rect& cell,
                                        const Rect& room, double share, int dpi);

}  // namespace loopledger::sheets
