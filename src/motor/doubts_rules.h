// SPDX-License-Identifier: MIT
//
// The parts of motor/doubts.h, one function a value that may be a slip. Only doubts.cpp calls them.
#pragma once

#include <string>
#include <vector>

#include "motor/doubts.h"

namespace loopledger::motor {

/// All that the rules look at.
struct AskedEntry {
  const records::Record& record;
  const Now& now;
  const records::Entry& entry;
  const DoubtContext& context;
  std::vector<Doubt>& doubts;

  [[nodiscard]] const records::Planned& p() const { return record.planned; }
  void add(Slip slip, std::string typed, std::string says, std::string likely = {},
           std::string type = {}) const {
    doubts.push_back({slip, std::move(typed), std::move(says), std::move(likely), std::move(type)});
  }
};

/// The text of a quantity as it was typed, else `otherwise`.
[[nodiscard]] std::string typed_or(const records::Entry& entry, std::string_view field,
                                   const std::string& otherwise);

void ask_reading(const AskedEntry& asked);
void ask_loops(const AskedEntry& asked);
/// A mass in milligrams that was taken for turns. @return whether it was asked
bool ask_point_of_turns(const AskedEntry& asked);
void ask_turns(const AskedEntry& asked);
void ask_torque(const AskedEntry& asked);

}  // namespace loopledger::motor
