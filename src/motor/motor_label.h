// SPDX-License-Identifier: MIT
//
// The label of a motor as its record now stands, and whether the one on its bag is out of date.
#pragma once

#include <string>

#include "motor/label_figures.h"
#include "motor/now.h"
#include "records/entry.h"
#include "tag/tag_text.h"

namespace loopledger::motor {

/// Before break-in the slip of the build night: EST, blanks for a pen, the estimate for the loop as
/// it is. After it the bag's label: MADE, with the best turns so far or else the turns to wind to,
/// the torque read at them, mass and loop as logged, and the date of the last entry that changed
/// one of these. Where the figures are not to be relied on it says CHECK and has none to wind by.
[[nodiscard]] LabelFigures motor_label(const records::Record& record, const motor::Now& now);

/// What the label's code says in full.
[[nodiscard]] std::string label_tag(const records::Record& record, const motor::Now& now);

/// Whether entries have changed what the printed label says; its date alone does not count. The
/// printed one is the last `labelled` entry, else the build night's. A slip has blanks for what is
/// read: it is out of date when its estimate is off by more than 2 %. A new knot makes any label
/// out of date. Retired motors need none.
[[nodiscard]] bool label_is_stale(const records::Record& record, const motor::Now& now);

/// Whether the tag on a bag says something else than the motor's label would say now; only what the
/// tag says is compared, its date not. A retired motor needs no label.
[[nodiscard]] bool tag_is_stale(const tag::TagFigures& on_bag, const records::Record& record,
                                const motor::Now& now);

}  // namespace loopledger::motor
