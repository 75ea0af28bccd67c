// SPDX-License-Identifier: MIT
//
// What the calculator gives for a whole plan: one MotorFigures per motor, the cutting plan and the
// default torque curve. Plain data; sheets/ draws it, commands show it. calc/work_out.h makes it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/motor_id.h"
#include "base/quantity.h"
#include "records/planned.h"

namespace loopledger::calc {

struct MotorFigures {
  MotorId id;
  std::size_t group = 0;  ///< index into Plan::motors
  records::Planned planned;
  Estimate<Energy> energy;  ///< let out from the largest turns, by the default curve
  Energy wind_to_energy;    ///< the same from "wind to"
  bool cut = true;          ///< false: the pieces don't reach (only with `--short`)
  /// Where it is by its record, "broken in", when it has moved on since it was planned; else empty.
  std::string since;
  bool over = false;  ///< by its record it broke or was retired
};

/// The cuts from one touched piece, in order from its clean end.
struct PieceCuts {
  std::size_t strip = 0;            ///< index into Plan::strips
  std::size_t piece = 0;            ///< index into Strip::pieces
  Length length;                    ///< of the piece before cutting
  Length ends;                      ///< lost at its start for a clean end
  std::vector<std::size_t> motors;  ///< indices into Batch::motors, in order of cutting
  Length left;                      ///< remnant
  bool scrap = false;               ///< the remnant is too short to keep (and not nothing)
};

/// A piece as the shelf lists it; `mass` where it had one.
struct ShelfPiece {
  std::string tag;
  Length length;
  std::optional<Mass> mass;
};

/// What a strip's `pieces` are after the night.
struct StripAfter {
  std::size_t strip = 0;  ///< index into Plan::strips
  std::vector<ShelfPiece> pieces;
};

/// Further motors of a group that its strip would give after the night, no others being cut.
struct MoreMotors {
  std::size_t group = 0;  ///< index into Plan::motors
  std::size_t count = 0;
};

struct CuttingPlan {
  bool made = false;    ///< false: no strip of the plan lists pieces
  bool proven = false;  ///< no better plan exists, in the order of aims of cutting/cutting_plan.h
  // When not proven: how far each aim may be from the best, the aims before it as they are.
  std::size_t motors_gap = 0;      ///< motors that might be cut besides
  Length gap;                      ///< scrap above the least possible
  std::size_t pieces_gap = 0;      ///< touched pieces above the fewest possible
  Length longest_gap;              ///< longest piece left, below the longest possible
  std::size_t aims_proven = 0;     ///< so many aims, in their order, can't be bettered
  std::vector<PieceCuts> pieces;   ///< touched pieces
  std::vector<std::size_t> uncut;  ///< motors that no piece reaches
  Length shortfall;                ///< strip that is missing for the uncut motors
  std::vector<StripAfter> after;   ///< of the strips that list pieces and have motors to cut
  std::vector<MoreMotors> more;    ///< of the groups on them that are cut tonight
};

/// One point of a torque curve, in shares of the largest turns and torque.
struct CurvePoint {
  Share turns;
  Share torque;
};

/// What a group without a size would become on one strip: a motor at its rule's limit.
struct Choice {
  std::size_t group = 0;  ///< index into Plan::motors
  std::size_t strip = 0;  ///< index into Plan::strips
  records::Planned planned;
  Estimate<Energy> energy;
  Energy wind_to_energy;
  std::optional<int> motors;  ///< that the strip's pieces would give; empty: none are listed
};

struct Batch {
  std::vector<MotorFigures> motors;  ///< in the plan's order; of the groups that have a size
  std::vector<Choice> choices;       ///< of those that have none, by group, strip and strands
  CuttingPlan cutting;
  std::vector<CurvePoint> curve;  ///< the curve used for energies
};

}  // namespace loopledger::calc
