// SPDX-License-Identifier: MIT
//
// The field card: the sheet that a flyer takes to the flying floor, where there is no signal and
// light is poor. How far to wind, what the torque meter should read there, how far to back off, the
// torque curve, and blanks for the day. With several motors a list of the box comes first.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "base/result.h"
#include "motor/card_figures.h"
#include "page/page.h"
#include "plan/stock.h"

namespace loopledger::sheets {

struct CardRun {
  std::string title;
  std::string as_of;  ///< date of the newest entry on any card
  Units units = Units::metric;
  std::optional<Moment> created;
};

/// The list when there are several motors, then a card for each that is not retired, two on a page
/// where the paper is long enough. A bookmark for each. Error: `page-paper`; warnings of canvas.h.
[[nodiscard]] Result<page::Document> field_cards(const std::vector<motor::CardMotor>& motors,
                                                 const CardRun& run, const plan::Stock& paper,
                                                 const page::FontMetrics& metrics);

}  // namespace loopledger::sheets
