// SPDX-License-Identifier: MIT
//
// What `print` and `label` may both be told of labels: which stock and layout, where a part-used
// sheet begins, how many of each.
#pragma once

#include <string>

#include "commands/print_setup.h"
#include "sheets/labels.h"

namespace loopledger::commands {

inline constexpr int kMaxStart = 10000;  ///< cells of a label sheet

struct LabelSheetOptions {
  std::string stock;   ///< empty: the plan's, else plain paper
  std::string layout;  ///< empty: the plan's, else by the motor's state
  int start = 1;       ///< up to kMaxStart
  int copies = 1;      ///< up to sheets::kMaxCopies
};

/// What stands in the run by these options and the setup; figures, title and date are the caller's.
[[nodiscard]] inline sheets::LabelRun label_run(const LabelSheetOptions& options,
                                                const PrintSetup& setup) {
  sheets::LabelRun run;
  run.stock = setup.labels;
  run.layouts = setup.layouts;
  run.start = options.start;
  run.copies = options.copies;
  return run;
}

}  // namespace loopledger::commands
