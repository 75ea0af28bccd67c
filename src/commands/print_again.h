// SPDX-License-Identifier: MIT
//
// A plan that is printed again when its motors have moved on: what the paper says of a motor that
// has a record is what is so now, by the factors that the record was made with.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "base/motor_id.h"
#include "calc/figures.h"
#include "motor/label_figures.h"
#include "records/entry.h"

namespace loopledger::commands {

class PrintAgain {
 public:
  /// Brings the motor up to its record: where it is, loop and turns as they now are, the record's
  /// factors and recipe instead of the plan's. Cranks stay the plan's winder's.
  void take(calc::MotorFigures& motor, const records::Record& record);

  /// The label as it now stands of a motor that is not as planned any more; null: it is.
  [[nodiscard]] const motor::LabelFigures* label_of(const MotorId& id) const;

  /// Warnings print-moved, which motors are not as planned any more, and print-factors, whose
  /// record was made with other factors or another recipe than the plan has.
  [[nodiscard]] Diagnostics told() const;

 private:
  std::map<MotorId, motor::LabelFigures> labels_;
  std::map<std::string, std::vector<MotorId>> moved_;    ///< by state
  std::map<std::string, std::vector<MotorId>> factors_;  ///< by what differs
};

/// "TH-01-J", "TH-01-J, TH-04-D", or, all in a row, "TH-01-J to TH-06-9 (6 motors)".
[[nodiscard]] std::string named(const std::vector<MotorId>& ids);

}  // namespace loopledger::commands
