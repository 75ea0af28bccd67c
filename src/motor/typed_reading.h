// SPDX-License-Identifier: MIT
//
// What is still to be read of a motor, and what a typed value is: the bench's reasoning without its
// dialogue. Pure: a record in, an entry out.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "base/result.h"
#include "motor/doubts.h"
#include "motor/now.h"
#include "records/entry.h"

namespace loopledger::motor {

/// What may be asked for next.
enum class Asked { washed, tied_loop, tied, finished, break_in, loop_after, wound };

struct Want {
  Asked what = Asked::washed;
  int step = 0;  ///< of the break-in recipe, from 1
};

/// The next reading that the record lacks, in the order of the work; empty when all up to the end
/// of break-in is there, or the motor is retired.
[[nodiscard]] std::optional<Want> next_want(const records::Record& record, const motor::Now& now);

/// "washed, g (1.468–1.470)": what is asked for, with what to expect.
[[nodiscard]] std::string question(const Want& want, const records::Record& record,
                                   const motor::Now& now, Units units);

/// "washed, g": the same in short, for a list.
[[nodiscard]] std::string short_question(const Want& want);

/// A typed value understood.
struct Understood {
  records::Entry entry;  ///< its key still empty
  bool stage_inferred = false;
  bool in_cranks = false;
  motor::TurnsAre turns_are = motor::TurnsAre::typed;
};

/// What `words` are as an entry of this motor. Numbers without a unit are grams, millimetres
/// (inches when those lead) or turns, by what is wanted and by what they are near to; a first word
/// that names a stage or a kind of entry decides. Errors: bench-value, and those of
/// motor/typed_entry.h. @param winder_ratio today's, for cranks
[[nodiscard]] Result<Understood> understand(const records::Record& record, const motor::Now& now,
                                            const std::vector<std::string>& words, Units units,
                                            const std::optional<double>& winder_ratio);

/// The largest round limit that a counted mass of this reading is still within, with the plan's
/// confidence; rounded up to 50 mg, to 10 mg below 1 g. Empty without a rule.
[[nodiscard]] std::optional<Mass> still_good_for(const records::Planned& planned, Stage stage,
                                                 Mass reading);

}  // namespace loopledger::motor
