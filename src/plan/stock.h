// SPDX-License-Identifier: MIT
//
// Paper and label stock as data: a sheet's size and the grid of labels on it. Named by their
// dimensions in templates/stock. plan/read_stock.h reads the TOML.
#pragma once

#include <string>

#include "base/quantity.h"

namespace loopledger::plan {

struct Stock {
  std::string name;
  std::string text;  ///< what it is, in a few words
  Length paper_width;
  Length paper_height;
  // Labels; columns 0 = plain paper.
  int columns = 0;
  int rows = 0;
  Length label_width;
  Length label_height;
  Length pitch_x;
  Length pitch_y;
  Length left;
  Length top;
  int dpi = 0;  ///< > 0: a label printer, modules on whole dots
  [[nodiscard]] bool is_labels() const { return columns > 0; }
  [[nodiscard]] int per_sheet() const { return columns * rows; }
};

}  // namespace loopledger::plan
