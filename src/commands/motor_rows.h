// SPDX-License-Identifier: MIT
//
// What lists and choices of motors show of each record, read on all cores when there are many.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "base/motor_id.h"
#include "base/quantity.h"
#include "commands/world.h"
#include "motor/now.h"
#include "records/entry.h"

namespace loopledger::commands {

/// Of one record; the record itself would fill the memory of a large ledger.
struct MotorRow {
  MotorId id;
  std::string owner;
  std::string purpose;
  std::string rule;
  std::string strip;
  std::string lot;
  Mass scale_step;
  motor::State state = motor::State::planned;
  std::optional<Mass> washed;  ///< motor::Now::told_mass()
  Length loop;
  LoopIs loop_is = LoopIs::planned;
  std::optional<motor::Winding> best;
  Turns wind_to;
  int full_winds = 0;
  std::string last;  ///< date of its newest entry, else the plan's; may be empty
  bool torn = false;
  bool planned_edited = false;
  std::string mark;  ///< mark_words(): what is not to be relied on; empty: all is well
  bool stale = false;
};

/// The name by which a lot is meant: its own, or that of a strip without a lot.
[[nodiscard]] inline const std::string& lot_name(const std::string& lot, const std::string& strip) {
  return lot.empty() ? strip : lot;
}
/// Whether that is the lot asked for, in any case and with blanks around it.
[[nodiscard]] bool is_of_lot(const std::string& lot, const std::string& strip,
                             const std::string& asked);

struct MotorRows {
  std::vector<MotorRow> rows;
  Diagnostics problems;
};

/// The wanted rows in the order of `ids`. Records that can't be read are named and passed over;
/// `wanted` is called from several threads at once. How far it has come is told the world.
[[nodiscard]] MotorRows read_motors(World& world, const std::string& folder,
                                    const std::vector<MotorId>& ids,
                                    const std::function<bool(const MotorRow&)>& wanted);

/// A ledger's ids in their order, and the wanted rows of its motors.
struct LedgerRows {
  std::vector<MotorId> ids;
  std::vector<MotorRow> rows;
};

/// The same of all that a folder holds; what was passed over is warned of. Errors: those of
/// Ledger::holding.
[[nodiscard]] Result<LedgerRows> read_ledger(World& world, const std::string& folder,
                                             const std::function<bool(const MotorRow&)>& wanted);

}  // namespace loopledger::commands
