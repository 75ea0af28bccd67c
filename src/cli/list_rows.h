// SPDX-License-Identifier: MIT
//
// The rows of `list`: what it shows of each record, read on all cores when there are many.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "base/motor_id.h"
#include "base/quantity.h"
#include "cli/command.h"
#include "records/entry.h"
#include "records/state.h"

namespace loopledger::cli {

/// What the list shows of a record; the record itself would fill the memory of a large ledger.
struct ListRow {
  MotorId id;
  std::string owner;
  std::string purpose;
  std::string rule;
  std::string strip;
  std::string lot;
  Mass scale_step;
  records::State state = records::State::planned;
  records::Known known;
  std::optional<Mass> washed;  ///< washed_rubber()
  Length loop;
  Turns wind_to;
  int full_winds = 0;
  std::string last;  ///< last_date()
  bool torn = false;
  bool planned_edited = false;
  bool stale = false;
};

/// The name by which a lot is meant: its own, or that of a strip without a lot.
[[nodiscard]] inline const std::string& lot_name(const std::string& lot, const std::string& strip) {
  return lot.empty() ? strip : lot;
}
/// Whether that is the lot asked for, in any case and with blanks around it.
[[nodiscard]] bool is_of_lot(const std::string& lot, const std::string& strip,
                             const std::string& asked);

/// Date of the newest entry by its place in the file, else the plan's; may be empty.
[[nodiscard]] std::string last_date(const records::Record& record);

struct ListReading {
  std::vector<ListRow> rows;
  Diagnostics problems;
};

/// The wanted rows in the order of `ids`. Records that can't be read are named and passed over;
/// `wanted` is called from several threads at once.
[[nodiscard]] ListReading read_list(const std::string& folder, const std::vector<MotorId>& ids,
                                    const std::function<bool(const ListRow&)>& wanted);
/// The same, and how far it has come is shown on the terminal.
[[nodiscard]] ListReading read_list(Context& context, const std::string& folder,
                                    const std::vector<MotorId>& ids,
                                    const std::function<bool(const ListRow&)>& wanted);

}  // namespace loopledger::cli
