// SPDX-License-Identifier: MIT
#include "commands/print_again.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "base/quantity_text.h"
#include "base/text.h"
#include "calc/break_in.h"
#include "motor/motor_label.h"
#include "motor/now.h"
#include "motor/words.h"
#include "tag/id.h"

namespace loopledger::commands {
namespace {

/// A motor whose figures are not to be relied on: nothing to wind by is printed of it.
constexpr const char* kMarked = "marked, see its record";

using records::BreakInStep;
using records::Planned;

/// Numbers that went through a record's text and back.
bool same_number(double a, double b) {
  return std::fabs(a - b) <= 1e-9 * std::max(1.0, std::fabs(a));
}

template <class Q>
bool same_number(const std::optional<Q>& a, const std::optional<Q>& b) {
  return a.has_value() == b.has_value() && (!a || same_number(a->in_si(), b->in_si()));
}

bool same_step(const BreakInStep& a, const BreakInStep& b) {
  const bool turns = a.turns.has_value() == b.turns.has_value() &&
                     (!a.turns || same_number(a.turns->count(), b.turns->count()));
  return turns && same_number(a.stretch, b.stretch) && same_number(a.stop_torque, b.stop_torque) &&
         same_number(a.hold, b.hold) && same_number(a.rest, b.rest) && a.repeat == b.repeat &&
         a.note == b.note;
}

/// 'k_N 11 and not 12.5, recipe "slow" and not "fast"'; empty: the record has the plan's.
std::string other_factors(const Planned& record, const Planned& plan) {
  std::string words;
  const auto add = [&words](const std::string& part) {
    words += (words.empty() ? "" : ", ") + part;
  };
  if (!same_number(record.turns_factor, plan.turns_factor)) {
    add(fmt::format("k_N {} and not {}", rounded(record.turns_factor, 4),
                    rounded(plan.turns_factor, 4)));
  } else if (!same_number(record.wind_to.count(), plan.wind_to.count())) {
    add(fmt::format("wind to {} turns and not {}", shown_at_most(record.wind_to),
                    shown_at_most(plan.wind_to)));
  }
  if (!same_number(record.torque_max.value.in_si() * 1e6, plan.torque_max.value.in_si() * 1e6)) {
    add(fmt::format("k_Q {} MPa and not {} MPa", rounded(record.torque_factor.in_mpa(), 3),
                    rounded(plan.torque_factor.in_mpa(), 3)));
  }
  const bool same_steps =
      std::ranges::equal(record.break_in, plan.break_in, same_step) && record.recipe == plan.recipe;
  if (!same_steps && words.empty()) {
    const auto name = [](const std::string& recipe) {
      return recipe.empty() ? std::string("none")
                            : fmt::format("\"{}\"", printable(shortened(recipe, 30)));
    };
    add(record.recipe == plan.recipe
            ? fmt::format("recipe {} with other steps", name(record.recipe))
            : fmt::format("recipe {} and not {}", name(record.recipe), name(plan.recipe)));
  }
  return words;
}

void take_strength(Planned& p, const Planned& record) {
  p.turns_factor = record.turns_factor;
  p.turns_factor_u = record.turns_factor_u;
  p.turns_factor_fitted = record.turns_factor_fitted;
  p.torque_factor = record.torque_factor;
  p.torque_factor_u = record.torque_factor_u;
  p.torque_factor_given = record.torque_factor_given;
  p.turns_max = record.turns_max;
  p.wind_to = record.wind_to;
  p.torque_max = record.torque_max;
  p.recipe = record.recipe;
  p.break_in = record.break_in;
}

void take_now(Planned& p, const motor::Now& now) {
  for (BreakInStep& step : p.break_in) {
    step = calc::step_now(p, step, now.loop_as_tied, now.largest).step;
  }
  p.loop = now.loop_as_tied;
  p.turns_max = now.largest;
  p.wind_to = now.wind_to;
}

}  // namespace

void PrintAgain::take(calc::MotorFigures& motor, const records::Record& record) {
  const motor::Now now = motor::now_of(record);
  const bool has_moved = now.state != motor::State::planned || now.has_new_knot();
  // A record's figures went through text: what differs by that alone is the same.
  const bool is_off =
      !same_number(now.wind_to.count(), motor.planned.wind_to.count()) ||
      !same_number(now.loop_as_tied.in_si() * 1e3, motor.planned.loop.in_si() * 1e3);
  const bool is_marked = now.is_shaky() || now.may_be_over();
  if (has_moved || is_off || is_marked) {
    labels_.insert_or_assign(record.id, motor::motor_label(record, now));
  }
  if (const std::string words = other_factors(record.planned, motor.planned); !words.empty()) {
    factors_[words].push_back(record.id);
    take_strength(motor.planned, record.planned);
  }
  if (is_off) {
    take_now(motor.planned, now);
  }
  calc::count_cranks(motor.planned);
  motor.over = now.state == motor::State::retired || is_marked;
  if (has_moved || is_marked) {
    motor.since = is_marked ? kMarked : motor::spoken(now.state);
    moved_[motor.since].push_back(record.id);
  }
}

const motor::LabelFigures* PrintAgain::label_of(const MotorId& id) const {
  const auto found = labels_.find(id);
  return found == labels_.end() ? nullptr : &found->second;
}

Diagnostics PrintAgain::told() const {
  Diagnostics said;
  for (const auto& [state, ids] : moved_) {
    const bool over = state == motor::spoken(motor::State::retired) || state == kMarked;
    said.push_back(warning(
        "print-moved",
        fmt::format("{} {} {} since the plan was made", named(ids), ids.size() == 1 ? "is" : "are",
                    state),
        over
            ? "no label is printed, the break-in sheet leaves it out, the cut sheet marks it"
            : "its label is printed as it now stands; the cut sheet marks it, nothing is to be cut "
              "again"));
  }
  for (const auto& [words, ids] : factors_) {
    said.push_back(
        warning("print-factors", fmt::format("{}: the record has {}", named(ids), words),
                "a record keeps what it was made with, and what is printed goes by the record"));
  }
  return said;
}

std::string named(const std::vector<MotorId>& ids) {
  constexpr std::size_t kNamed = 8;
  std::vector<std::string> names;
  for (std::size_t i = 0; i < std::min(ids.size(), kNamed); ++i) {
    names.push_back(tag::with_check(ids[i]));
  }
  const auto [first, last] = std::minmax_element(ids.begin(), ids.end());
  const bool in_a_row =
      first->stem == last->stem && last->number - first->number + 1 == static_cast<int>(ids.size());
  if (in_a_row && ids.size() > 1) {
    return fmt::format("{} to {} ({} motors)", tag::with_check(*first), tag::with_check(*last),
                       ids.size());
  }
  return fmt::format("{}{}", fmt::join(names, ", "),
                     ids.size() > kNamed ? fmt::format(" and {} more", ids.size() - kNamed) : "");
}

}  // namespace loopledger::commands
