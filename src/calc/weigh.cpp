// SPDX-License-Identifier: MIT
#include "calc/weigh.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/quantity_text.h"
#include "calc/rising_root.h"
#include "calc/squared.h"
#include "calc/turns_torque.h"

namespace loopledger::calc {
namespace {

using records::Planned;

constexpr double kOnStep = 1e-9;  ///< of a step: nearer than this counts as on it

/// A counted mass as it is put together, with what each part may be wrong by.
struct Sum {
  double mass = 0;
  PartErrors errors{};
  void add(Part part, const Uncertain<Mass>& m) {
    mass += m.value.in_si();
    errors.at(index(part)) += m.u * -1;
  }
  void take_off(Part part, const Uncertain<Mass>& m) {
    mass -= m.value.in_si();
    errors.at(index(part)) += m.u;
  }
  static std::size_t index(Part part) { return static_cast<std::size_t>(part); }
};

Uncertain<Mass> share_of_mass(Mass mass, const Uncertain<Share>& share) {
  return {mass * share.value, mass * share.u};
}

/// What of the tails lies on the scale.
Length tails_at(const Planned& p, Stage stage) {
  return stage == Stage::as_cut || stage == Stage::washed ? p.tails : Length{};
}

Mass washed_in(const Planned& p, Stage stage, Mass reading, Length tails) {
  const double talc_off = 1 - p.talc.value.as_ratio();
  switch (stage) {
    case Stage::as_cut:
      return reading * talc_off - p.linear_density.value * tails;
    case Stage::washed:
      return reading - p.linear_density.value * tails;
    case Stage::tied:
      return reading - p.rings.value - p.adhesive_mass.value;
    case Stage::finished:
      break;
  }
  return (reading - p.rings.value - p.adhesive_mass.value) / (1 + p.uptake.value.as_ratio());
}

void count_strip(Sum& sum, const Planned& p, Stage stage, Mass reading, Length tails) {
  if (stage == Stage::as_cut) {
    sum.take_off(Part::talc, share_of_mass(reading, p.talc));
  }
  sum.take_off(Part::tails, {p.linear_density.value * tails, p.linear_density.u * tails});
}

void count_part(Sum& sum, Part which, const Uncertain<Mass>& part, bool on_scale, bool counts) {
  if (on_scale && !counts) {
    sum.take_off(which, part);
  } else if (!on_scale && counts) {
    sum.add(which, part);
  }
}

void count_lubricant(Sum& sum, const Planned& p, bool on_scale, bool counts, bool rested,
                     Mass rubber) {
  // Fresh oil is off the sum when it does not count, or when it counts as what is left later.
  if (on_scale && (!counts || rested)) {
    sum.take_off(Part::uptake, share_of_mass(rubber, p.uptake));
  }
  if (counts && rested) {
    sum.add(Part::left, share_of_mass(rubber, p.left));
  } else if (counts && !on_scale) {
    sum.add(Part::uptake, share_of_mass(rubber, p.uptake));
  }
}

Counted counted_with(const Planned& p, Stage stage, Mass reading, Length tails) {
  // Without a rule the motor is held against its own washed rubber: nothing else counts.
  const Counts counts = p.rule ? p.rule->counts : Counts{};
  const bool rested = p.rule && p.rule->weighed == Weighed::rested;
  const Mass rubber = washed_in(p, stage, reading, tails);
  const bool tied = stage == Stage::tied || stage == Stage::finished;

  Sum sum;
  sum.mass = reading.in_si();
  count_strip(sum, p, stage, reading, tails);
  count_part(sum, Part::rings, p.rings, tied, counts.rings);
  count_part(sum, Part::adhesive, p.adhesive_mass, tied, counts.adhesive);
  count_lubricant(sum, p, stage == Stage::finished, counts.lubricant, rested, rubber);

  ErrorParts errors = scale_errors(p);
  errors.add_steps(p.scale_step);
  for (const Mass part : sum.errors) {
    errors.add_normal(part);
  }
  return {Mass::si(sum.mass), errors.u(), rubber, errors, sum.errors};
}

/// The reading at which counted mass + guard band reaches the limit. Both grow with the reading,
/// nearly in a straight line.
double reading_at_limit(const Planned& p, Stage stage, Length tails) {
  const double limit = p.rule->limit.in_si();
  const auto excess = [&](double reading) {
    const Counted c = counted_with(p, stage, Mass::si(reading), tails);
    return (c.mass + c.errors.guard(p.confidence)).in_si() - limit;
  };
  double high = 2 * (limit + p.rings.value.in_si() + p.adhesive_mass.value.in_si() +
                     (p.linear_density.value * tails).in_si());
  while (excess(high) < 0 && high < 1e6) {
    high *= 2;
  }
  return rising_root(excess, 0, high, limit);
}

Diagnostic no_room(const Planned& p, Stage stage, Mass over) {
  return error(
      "rule-limit",
      fmt::format(
          "rule \"{}\": the limit of {} leaves nothing for rubber: what else counts and the "
          "guard band take {} mg more than that ({})",
          p.rule->name, exact(p.rule->limit), rounded(over.in_mg(), 3), word(stage)),
      "check the limit, what counts, and the mass of the rings");
}

Diagnostic empty_window(const Planned& p, Stage stage, Mass low, Mass high) {
  if (p.rule && low - high > p.window) {
    return error(
        "window-empty",
        fmt::format("too heavy for rule \"{}\": {} of washed rubber, but at the stage {} the "
                    "scale may read at most {}",
                    p.rule->name, shown(p.aim, p.scale_step), word(stage),
                    shown(high, p.scale_step)),
        "a smaller loop or mass, fewer strands, thinner strip, or mass = \"limit\"");
  }
  return error(
      "window-empty",
      fmt::format("the window at the stage {} is empty: its lower end {} is over its upper "
                  "end {} by {} mg",
                  word(stage), shown(low, p.scale_step), shown(high, p.scale_step),
                  rounded((low - high).in_mg(), 3)),
      fmt::format("give a wider window than {} mg, a smaller mass, or a finer scale than "
                  "{} mg",
                  rounded(p.window.in_mg(), 3), rounded(p.scale_step.in_mg(), 3)));
}

}  // namespace

Mass scale_u(Mass step, Mass error) {
  return Mass::si(std::sqrt(2 * squared(step.in_si()) / 12 + squared(error.in_si()) / 3));
}

Counted counted(const Planned& p, Stage stage, Mass reading) {
  return counted_with(p, stage, reading, tails_at(p, stage));
}

Mass rubber_in(const Planned& p, Stage stage, Mass reading) {
  return washed_in(p, stage, reading, tails_at(p, stage));
}

ErrorParts scale_errors(const Planned& p) {
  ErrorParts errors;
  errors.add_rectangular(p.scale_error);
  errors.add_rectangular(p.rule ? p.rule->official_error : Mass{});
  return errors;
}

double guard_factor(Share confidence) { return normal_quantile(confidence.as_ratio()); }

Mass reading_of(const Planned& p, Stage stage, Mass washed) {
  switch (stage) {
    case Stage::as_cut:
      return (washed + p.linear_density.value * p.tails) / (1 - p.talc.value.as_ratio());
    case Stage::washed:
      return washed;
    case Stage::tied:
      return washed + p.rings.value + p.adhesive_mass.value;
    case Stage::finished:
      break;
  }
  return washed * (1 + p.uptake.value.as_ratio()) + p.rings.value + p.adhesive_mass.value;
}

UpperEnd own_upper_end(const Planned& p, Stage stage) {
  const Mass reading = Mass::si(reading_at_limit(p, stage, Length{}));
  return {reading, counted_with(p, stage, reading, Length{}).errors.guard(p.confidence)};
}

Result<UpperEnd> upper_end(const Planned& p, Stage stage) {
  std::optional<UpperEnd> best;
  for (const Stage s : {Stage::washed, Stage::tied, Stage::finished}) {
    const UpperEnd from_here = own_upper_end(p, s);
    if (!best) {
      best = from_here;
    } else {
      // What an earlier stage knew is not lost: carry its end over to this stage's scale.
      const Stage before = s == Stage::tied ? Stage::washed : Stage::tied;
      const Mass washed = washed_in(p, before, best->reading, Length{});
      const Mass carried = reading_of(p, s, washed);
      best = from_here.reading > carried ? from_here : UpperEnd{carried, best->guard};
    }
    const Mass rubber = washed_in(p, s, best->reading, Length{});
    if (rubber <= Mass{}) {
      const Counted none = counted_with(p, s, reading_of(p, s, Mass{}), Length{});
      return no_room(p, s, none.mass + none.errors.guard(p.confidence) - p.rule->limit);
    }
    if (s == stage) {
      break;
    }
  }
  return *best;
}

Mass washed_low_unrounded(const Planned& p, Mass washed_upper) {
  return p.aim_is_limit ? washed_upper - p.window : p.aim - p.window / 2;
}

Diagnostics fill_windows(Planned& p) {
  Diagnostics problems;
  Mass washed_low;
  Mass washed_high;
  for (const Stage stage : {Stage::washed, Stage::tied, Stage::finished}) {
    std::optional<UpperEnd> limit;
    if (p.rule) {
      auto end = upper_end(p, stage);
      if (!end) {
        return end.diagnostics();
      }
      limit = *end;
    }
    if (stage == Stage::washed) {
      if (p.aim_is_limit) {
        p.aim = limit->reading - p.window / 2;
      }
      washed_low = washed_low_unrounded(p, limit ? limit->reading : Mass{});
      washed_high = p.aim + p.window / 2;
    }
    const Mass low = reading_of(p, stage, washed_low);
    Mass high = reading_of(p, stage, washed_high);
    if (p.aim_is_limit) {
      high = limit->reading;
    } else if (limit) {
      high = std::min(high, limit->reading);
    }
    records::Window& window = p.windows.of(stage);
    window.low = ceil_to_step(low, p.scale_step);
    window.high = floor_to_step(high, p.scale_step);
    window.guard = limit ? std::optional(limit->guard) : std::nullopt;
    if (low <= Mass{}) {
      problems.push_back(error("window-empty",
                               fmt::format("the window of {} mg reaches below nothing: its upper "
                                           "end is {} at the stage {}",
                                           rounded(p.window.in_mg(), 3), exact(high), word(stage)),
                               "give a narrower window"));
      return problems;
    }
    if (*window.low > *window.high) {
      problems.push_back(empty_window(p, stage, *window.low, *window.high));
      return problems;
    }
  }
  const records::Window washed = scale_window(p, Stage::washed);
  if (*washed.low > *washed.high) {
    problems.push_back(empty_window(p, Stage::washed, *washed.low, *washed.high));
  }
  return problems;
}

records::Window scale_window(const Planned& p, Stage stage) {
  if (stage != Stage::washed || p.tails <= Length{}) {
    return p.windows.of(stage);
  }
  const Mass tails = p.linear_density.value * p.tails;
  Mass low = p.aim - p.window / 2 + tails;
  Mass high = p.aim + p.window / 2 + tails;
  records::Window window = p.windows.of(stage);
  if (p.rule) {
    high = std::min(high, own_upper_end(p, stage).reading + tails);
    const Mass most = Mass::si(reading_at_limit(p, stage, p.tails));
    const Mass lower = std::max(high - most, Mass{});
    low -= lower;
    high -= lower;
    window.guard = counted(p, stage, most).errors.guard(p.confidence);
  }
  window.low = ceil_to_step(low, p.scale_step);
  window.high = floor_to_step(high, p.scale_step);
  return window;
}

Result<Mass> as_cut_low(const Planned& p, Mass washed_low) {
  const double stays = 1 - p.talc.value.as_ratio() - 2 * p.talc.u.as_ratio();
  if (stays <= 0) {
    return error("talc", fmt::format("talc of {} leaves nothing of the strip", exact(p.talc)),
                 "give the share of its mass that the strip loses in washing, such as \"0.8 %\"");
  }
  return ceil_to_step((washed_low + p.linear_density.value * p.tails) / stays, p.scale_step);
}

TyingCheck check_tying(const Planned& p, Mass washed, Mass tied) {
  TyingCheck check;
  check.tails = p.linear_density.value * p.tails;
  check.difference = tied - (washed - check.tails);
  check.expected = p.rings.value + p.adhesive_mass.value;
  const double u_scale = scale_u(p.scale_step, Mass{}).in_si();  // the scale's error is common
  double u2 =
      2 * squared(u_scale) + squared(p.rings.u.in_si()) + squared(p.adhesive_mass.u.in_si());
  if (p.tails > Length{}) {
    u2 += squared((p.linear_density.u * p.tails).in_si()) +
          squared((p.linear_density.value * p.ruler_step).in_si()) / 3;
  }
  check.tolerance = std::max(Mass::si(3 * std::sqrt(u2)), p.scale_step);
  const auto near = [&](Mass expected) {
    return std::fabs((check.difference - expected).in_si()) <=
           check.tolerance.in_si() * (1 + kOnStep);
  };
  check.agrees = near(check.expected);
  for (int missing = 1; !check.agrees && missing <= p.ring_count; ++missing) {
    const Mass ring = p.rings.value / p.ring_count;
    if (near(check.expected - ring * missing)) {
      check.rings_missing = missing;
      break;
    }
  }
  check.tails_still_on =
      !check.agrees && check.tails > Mass{} && near(check.expected + check.tails);
  return check;
}

Mass floor_to_step(Mass value, Mass step) {
  const double n = value / step;
  const double whole = std::round(n);
  return step * (std::fabs(n - whole) < kOnStep ? whole : std::floor(n));
}

Mass ceil_to_step(Mass value, Mass step) {
  const double n = value / step;
  const double whole = std::round(n);
  return step * (std::fabs(n - whole) < kOnStep ? whole : std::ceil(n));
}

}  // namespace loopledger::calc
