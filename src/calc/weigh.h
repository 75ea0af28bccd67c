// SPDX-License-Identifier: MIT
//
// Figure 2: what a reading of the scale means at each stage, and the window in which a motor may be
// left. One function, `counted`, says how much of a reading the rule counts and how sure that is;
// windows, guard bands, judgements and probabilities all come from it, so there is one reading of
// the rule. Sources: [gum] for the scale, [106] for guard band and probability (error_parts.h).
//
// At a stage the scale holds:  as cut    rubber + talc + tails + allowance
//                              washed    rubber + tails
//                              tied      rubber + rings + adhesive
//                              finished  rubber + rings + adhesive + lubricant
// No buoyancy correction: it is the same at the event's scale.
#pragma once

#include <array>
#include <optional>

#include "base/result.h"
#include "calc/error_parts.h"
#include "records/planned.h"

namespace loopledger::calc {

/// Standard uncertainty of one reading: both the reading and the zero carry the step, and the
/// scale's largest permissible error is a half-width: 2 step^2/12 + error^2/3. Source: [gum].
[[nodiscard]] Mass scale_u(Mass step, Mass error);

/// What a reading is put right by. The same part is wrong by the same in all readings of a motor.
enum class Part { talc, tails, rings, adhesive, uptake, left };

/// By Part: how far a counted mass is too high when that part is one standard uncertainty more than
/// it was taken for; negative: too low.
using PartErrors = std::array<Mass, 6>;

/// What the rule counts of a reading, with its standard uncertainty, and the rubber in it.
struct Counted {
  Mass mass;
  Mass u;
  Mass rubber;        ///< washed rubber in the reading
  ErrorParts errors;  ///< what u is the standard uncertainty of
  PartErrors parts;   ///< the normal ones of them
};

/// counted mass = reading - what is on the scale but not counted + what is counted but not yet on
/// it; u^2 = u_scale^2 + the u^2 of exactly those things. Without a rule the washed rubber alone
/// counts. A washed motor has its tails on: they are snipped off after tying. The scale's largest
/// permissible errors and its steps are rectangular [gum], all else is normal.
[[nodiscard]] Counted counted(const records::Planned& planned, Stage stage, Mass reading);

/// The washed rubber in a reading: `counted(…).rubber` by itself.
[[nodiscard]] Mass rubber_in(const records::Planned& planned, Stage stage, Mass reading);

/// What all readings of a motor have in common: the scale's error and that of the event's scale.
[[nodiscard]] ErrorParts scale_errors(const records::Planned& planned);

/// k = Phi^-1(confidence), the guard band in standard uncertainties where every part of the error
/// is normal. Source: [106].
[[nodiscard]] double guard_factor(Share confidence);

/// A washed mass, without tails, as it reads at a stage: with all that has come onto the scale
/// since.
[[nodiscard]] Mass reading_of(const records::Planned& planned, Stage stage, Mass washed);

/// What hangs from the rule's limit at one stage, not rounded.
struct UpperEnd {
  Mass reading;
  Mass guard;
};

/// The reading of one stage by itself at which counted mass + guard band = limit, without tails.
/// @pre planned.rule
[[nodiscard]] UpperEnd own_upper_end(const records::Planned& planned, Stage stage);

/// Upper end of a stage's window under the rule: own_upper_end(), never below the earlier stage's
/// end + what has come onto the scale since. Stages washed (without tails), tied and finished.
/// Error `rule-limit` when nothing would be left for rubber.
/// @pre planned.rule
[[nodiscard]] Result<UpperEnd> upper_end(const records::Planned& planned, Stage stage);

/// Fills aim (for mass = "limit") and the windows of the stages washed, tied and finished, rounded
/// inwards to the scale's step. Needs everything in `planned` that `counted` needs, `window`, and
/// `aim` unless `aim_is_limit`. Errors: `rule-limit`, `window-empty`.
[[nodiscard]] Diagnostics fill_windows(records::Planned& planned);

/// As cut: the lower end from the washed one, rounded up to the scale's step. Talc and its
/// uncertainty may leave nothing: error `talc`.
[[nodiscard]] Result<Mass> as_cut_low(const records::Planned& planned, Mass washed_low);

/// Lower end of the washed window before rounding.
[[nodiscard]] Mass washed_low_unrounded(const records::Planned& planned, Mass washed_upper);

/// The readings of the scale between which a motor may be left: the planned window, which is of the
/// washed rubber, with the tails that are on the scale then. So much as the uncertainty of their
/// mass adds to the guard band, both ends of it lie lower. On the scale's step, rounded inwards.
[[nodiscard]] records::Window scale_window(const records::Planned& planned, Stage stage);

enum class Verdict { ok, over, light };

/// Readings of one motor at the stages where a rule says something of it.
struct StageReadings {
  std::optional<Mass> washed, tied, finished;
};

/// One reading, judged together with the earlier ones of the same motor.
struct Judgement {
  Stage stage = Stage::washed;
  Mass reading;
  Counted counted;              ///< by all the readings together
  std::optional<Mass> margin;   ///< limit - counted mass; negative = over. Empty without a rule
  std::optional<Share> within;  ///< probability that the motor is within the limit
  Verdict verdict = Verdict::ok;
  Mass over;    ///< how much less this reading has to be to be ok, when over
  Mass light;   ///< below the window's lower end, when light
  Length trim;  ///< strip to take off to reach the middle of the window; never more than the loop
  /// An earlier reading and this one are not of the same motor as it is, by more than chance (one
  /// in a thousand): strip was taken off since, or one of the two is a slip. The earlier is not
  /// used then.
  bool agree = true;
};

/// Strip to take off a motor whose reading is `over` above the window's upper end, so that it comes
/// to the middle of the window; never more than the loop can give.
[[nodiscard]] Length snip_for(const records::Planned& planned, Stage stage, Mass over);

/// The one judgement that `log`, `show` and the bench share. `before`: the readings at earlier
/// stages of the same motor; those of this stage and of later ones are passed over. The counted
/// mass is their least-squares combination: the scale's error and a part's are common to the
/// readings, the steps are not. Over: the motor is within its limit with less than the plan's
/// confidence, or the reading is above the end that a given mass or loop sets. A motor weighed at
/// this stage only is held against the stage's own end, not one carried over from an earlier one.
[[nodiscard]] Judgement judge(const records::Planned& planned, Stage stage, Mass reading,
                              const StageReadings& before);

/// Of a motor with no earlier reading.
[[nodiscard]] inline Judgement judge(const records::Planned& planned, Stage stage, Mass reading) {
  return judge(planned, stage, reading, {});
}

/// Tied minus washed without its tails, held against rings + adhesive.
struct TyingCheck {
  Mass difference;
  Mass tails;  ///< taken off the washed reading
  Mass expected;
  Mass tolerance;  ///< 3 standard uncertainties, at least one scale step
  bool agrees = true;
  int rings_missing = 0;        ///< that many rings less would explain it
  bool tails_still_on = false;  ///< that would explain it
};
/// `washed`, `tied`: readings. Tails are taken to be snipped to one step of the ruler (common
/// sense, no source).
[[nodiscard]] TyingCheck check_tying(const records::Planned& planned, Mass washed, Mass tied);

/// Rounds down or up to the step; a value within 1e-9 of a step counts as on it.
[[nodiscard]] Mass floor_to_step(Mass value, Mass step);
[[nodiscard]] Mass ceil_to_step(Mass value, Mass step);

}  // namespace loopledger::calc
