// SPDX-License-Identifier: MIT
//
// A label's figures as the texts that layouts name in braces. What is not known has no text.
// Private to page/.
#pragma once

#include <map>
#include <string>

#include "base/quantity_text.h"
#include "motor/label_figures.h"

namespace loopledger::sheets {

/// By the names of plan::kLabelFields.
using LabelValues = std::map<std::string, std::string, std::less<>>;

struct LabelContent {
  LabelValues values;
  bool made = false;  ///< broken in: the badge is white on black
};

[[nodiscard]] LabelContent label_content(const motor::LabelFigures& label, Units units);

}  // namespace loopledger::sheets
