// SPDX-License-Identifier: MIT
//
// What the records of a lot's motors say of its factors. Each life of a motor (it may be tied again
// after it broke) gives one datum: the most turns at which it broke or felt solid, else the most at
// which it was stopped. With L the loop as it was then, k_N = N sqrt(A) / L; torque likewise, k_Q =
// Q / A^1.5. A motor that broke at the knot or at a hook counts as stopped there: its rubber stood
// at least that. Break-in is not counted: nobody goes to the limit in it.
#pragma once

#include <string>
#include <vector>

#include "base/motor_id.h"
#include "calc/fit.h"
#include "records/entry.h"

namespace loopledger::motor {

/// What is not counted, and why.
struct NotCounted {
  MotorId id;
  std::string when;  ///< the date of its entry; empty: the whole record
  std::string why;
};

struct LotData {
  std::vector<calc::FitDatum> turns;   ///< k_N, one of each life
  std::vector<calc::FitDatum> torque;  ///< k_Q in MPa
  int motors = 0;                      ///< that gave a datum
  int broke = 0;                       ///< lives that ended at their limit so
  int solid = 0;                       ///< or so
  int stopped = 0;                     ///< lives that never came to it
  std::vector<NotCounted> left_out;
};

/// Values further from the prior than this are a slip of a digit.
inline constexpr double kOddFactor = 3;

/// Adds what one record says. `turns` and `torque` (MPa) are the factors known before.
void add_to_lot(const records::Record& record, double turns, double torque, LotData& lot);

}  // namespace loopledger::motor
