// SPDX-License-Identifier: MIT
//
// One motor as it is now: its record's entries folded once, in the order of their time, each
// correction in its place (motor/standing.h). Everything that says something of a motor that has a
// record - show, scan, labels, cards, list, match, fit, the bench, log's answers, print, JSON -
// reads it here, and nothing else loops over entries for a figure.
//
// Lives. A `tied` begins a new one, a new knot, when the motor was wound, broken in, flown, retired
// or broke since the last knot, or when its loop or its mass weighed tied is another than the last
// of this life and neither ruler, hanging nor scale explain it (three standard uncertainties).
// What was read of a motor before its knot is history: loops, best, curve, torque, set, full winds,
// masses. Of a knot that was tied again without anything else between, the mass of the washed strip
// is kept as long as the new loop and mass fit it, and strip that was thicker than planned stays as
// thick unless the new loop is longer.
//
// Figures. The loop is the one last read: broken in, else as tied, else that of the mass that was
// weighed if the motor is too light, else as planned. What a break-in read before it counts: as
// tied if it is the first that was done to this knot, else as broken in. A lasting growth moves
// turns with the length, by no more than kMostGrowth, and never the section. A loop shorter than
// its mass allows is thicker strip, so the section grows and turns fall; a loop that was not
// measured is taken as planned there, unless the strip was washed last and is only to be snipped to
// its limit. Strip that was too light as cut counts like a mass that is too light until it is
// weighed again. A winding at which it felt solid is this knot's limit, if it came before "do not
// pass". The section is never less than planned. A loop longer than its mass allows is a slip of
// the ruler: turns go by the longest that the mass allows. So nothing that is read moves a target
// up but a longer loop that the mass bears out, or another knot. What the factor says
// and what the planned turns say are both kept to, so that in a damaged head neither raises the
// other.
//
// Nothing is a target past "do not pass": a winding beyond it is told (`beyond`) and is never the
// best.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/date.h"
#include "base/quantity.h"
#include "base/terms.h"
#include "calc/own_curve.h"
#include "calc/weigh.h"
#include "motor/standing.h"
#include "motor/state.h"
#include "records/entry.h"

namespace loopledger::motor {

/// The step of the recipe that comes next.
struct NextStep {
  std::size_t index = 0;  ///< into Planned::break_in
  int time = 1;           ///< of its repeats, from 1
};

/// One winding that counts for something.
struct Winding {
  Turns turns;
  std::optional<Torque> torque;
  std::optional<Moment> at;
  std::optional<Temperature> temperature;
};

/// A time the rubber was wound or broke, with the motor as it was then: what a lot is fitted from.
struct Strain {
  const records::Entry* entry = nullptr;  ///< wound or broke
  Length loop;                            ///< as for the figures: no more than kMostGrowth of set
  Area section;
};

/// From one knot to the next.
struct Life {
  std::vector<Standing> entries;  ///< in the order of their time
  std::vector<Strain> strains;
};

/// The newest readings of the scale in this life, by stage.
struct Readings {
  std::optional<Mass> as_cut;
  std::optional<Mass> washed;
  std::optional<Mass> tied;
  std::optional<Mass> finished;
  [[nodiscard]] const std::optional<Mass>& of(Stage stage) const;
  /// Those that are judged together.
  [[nodiscard]] calc::StageReadings together() const { return {washed, tied, finished}; }
};

/// What is not as it should be, for people to be told.
enum class Mark {
  head,        ///< the figures as planned are damaged or changed by hand: all figures rest on them
  torn,        ///< the record ends in a torn line: what it said is lost
  lost,        ///< line `line` is no entry any more: what it said is lost
  unsound,     ///< an unsound line would bear on the figures or end this life: not relied on
  superseded,  ///< `entry` and `other` correct the same entry: `other`, the newer, counts
  late,        ///< `entry` stands in the file behind `other` and lies before it: `other` is a new
               ///< knot, a break or the end, the first of them in the file. Not labels and notes
  beyond       ///< `entry` is a winding past "do not pass"
};
struct Marked {
  Mark mark = Mark::head;
  const records::Entry* entry = nullptr;
  const records::Entry* other = nullptr;
  int line = 0;  ///< of a lost line, from 1
};

struct Now {
  State state = State::planned;
  std::vector<Life> lives;  ///< the last is this one; at least one
  Readings read;
  std::optional<Mass> washed;  ///< washed rubber without tails, by the newest washed reading
  std::optional<Mass> rubber;  ///< the same by the newest reading of any later stage too

  Length loop;  ///< as it hangs now: LoopIs says what it is
  LoopIs loop_is = LoopIs::planned;
  bool loop_of_mass = false;    ///< `loop` is not measured: a motor too light is a shorter loop
  Length loop_as_tied;          ///< measured, else of the mass, else as planned
  bool tied_measured = false;   ///< `loop_as_tied` was measured
  std::optional<Share> growth;  ///< of the loop broken in over the loop as tied: the set
  /// The longest loop as tied that the mass allows, where the measured one is longer: turns go by
  /// it.
  std::optional<Length> loop_held;
  Area section;  ///< that the figures rest on; at least the planned one

  Estimate<Turns> largest;  ///< where it may break
  Turns wind_to;            ///< under `do_not_pass`, in whole turns too
  Turns do_not_pass;

  /// The most turns with a torque read at them; else the most turns. Not past `do_not_pass`.
  std::optional<Winding> best;
  std::optional<Winding> most;    ///< the most turns, with or without torque, not past it either
  std::optional<Winding> beyond;  ///< the most turns past it: a slip, or a lucky escape
  std::optional<calc::OwnCurve> own_curve;  ///< of the newest winding that has one, none beyond,
                                            ///< nor a curve that goes beyond
  int windings = 0;
  int full_winds = 0;  ///< windings to kFullWind of `wind_to` and more
  int flights = 0;
  std::optional<Turns> backed_off;   ///< turns left in at the last launch; not more than wound
  std::optional<Turns> last_turns;   ///< of the newest winding
  std::optional<Moment> worked_at;   ///< when it was last stretched or wound
  std::optional<Moment> figures_at;  ///< when it was last weighed, tied, broken in or wound
  std::optional<Date> last;          ///< of the newest entry that stands; else of the plan
  std::optional<NextStep> step;      ///< empty: no recipe, it is done, or the motor was wound since
  std::optional<NextStep> winding_step;      ///< the same, of the steps that wind
  const records::Entry* labelled = nullptr;  ///< the newest label printed in this life or before
  bool labelled_before_knot = false;         ///< that label is of an earlier life
  std::vector<Marked> marked;

  [[nodiscard]] const Life& life() const { return lives.back(); }
  /// Tied again after it was worked, or with another loop.
  [[nodiscard]] bool has_new_knot() const { return lives.size() > 1; }
  /// The mass to tell of it: by its washed reading, else by what was read later.
  [[nodiscard]] std::optional<Mass> told_mass() const { return washed ? washed : rubber; }
  /// The figures as planned are damaged or changed by hand.
  [[nodiscard]] bool has_damaged_head() const;
  /// Its figures are not to be relied on: the head is damaged, or a line that would bear on them.
  [[nodiscard]] bool is_shaky() const;
  /// An unsound line says that it broke or was retired: it may have.
  [[nodiscard]] bool may_be_over() const;
};

/// From this share of "wind to" on, a winding counts as a full one. Common sense, no source.
inline constexpr double kFullWind = 0.9;
/// Lasting growth beyond this share is no set but a slip or a knot that gave: the turns don't grow
/// with it. The most that was published is 8 %. Source: [set].
inline constexpr double kMostGrowth = 0.10;
/// Loops that differ by less are the same loop measured twice, if the ruler's step does not explain
/// more: rubber hangs a little different each time. Common sense, no source.
inline constexpr double kSameLoop = 0.01;

/// Of the turns at which it felt solid, what to wind to at most. Common sense, no source.
inline constexpr double kOfSolid = 0.9;

/// The motor as it is now. `record` must outlive what is returned. The first motor of a night
/// before anything happened has one life without entries and the figures as planned.
[[nodiscard]] Now now_of(const records::Record& record);

/// The stage at which an entry weighs the motor: tying weighs it tied. Empty: it weighs nothing, or
/// does not say.
[[nodiscard]] std::optional<Stage> stage_weighed(const records::Entry& entry);

/// Whether two readings of the ruler can be of one loop: three standard uncertainties of their
/// difference, each with the step at both ends, or what hanging makes.
[[nodiscard]] bool same_loop(const records::Planned& planned, Length a, Length b);

/// The loop that washed rubber of this mass makes: (mass / linear density - knot) / strands.
[[nodiscard]] Length loop_of_mass(const records::Planned& planned, Mass rubber);

/// How far a loop may be from loop_of_mass() before the two contradict each other: three standard
/// uncertainties of linear density, scale and ruler, and what a knot takes more or less
/// (kKnotSpread of it). @pre rubber > 0
[[nodiscard]] Length loop_tolerance(const records::Planned& planned, Mass rubber);
/// A knot takes this share more or less of the strip that was planned for it. Common sense, no
/// source.
inline constexpr double kKnotSpread = 0.5;

}  // namespace loopledger::motor
