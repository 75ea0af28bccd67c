// SPDX-License-Identifier: MIT
//
// `label ID...`: labels with the figures as they now stand; those that are out of date; or those
// for the remnants that a night leaves.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "base/motor_id.h"
#include "base/quantity_text.h"
#include "commands/label_sheet.h"
#include "commands/world.h"

namespace loopledger::commands {

/// Motors by `ids` or `stale` or both; or else `pieces`.
struct LabelRequest {
  std::vector<std::string> ids;  ///< as typed
  bool stale = false;            ///< all motors whose label is out of date
  std::string pieces;            ///< a plan, for its remnants; "-": standard input
  bool short_of_strip = false;   ///< of `pieces`: what is left when the pieces don't reach
  std::string records;           ///< empty: as records_folder() says
  std::string out = "out";       ///< folder for the PDF
  std::optional<Units> units;    ///< none: the plan's, else metric
  LabelSheetOptions labels;
  bool overwrite = false;  ///< a file that this program did not write too
};

struct LabelAnswer {
  bool understood = true;       ///< no: the request itself is wrong, as `said` tells
  std::string file;             ///< the PDF; empty: nothing was printed
  std::size_t labels = 0;       ///< in it, all copies counted
  std::vector<MotorId> motors;  ///< none for remnants
  bool replaced = false;        ///< motors' labels stand in place of a file that was there
  Diagnostics said;             ///< there may be errors of noting in the records though `file` is
                                ///< there
};

/// Notes in each record what its label now says. Errors: usage-missing, none-label, none-record;
/// those of load_plan, calc::work_out, set_up_printing, find_record, torn_refusal, sheets::labels,
/// sheets::remnant_labels, Documents and Ledger::add.
[[nodiscard]] LabelAnswer label(const LabelRequest& request, World& world);

}  // namespace loopledger::commands
