// SPDX-License-Identifier: MIT
//
// Field cards of invented motors for tests of what is printed: one flown with a curve of its own,
// one that was never wound, one that broke, and so on in turn.
#pragma once

#include <vector>

#include "sheets/field_card.h"

namespace loopledger::test {

/// Flown, own curve of five torques, a launch, oil that counts.
[[nodiscard]] motor::CardMotor flown_card();
/// Broken in, no winding yet.
[[nodiscard]] motor::CardMotor unwound_card();
[[nodiscard]] motor::CardMotor retired_card();
/// Every text as long as a plan allows, every line that a card can have.
[[nodiscard]] motor::CardMotor longest_card();
/// `count` of them in turn, numbered from 1.
[[nodiscard]] std::vector<motor::CardMotor> box_of_cards(int count);

}  // namespace loopledger::test
