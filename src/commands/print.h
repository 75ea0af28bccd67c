// SPDX-License-Identifier: MIT
//
// `print PLAN`: cut sheet, break-in sheet and labels as PDF, and a record for each motor. PDFs are
// written beside their places first, then the records are opened, then the PDFs are put in place:
// whatever stops it on the way, doing it again is harmless.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/motor_id.h"
#include "base/quantity_text.h"
#include "calc/figures.h"
#include "commands/documents.h"
#include "commands/label_sheet.h"
#include "commands/world.h"
#include "plan/plan.h"

namespace loopledger::commands {

struct PrintRequest {
  std::string plan;               ///< "-": standard input
  std::string records;            ///< empty: as records_folder() says
  std::string out;                ///< folder for the PDFs; empty: "out" beside the plan
  std::vector<std::string> only;  ///< ids of the plan as typed; empty: all
  bool new_only = false;          ///< those without a record, in place of `only`
  std::optional<Units> units;     ///< none: the plan's
  LabelSheetOptions labels;
  std::string paper;            ///< empty: the plan's
  bool short_of_strip = false;  ///< what can be cut when the pieces don't reach
  bool overwrite = false;       ///< files that this program did not write too
};

/// With an error in `said` the rest is empty.
struct PrintAnswer {
  std::vector<WrittenFile> files;
  std::string records;          ///< the folder
  std::vector<MotorId> opened;  ///< records
  std::size_t kept = 0;         ///< records that were there already
  plan::Plan plan;
  calc::Batch batch;  ///< of the plan, for what its shelf holds afterwards
  Diagnostics said;
};

/// Errors: usage-missing, print-only, print-new; those of load_plan, calc::work_out,
/// set_up_printing, check_batch, compare_with_ledger, Documents and Ledger::open.
[[nodiscard]] PrintAnswer print(const PrintRequest& request, World& world);

}  // namespace loopledger::commands
