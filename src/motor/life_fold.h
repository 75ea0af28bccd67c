// SPDX-License-Identifier: MIT
//
// From one knot to the next: takes a life's entries one by one and has the motor as it then is.
// motor/now.cpp decides where a life begins.
#pragma once

#include <optional>
#include <vector>

#include "motor/now.h"

namespace loopledger::motor {

class LifeFold {
 public:
  explicit LifeFold(const records::Planned& planned);

  /// The knot that would follow this life, if `tied` is one; else empty.
  [[nodiscard]] bool is_ended_by(const records::Entry& tied) const;
  /// The life that begins with the knot `tied`, with what it keeps of this one.
  [[nodiscard]] LifeFold followed_by(const records::Entry& tied) const;

  void take(const Standing& standing);

  [[nodiscard]] const Life& life() const { return life_; }
  /// Writes what is known at its end into `now`: all but lives, labels, dates and marks of others.
  void finish(Now& now);

 private:
  [[nodiscard]] const records::Planned& p() const { return *planned_; }
  /// What its figures rest on, as it is at this moment.
  struct Figures {
    Length as_tied;
    Length loop;
    Length counts;               ///< of the loop: what moves the turns
    std::optional<Length> held;  ///< Now::loop_held
    LoopIs loop_is = LoopIs::planned;
    bool of_mass = false;
    Area section;
  };
  [[nodiscard]] Figures figures() const;
  /// Largest turns and "wind to".
  void finish_turns(Now& now, const Figures& f) const;
  [[nodiscard]] std::optional<Mass> rubber() const;
  /// The rubber that its loop is made of, at most: rubber(), else that of strip cut too light.
  [[nodiscard]] std::optional<Mass> strip() const;
  /// The longest loop that the mass allows; empty: nothing was weighed.
  [[nodiscard]] std::optional<Length> longest() const;
  [[nodiscard]] std::optional<Mass> washed_kept(const records::Entry& tied) const;
  /// The thickest that washed strip can be which was cut off for a loop shorter than fits it: what
  /// the shortest loop that fits would say. The section known already for any other loop.
  [[nodiscard]] Area thickest_washed(Length loop) const;
  void take_reading(const records::Entry& e);
  void take_loops(const records::Entry& e);
  void take_step(const records::Entry& e);
  void take_strain(const records::Entry& e);
  [[nodiscard]] std::optional<NextStep> next_step(bool winding) const;
  void finish_windings(Now& now);

  const records::Planned* planned_;
  Life life_;
  State state_ = State::planned;
  bool worked_ = false;  ///< wound, broken in, flown, broke or retired
  Readings read_;
  std::optional<Length> longest_;    ///< that the mass of the knot before allowed the same strip
  Area section_;                     ///< at least: the planned one, or that of the knot before
  std::optional<Stage> last_stage_;  ///< of the newest reading behind "as cut"
  std::optional<Length> tied_loop_;
  std::optional<Length> broken_in_loop_;
  std::vector<int> done_;  ///< by step of the recipe, how often
  bool wound_ = false;
  std::optional<Turns> solid_;  ///< the fewest at which it felt solid
  int flights_ = 0;
  std::optional<Moment> worked_at_;
  std::optional<Moment> figures_at_;
};

}  // namespace loopledger::motor
