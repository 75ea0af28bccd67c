// SPDX-License-Identifier: MIT
//
// How the sheets write figures: lengths in the plan's leading units with the others in brackets,
// masses as the scale shows them.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "base/motor_id.h"
#include "base/quantity_text.h"
#include "base/terms.h"
#include "calc/figures.h"

namespace loopledger::sheets {

/// "303 mm (11.93 in)"
[[nodiscard]] std::string both(Length value, Units units);
/// "303" or "11.93", and the unit's name, for columns.
[[nodiscard]] std::string number(Length value, Units units);
/// A length to cut, up to what `number` and `shown` print in these units: a motor is never short of
/// strip by the rounding.
[[nodiscard]] Length cut_length(Length value, Units units);
/// Where to cut a touched piece, from its clean end, on tenths of a millimetre or hundredths of an
/// inch; no cut is nearer to the one before than its motor needs, as long as the piece has the
/// room.
[[nodiscard]] std::vector<Length> cut_marks(const calc::PieceCuts& cuts, const calc::Batch& batch,
                                            Units units);
/// "1226.4" or "48.29": one of these.
[[nodiscard]] std::string mark_number(Length mark, Units units);
[[nodiscard]] std::string unit_name(Units units);
[[nodiscard]] Units other(Units units);
/// A strip's width, finer than a length: "2.38 mm (0.094 in)".
[[nodiscard]] std::string strip_width(Length value, Units units);
/// "12.4 mg"
[[nodiscard]] std::string milligrams(Mass value);
/// "0.8 % ± 0.3 %"
[[nodiscard]] std::string share(const Uncertain<Share>& value);
/// What is proven of the cutting plan, or how far the first aim that is not may be from the best.
[[nodiscard]] std::string proof_text(const calc::CuttingPlan& cutting, Units units);
/// Motors in a row, shortly: "TH-01-K to TH-06-9, JR-02-4 (7 motors)". May be as long as the motors
/// are many.
[[nodiscard]] std::string id_list(const calc::Batch& batch, std::span<const std::size_t> motors);
/// The same, or when that is long the first and the last with their number: for a head that comes
/// again on each page.
/// @pre motors is not empty
[[nodiscard]] std::string ids_in_short(const calc::Batch& batch,
                                       std::span<const std::size_t> motors);
/// Which factors turns and torque rest on, the default's or the lot's own: "k_N 11 ± 0.88
/// (default), k_Q 0.6 MPa ± 25 % (default)".
[[nodiscard]] std::string factors(const records::Planned& planned);

}  // namespace loopledger::sheets
