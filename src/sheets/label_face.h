// SPDX-License-Identifier: MIT
//
// One label: a layout's lines filled with what is known, set into the room that there is. Which
// lines, in what size and order, is the layout's (plan/label_layout.h); here stands how they are
// fitted: shrunk, broken, or left out by their rank when the label is low. Private to page/.
#pragma once

#include <string>
#include <vector>

#include "page/canvas.h"
#include "plan/label_layout.h"
#include "sheets/label_grid.h"
#include "sheets/label_values.h"

namespace loopledger::sheets {

/// Where text may stand: a column beside the code, and a first line that may be wider when the
/// code stands below it.
struct LabelRoom {
  Rect column;
  double first_width = 0;
  double first_scale = 1;  ///< the first line's size, of what the layout gives it
};

/// Millimetres that the layout's first line takes in a room of this height.
[[nodiscard]] double first_line_height(const plan::LabelLayout& layout, double room_height,
                                       double scale);

/// Millimetres across that the first line needs to stand in its full size, badge included; 0 when
/// it may be fitted as any other.
[[nodiscard]] double first_line_width(page::Canvas& canvas, const plan::LabelLayout& layout,
                                      const LabelContent& content, double room_height);

/// Sets the lines into the room. Returns the names of those that were left out because the label
/// is too low for them.
[[nodiscard]] std::vector<std::string> draw_label_text(page::Canvas& canvas,
                                                       const plan::LabelLayout& layout,
                                                       const LabelContent& content,
                                                       const LabelRoom& room);

}  // namespace loopledger::sheets
