// SPDX-License-Identifier: MIT
//
// Labels for remnants of strip, so that next month nobody has to measure what lies on the shelf.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "base/result.h"
#include "page/page.h"
#include "sheets/labels.h"

namespace loopledger::sheets {

struct RemnantFigures {
  std::string strip;
  std::string lot;
  std::string tag;  ///< of the piece
  std::optional<Length> width;
  Length left;
  std::optional<Date> date;
};

/// One label for each remnant by the run's layout for remnants. Warnings: page-cut, page-glyph.
/// Errors: page-stock, label-start, label-none.
[[nodiscard]] Result<page::Document> remnant_labels(const std::vector<RemnantFigures>& remnants,
                                                    const LabelRun& run,
                                                    const page::FontMetrics& metrics);

}  // namespace loopledger::sheets
