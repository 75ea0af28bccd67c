// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include "calc/rising_root.h"
#include "calc/squared.h"
#include "calc/turns_torque.h"
#include "calc/weigh.h"

namespace loopledger::calc {
namespace {

using records::Planned;

/// Readings that are further from each other come once in a thousand. Common sense, no source.
constexpr double kAgree = 0.9995;  ///< on either side

struct Row {
  Stage stage;
  Mass reading;
  Counted counted;
};
using Rows = std::vector<Row>;
using Weights = std::vector<double>;

double grows(const Planned& p, Stage stage) {
  return stage == Stage::finished ? 1 + p.uptake.value.as_ratio() : 1;
}

/// What two readings' counted masses vary in common beside the scale's error, in kg2. The latter is
/// the same in both, so it moves no weight and no difference.
double common_u2(const Planned& p, const Row& a, const Row& b) {
  double u2 = 0;
  for (std::size_t i = 0; i < a.counted.parts.size(); ++i) {
    u2 += a.counted.parts.at(i).in_si() * b.counted.parts.at(i).in_si();
  }
  constexpr double kNothing = 1e-15;  ///< 1e-3 µg, so that a plan without a step can be solved
  return a.stage == b.stage ? u2 + squared(p.scale_step.in_si()) / 6 + squared(kNothing) : u2;
}

/// Least squares: of all means of the readings the one that is known best. The weights solve V w =
/// 1, scaled to a sum of 1; V is positive definite and at most 3 x 3.
Weights least_squares(const Planned& p, const Rows& rows) {
  const std::size_t n = rows.size();
  std::vector<Weights> v(n, Weights(n + 1, 1.0));
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k < n; ++k) {
      v[i][k] = common_u2(p, rows[i], rows[k]) / common_u2(p, rows[0], rows[0]);
    }
  }
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t other = 0; other < n; ++other) {
      const double factor = other == i ? 0 : v[other][i] / v[i][i];
      for (std::size_t k = i; k <= n && other != i; ++k) {
        v[other][k] -= factor * v[i][k];
      }
    }
  }
  Weights weights;
  double sum = 0;
  for (std::size_t i = 0; i < n; ++i) {
    weights.push_back(v[i][n] / v[i][i]);
    sum += weights.back();
  }
  for (double& w : weights) {
    w /= sum;
  }
  return weights;
}

Counted together(const Planned& p, const Rows& rows) {
  if (rows.size() == 1) {
    return rows[0].counted;
  }
  const Weights weights = least_squares(p, rows);
  Counted all{{}, {}, {}, scale_errors(p), {}};
  for (std::size_t i = 0; i < rows.size(); ++i) {
    all.mass += rows[i].counted.mass * weights[i];
    all.rubber += rows[i].counted.rubber * weights[i];
    all.errors.add_steps(p.scale_step, weights[i]);
    for (std::size_t k = 0; k < all.parts.size(); ++k) {
      all.parts.at(k) += rows[i].counted.parts.at(k) * weights[i];
    }
  }
  for (const Mass part : all.parts) {
    all.errors.add_normal(part);
  }
  all.u = all.errors.u();
  return all;
}

bool agree(const Planned& p, const Rows& later, const Row& earlier) {
  const Weights weights = least_squares(p, later);
  double difference = -earlier.counted.mass.in_si();
  double u2 = common_u2(p, earlier, earlier);
  for (std::size_t i = 0; i < later.size(); ++i) {
    difference += weights[i] * later[i].counted.mass.in_si();
    u2 -= 2 * weights[i] * common_u2(p, later[i], earlier);
    for (std::size_t k = 0; k < later.size(); ++k) {
      u2 += weights[i] * weights[k] * common_u2(p, later[i], later[k]);
    }
  }
  return std::fabs(difference) <= normal_quantile(kAgree) * std::sqrt(std::max(u2, 0.0));
}

Row row_of(const Planned& p, Stage stage, Mass reading) {
  return {stage, reading, counted(p, stage, reading)};
}

/// The reading itself first, then those before it that are of the same motor as it is now.
Rows rows_of(const Planned& p, Stage stage, Mass reading, const StageReadings& before,
             bool& all_agree) {
  Rows rows{row_of(p, stage, reading)};
  const auto take = [&](Stage earlier, const std::optional<Mass>& read) {
    if (read && earlier < stage) {
      const Row row = row_of(p, earlier, *read);
      if (agree(p, rows, row)) {
        rows.push_back(row);
      } else {
        all_agree = false;
      }
    }
  };
  take(Stage::tied, before.tied);
  take(Stage::washed, before.washed);
  return rows;
}

/// The highest that the first of the readings may be, rounded down to the scale's step, when all of
/// them came down by the same strip. @pre p.rule
Mass highest_together(const Planned& p, const Rows& rows) {
  const Mass reading = ceil_to_step(rows[0].reading, p.scale_step);
  const auto room = [&](double snipped) {
    Rows less;
    for (const Row& row : rows) {
      const Mass read = row.stage == rows[0].stage ? reading : row.reading;
      less.push_back(row_of(p, row.stage, read - Mass::si(snipped) * grows(p, row.stage)));
    }
    const Counted all = together(p, less);
    return (p.rule->limit - all.mass - all.errors.guard(p.confidence)).in_si();
  };
  if (room(0) >= 0) {
    return reading;
  }
  const double most = rows[0].counted.rubber.in_si();
  const double snip = rising_root(room, 0, std::max(most, 0.0), p.rule->limit.in_si());
  return floor_to_step(reading - Mass::si(snip) * grows(p, rows[0].stage), p.scale_step);
}

/// The highest that the reading may be: the window's end, but for a later stage what all readings
/// say together, and of a motor weighed at that stage only the stage's own end.
std::optional<Mass> highest(const Planned& p, Stage stage, const Rows& rows) {
  const std::optional<Mass> printed = scale_window(p, stage).high;
  if (!printed || !p.rule || stage == Stage::as_cut || stage == Stage::washed) {
    return printed;
  }
  if (rows.size() == 1) {
    return std::min(*printed, floor_to_step(own_upper_end(p, stage).reading, p.scale_step));
  }
  const Mass by_rule = highest_together(p, rows);
  if (p.aim_is_limit) {
    return by_rule;
  }
  return std::min(by_rule, floor_to_step(reading_of(p, stage, p.aim + p.window / 2), p.scale_step));
}

}  // namespace

Length snip_for(const Planned& p, Stage stage, Mass over) {
  const records::Window window = scale_window(p, stage);
  const Mass half = window.low && window.high ? (*window.high - *window.low) / 2 : Mass{};
  return std::min((over + half) / grows(p, stage) / p.linear_density.value, p.loop * p.strands);
}

Judgement judge(const Planned& p, Stage stage, Mass reading, const StageReadings& before) {
  Judgement j;
  j.stage = stage;
  j.reading = reading;
  const Rows rows = rows_of(p, stage, reading, before, j.agree);
  j.counted = together(p, rows);
  if (p.rule) {
    j.margin = p.rule->limit - j.counted.mass;
    j.within = j.counted.errors.share_below(*j.margin);
  }
  constexpr double kHair = 1e-9;  ///< of a step: nearer than this counts as on it
  const Mass hair = p.scale_step * kHair;
  const std::optional<Mass> high = highest(p, stage, rows);
  const std::optional<Mass> low = scale_window(p, stage).low;
  if (high && reading > *high + hair) {
    j.verdict = Verdict::over;
    j.over = reading - *high;
    j.trim = snip_for(p, stage, j.over);
  } else if (low && reading < *low - hair) {
    j.verdict = Verdict::light;
    j.light = *low - reading;
  }
  return j;
}

}  // namespace loopledger::calc
