// SPDX-License-Identifier: MIT
//
// The error of a mass as the sum of its parts: some rectangular (a scale's largest permissible
// error, a step), the rest normal. Guard bands and probabilities come from the distribution of that
// very sum, not from a normal one of the same standard uncertainty: where one rectangular part
// rules, a normal quantile asks for too little at 90 % and for too much at 99.9 %. Sources: [gum]
// for the parts, [106] for what is asked of the sum; the distribution of a sum is mathematics.
#pragma once

#include <array>
#include <cstddef>
#include <optional>

#include "base/quantity.h"

namespace loopledger::calc {

class ErrorParts {
 public:
  /// A normal part of this standard uncertainty.
  void add_normal(Mass u);
  /// A part anywhere within ± half_width. @pre fewer than kMost of them so far
  void add_rectangular(Mass half_width);
  /// What the step of the scale leaves open of one reading: it and its zero are each within half a
  /// step. `weight`: of that reading in a mean.
  void add_steps(Mass step, double weight = 1);

  /// Standard uncertainty of the sum.
  [[nodiscard]] Mass u() const;

  /// Probability that the error is at most `margin`.
  [[nodiscard]] Share share_below(Mass margin) const;

  /// The margin that the error is within with this probability; k u where every part is normal,
  /// with k = Phi^-1(confidence). Source: [106]. Confidences of
  /// 0 and less, 1 and more are taken to be next to that.
  [[nodiscard]] Mass guard(Share confidence) const;

 private:
  /// The scale's, the event's scale's, and two steps for each of three readings.
  static constexpr std::size_t kMost = 8;
  double normal_u2_ = 0;
  std::array<double, kMost> half_widths_{};
  std::size_t count_ = 0;
};

/// What a check weight leaves of the scale's error, for the night it was weighed on.
struct NarrowedError {
  Mass offset;      ///< the middle of what the error can be: to be taken off each reading
  Mass half_width;  ///< the error is within this of the middle, for sure
  Mass u;           ///< standard uncertainty of the error about the middle
};

/// Before, the scale's error is anywhere within ± `error`. A check weight of mass `nominal` (itself
/// good for `tolerance`) reads `reading`: its difference is the error, but for the two steps of a
/// reading and its zero and the weight's tolerance. So the error is within both: ± error, and the
/// difference ± (step + tolerance). Rectangular again over what both allow, though its middle is
/// likelier than its ends: on the safe side. It holds at about the check weight's mass, so that one
/// near the motors' is best, until the scale is moved or set to zero anew. Empty: the two don't
/// meet; the scale is worse than the plan says. Source: [gum].
[[nodiscard]] std::optional<NarrowedError> narrowed_by_check(Mass error, Mass step, Mass nominal,
                                                             Mass reading, Mass tolerance = {});

}  // namespace loopledger::calc
