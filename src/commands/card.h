// SPDX-License-Identifier: MIT
//
// `card ID...`: field cards, what a flyer takes to the flying floor; with several motors a list of
// the box comes first.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "base/quantity_text.h"
#include "commands/row_filter.h"
#include "commands/today.h"
#include "commands/world.h"
#include "motor/card_motor.h"

namespace loopledger::commands {

/// Motors by `ids`, or else by `only`.
struct CardRequest {
  std::vector<std::string> ids;  ///< as typed
  RowFilter only;
  std::string paper = "a4";
  std::string records;         ///< empty: as records_folder() says
  std::string out = "out";     ///< folder for the PDF
  std::optional<Units> units;  ///< none: metric
  TodayRequest today;
  bool overwrite = false;  ///< a file that this program did not write too
};

struct CardAnswer {
  bool understood = true;                ///< no: the request itself is wrong, as `said` tells
  std::string file;                      ///< the PDF; empty: `said` has errors
  std::vector<motor::CardMotor> motors;  ///< of the file, retired ones too
  std::size_t cards = 0;                 ///< motors that are not retired
  Diagnostics said;
};

/// Errors: usage-missing, none-card, card-many; those of today_from, find_record, read_motors,
/// set_up_printing, sheets::field_cards and Documents.
[[nodiscard]] CardAnswer card(const CardRequest& request, World& world);

}  // namespace loopledger::commands
