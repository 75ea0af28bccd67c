// SPDX-License-Identifier: MIT
//
// Figure 2: what a reading of the scale means at each stage, and the window in which a motor may be
// left. One function, `counted`, says how much of a reading the rule counts and how sure that is;
// windows, guard bands, judgements and probabilities all come from it, so there is one reading of
// the rule. Sources: [gum] for the scale, [106] for guard band and probability.
//
// At a stage the scale holds:  as cut    rubber + talc + tails + allowance
//                              washed    rubber + tails
//                              tied      rubber + rings + adhesive
//                              finished  rubber + rings + adhesive + lubricant
// No buoyancy correction: it is the same at the event's scale.
#pragma once

#include <optional>

#include "base/result.h"
#include "records/planned.h"

namespace loopledger::calc {

/// Standard uncertainty of one reading: both the reading and the zero carry the step, and the
/// scale's largest permissible error is a half-width: 2 step^2/12 + error^2/3. Source: [gum].
[[nodiscard]] Mass scale_u(Mass step, Mass error);

/// What the rule counts of a reading, with its standard uncertainty, and the rubber in it.
struct Counted {
  Mass mass;
  Mass u;
  Mass rubber;  ///< washed rubber in the reading
};

/// counted mass = reading - what is on the scale but not counted + what is counted but not yet on
/// it; u^2 = u_scale^2 + the u^2 of exactly those things. Without a rule the washed rubber alone
/// counts. A washed motor has its tails on: they are snipped off after tying.
[[nodiscard]] Counted counted(const records::Planned& planned, Stage stage, Mass reading);

/// k = Phi^-1(confidence). Source: [106].
[[nodiscard]] double guard_factor(Share confidence);

/// A washed mass, without tails, as it reads at a stage: with all that has come onto the scale
/// since.
[[nodiscard]] Mass reading_of(const records::Planned& planned, Stage stage, Mass washed);

/// What hangs from the rule's limit at one stage, not rounded.
struct UpperEnd {
  Mass reading;
  Mass guard;
};

/// Upper end of a stage's window under the rule: the reading at which counted mass + k u = limit,
/// never below the earlier stage's end + what has come onto the scale since.
/// Stages washed (without tails), tied and finished. Error `rule-limit` when nothing would be left
/// for rubber.
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

/// One reading, judged.
struct Judgement {
  Stage stage = Stage::washed;
  Mass reading;
  Counted counted;
  std::optional<Mass> margin;   ///< limit - counted mass; negative = over. Empty without a rule
  std::optional<Share> within;  ///< probability that the motor is within the limit
  Verdict verdict = Verdict::ok;
  Mass over;    ///< above the window's upper end, when over
  Mass light;   ///< below its lower end, when light
  Length trim;  ///< strip to take off to reach the middle of the window; never more than the loop
};

/// Strip to take off a motor whose reading is `over` above the window's upper end, so that it comes
/// to the middle of the window; never more than the loop can give.
[[nodiscard]] Length snip_for(const records::Planned& planned, Stage stage, Mass over);

/// The one judgement that `log`, `show` and the bench share.
[[nodiscard]] Judgement judge(const records::Planned& planned, Stage stage, Mass reading);

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
