// SPDX-License-Identifier: MIT
//
// A record in plain words for the terminal: whose motor it is, what an entry says, what a reading
// means. The one wording that `log`, `show` and the bench share.
#pragma once

#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "calc/weigh.h"
#include "motor/state.h"
#include "records/entry.h"

namespace loopledger::motor {

/// "TH-01-T: ANNA, for Heron"; what is not known is left out.
[[nodiscard]] std::string whose(const records::Record& record);

/// "wound to 1200 turns at 41 gf.cm, stopped": what the entry says; a quantity as it was typed,
/// else in `units`. Always printable.
[[nodiscard]] std::string in_words(const records::Entry& entry, Units units);

/// "as cut", "washed", "tied", "finished"
[[nodiscard]] std::string spoken(Stage stage);
/// ", tails on" of a stage at which they are on the scale, else nothing: behind a reading's stage.
[[nodiscard]] std::string with_tails(Stage stage, const records::Planned& planned);
/// "broken in", …
[[nodiscard]] std::string spoken(motor::State state);

/// "within its window", and as cut "long enough": of a reading that is neither over nor light.
[[nodiscard]] std::string fits_words(Stage stage);

/// What a reading means for the bench: "14 mg over its window: snip 6 mm of strip".
[[nodiscard]] std::string short_verdict(const records::Planned& planned,
                                        const calc::Judgement& judgement, Units units);

/// What a reading means: "14 mg over: snip 6 mm of strip", "within its window", and how the motor
/// stands to the limit. One line, no line end.
[[nodiscard]] std::string verdict_text(const records::Planned& planned,
                                       const calc::Judgement& judgement, Units units);

/// Tied minus washed, held against rings and glue. Empty when there is nothing to say.
[[nodiscard]] std::string tying_text(const calc::TyingCheck& check, Mass scale_step);

/// Said wherever such figures are shown.
inline constexpr const char* kPlannedEdited =
    "The figures as planned were changed by hand or damaged: don't rely on them.";

/// "2 strands of amber, lot 24/03, 2.40 mm wide". Not made printable.
[[nodiscard]] std::string strip_words(const records::Planned& planned, Units units);

/// "part motor, 0.5 of the full length: spacer 120 mm of 0.612 g; its full motor takes 2 times the
/// turns at the same torque"; and the room on the hooks. Only what there is.
[[nodiscard]] std::vector<std::string> part_and_hooks(const records::Planned& planned, Units units);

}  // namespace loopledger::motor
