// SPDX-License-Identifier: MIT
//
// `list`: the motors of the ledger, filtered and sorted.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "commands/motor_rows.h"
#include "commands/row_filter.h"
#include "commands/world.h"

namespace loopledger::commands {

struct ListRequest {
  std::string records;  ///< empty: as records_folder() says
  RowFilter only;
  std::string state;        ///< one of list_states(); empty: any
  std::string sort = "id";  ///< one of list_columns()
  bool stale = false;       ///< only those whose label is out of date
  bool reverse = false;
};

struct ListAnswer {
  std::optional<std::vector<MotorRow>> motors;  ///< empty: the ledger can't be read
  std::string none;  ///< "No such motors in records", said in place of a list without any
  Diagnostics said;
};

/// The words of --state.
[[nodiscard]] std::vector<std::string> list_states();
/// The words of --sort, in the order of the columns.
[[nodiscard]] std::vector<std::string> list_columns();

/// Sorted by a column: dates newest first, turns and torque most first, all else from the least;
/// what is not known comes last either way, and what is equal in the order of the ids.
/// Errors: usage-value, none-record when the folder is not there, disk-…; warnings list-none and
/// those of records that can't be read.
[[nodiscard]] ListAnswer list(const ListRequest& request, World& world);

}  // namespace loopledger::commands
