// SPDX-License-Identifier: MIT
#include "sheets/figures_text.h"

#include <fmt/format.h>

#include <cmath>

#include "base/text.h"
#include "calc/cut_after.h"
#include "calc/turns_torque.h"
#include "cutting/task.h"
#include "sheets/label_values.h"
#include "tag/id.h"

namespace loopledger::sheets {

Units other(Units units) { return units == Units::metric ? Units::inch : Units::metric; }

std::string both(Length value, Units units) {
  return fmt::format("{} ({})", shown(value, units), shown(value, other(units)));
}

namespace {

/// A distance from a bound, up to the next millimetre: what is left open never reads as 0.
std::string bounded_by(Length gap, Units units) {
  return both(Length::mm(std::ceil(gap.in_mm())), units);
}

}  // namespace

std::string proof_text(const calc::CuttingPlan& cutting, Units units) {
  if (cutting.proven) {
    return "Proven: least scrap, then fewest pieces touched, then longest piece left.";
  }
  if (cutting.aims_proven == 0) {
    return "Not proven: another plan might cut more motors, or earlier ones.";
  }
  if (cutting.gap > Length{}) {
    return fmt::format("Scrap is within {} of the bound.", bounded_by(cutting.gap, units));
  }
  if (cutting.pieces_gap > 0) {
    return fmt::format("Scrap is proven least; {} piece{} fewer might be touched.",
                       cutting.pieces_gap, cutting.pieces_gap == 1 ? "" : "s");
  }
  return fmt::format(
      "Scrap and pieces are proven least; the longest left is within {} of the bound.",
      bounded_by(cutting.longest_gap, units));
}

std::string number(Length value, Units units) {
  return units == Units::inch ? fixed(value.in_in(), 2) : fixed(value.in_mm(), 0);
}

namespace {

/// Up to the next whole one, but for the noise of sums.
Length up_to(Length value, Length step) {
  constexpr double kNoise = 1e-6;
  return step * std::ceil(value / step - kNoise);
}

}  // namespace

Length cut_length(Length value, Units units) {
  return up_to(value, units == Units::inch ? Length::in(0.01) : Length::mm(1));
}

std::vector<Length> cut_marks(const calc::PieceCuts& cuts, const calc::Batch& batch, Units units) {
  const Length step = units == Units::inch ? Length::in(0.01) : Length::mm(0.1);
  std::vector<Length> marks;
  Length at;
  for (const std::size_t motor : cuts.motors) {
    at = up_to(at + batch.motors[motor].planned.cut, step);
    marks.push_back(at);
  }
  return at <= cuts.length - cuts.ends + cutting::kNothingLeft ? marks
                                                               : calc::cut_positions(cuts, batch);
}

std::string mark_number(Length mark, Units units) {
  if (units == Units::inch) {
    return fixed(mark.in_in(), 2);
  }
  const double tenths = std::round(mark.in_mm() * 10);
  return fixed(tenths / 10, std::fmod(tenths, 10) == 0 ? 0 : 1);
}

std::string unit_name(Units units) { return units == Units::inch ? "in" : "mm"; }

std::string strip_width(Length value, Units units) {
  return fmt::format("{} ({})", shown_width(value, units), shown_width(value, other(units)));
}

std::string milligrams(Mass value) { return rounded(value.in_mg(), 3) + " mg"; }

std::string share(const Uncertain<Share>& value) {
  std::string text = rounded(value.value.in_percent(), 3) + " %";
  if (value.u.in_percent() > 0) {
    text += " ± " + rounded(value.u.in_percent(), 2) + " %";
  }
  return text;
}

std::string id_list(const calc::Batch& batch, std::span<const std::size_t> motors) {
  std::string text;
  bool in_rows = false;
  for (std::size_t i = 0; i < motors.size();) {
    const MotorId& first = batch.motors[motors[i]].id;
    std::size_t end = i + 1;
    while (end < motors.size() && batch.motors[motors[end]].id.stem == first.stem &&
           batch.motors[motors[end]].id.number == batch.motors[motors[end - 1]].id.number + 1) {
      ++end;
    }
    text += (text.empty() ? "" : ", ") + tag::with_check(first);
    if (end > i + 1) {
      text += (end == i + 2 ? ", " : " to ") + tag::with_check(batch.motors[motors[end - 1]].id);
    }
    in_rows = in_rows || end > i + 2;
    i = end;
  }
  return in_rows ? fmt::format("{} ({})", text, how_many(motors.size(), "motor")) : text;
}

std::string ids_in_short(const calc::Batch& batch, std::span<const std::size_t> motors) {
  constexpr std::size_t kShort = 60;  // code points; ids are ASCII
  std::string all = id_list(batch, motors);
  return all.size() <= kShort
             ? all
             : fmt::format("{} … {} ({})", tag::with_check(batch.motors[motors.front()].id),
                           tag::with_check(batch.motors[motors.back()].id),
                           how_many(motors.size(), "motor"));
}

std::string factors(const records::Planned& p) {
  return fmt::format("k_N {} ± {} ({}), k_Q {} MPa ± {} % ({})", rounded(p.turns_factor, 4),
                     rounded(p.turns_factor * p.turns_factor_u, 2),
                     p.turns_factor_fitted                  ? "this lot's own"
                     : p.turns_factor == calc::kTurnsFactor ? "default"
                                                            : "from the shelf",
                     rounded(p.torque_factor.in_mpa(), 3), rounded(p.torque_factor_u * 100, 2),
                     p.torque_factor_given ? "from the shelf" : "default");
}

}  // namespace loopledger::sheets
