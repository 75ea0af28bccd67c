// SPDX-License-Identifier: MIT
//
// What is known of a motor now, and what to do next: the planned figures brought up to date with
// what its record says since. `show`, labels and cards read it here.
#pragma once

#include <optional>
#include <string>

#include "base/quantity_text.h"
#include "records/entry.h"
#include "records/state.h"

namespace loopledger::cli {

struct Advice {
  records::State state = records::State::planned;
  records::Known known;
  Length loop;                  ///< now: logged, else as planned
  std::optional<Share> growth;  ///< of the broken-in loop over the loop as tied
  Estimate<Turns> largest;      ///< for the loop as it is now
  Turns wind_to;
  Turns do_not_pass;
};

/// Largest turns go with the loop length (figure 4): a broken-in length moves them.
[[nodiscard]] Advice advice_for(const records::Record& record);

/// What to do next, a sentence.
[[nodiscard]] std::string next_step(const records::Record& record, const Advice& advice);

}  // namespace loopledger::cli
