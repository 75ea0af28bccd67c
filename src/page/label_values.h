// SPDX-License-Identifier: MIT
//
// A label's figures as the texts that layouts name in braces. What is not known has no text.
// Private to page/.
#pragma once

#include <map>
#include <string>

#include "base/quantity_text.h"
#include "page/label_figures.h"

namespace loopledger::page {

/// By the names of plan::kLabelFields.
using LabelValues = std::map<std::string, std::string, std::less<>>;

struct LabelContent {
  LabelValues values;
  bool made = false;  ///< broken in: the badge is white on black
};

[[nodiscard]] LabelContent label_content(const LabelFigures& label, Units units);

/// "2.38 mm" or "0.094 in": a strip's width as its maker would state it.
[[nodiscard]] std::string strip_width_text(Length width, Units units);

}  // namespace loopledger::page
