// SPDX-License-Identifier: MIT
#include "calc/error_parts.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <functional>
#include <numbers>
#include <optional>

#include "calc/rising_root.h"
#include "calc/squared.h"
#include "calc/turns_torque.h"

namespace loopledger::calc {
namespace {

constexpr std::size_t kExact = 4;  ///< rectangular parts taken as they are
/// A narrower one, against the standard uncertainty of all, may as well be normal: the sum's
/// distribution moves by less than 1e-6.
constexpr double kNarrow = 0.1;

/// Up to four rectangular parts and a normal one. The distribution of the sum is a difference of
/// the normal distribution's integrals, one integral for each rectangular part.
class ErrorSum {
 public:
  ErrorSum(double normal_u2, std::array<double, 8> half_widths, std::size_t count) {
    double all_u2 = normal_u2;
    for (std::size_t i = 0; i < count; ++i) {
      all_u2 += squared(half_widths.at(i)) / 3;
    }
    std::sort(half_widths.begin(), half_widths.begin() + static_cast<std::ptrdiff_t>(count),
              std::greater<>());
    for (std::size_t i = 0; i < count; ++i) {
      const double a = half_widths.at(i);
      if (n_ < kExact && squared(a) > squared(kNarrow) * all_u2) {
        a_.at(n_++) = a;
      } else {
        normal_u2 += squared(a) / 3;
      }
    }
    sigma_ = std::sqrt(normal_u2);
  }

  [[nodiscard]] bool normal() const { return n_ == 0; }
  [[nodiscard]] double sigma() const { return sigma_; }
  /// Beyond it there is nothing, or next to nothing of the normal part.
  [[nodiscard]] double reach() const {
    constexpr double kFar = 9;
    return a_[0] + a_[1] + a_[2] + a_[3] + kFar * sigma_;
  }

  [[nodiscard]] double below(double x) const {
    const double lower = signed_sum(-std::fabs(x));  // the small tail loses fewest digits
    return x < 0 ? lower : 1 - lower;
  }

 private:
  /// The integral, taken once for each rectangular part, of the normal distribution with u = sigma.
  [[nodiscard]] double integral(double y) const {
    if (sigma_ <= 0) {
      double power = y > 0 ? 1 : 0;
      for (std::size_t i = 1; i <= n_; ++i) {
        power *= y / static_cast<double>(i);
      }
      return power;
    }
    const double z = y / sigma_;
    double before = std::exp(-z * z / 2) / (sigma_ * std::sqrt(2 * std::numbers::pi));
    double now = std::erfc(-z / std::numbers::sqrt2) / 2;
    for (std::size_t i = 1; i <= n_; ++i) {
      const double next = (y * now + squared(sigma_) * before) / static_cast<double>(i);
      before = now;
      now = next;
    }
    return now;
  }

  [[nodiscard]] double signed_sum(double x) const {
    double sum = 0;
    double scale = 1;
    for (std::size_t i = 0; i < n_; ++i) {
      scale *= 2 * a_.at(i);
    }
    for (unsigned signs = 0; signs < 1U << n_; ++signs) {
      double y = x;
      double sign = 1;
      for (std::size_t i = 0; i < n_; ++i) {
        const bool minus = (signs >> i & 1U) != 0;
        y += minus ? -a_.at(i) : a_.at(i);
        sign = minus ? -sign : sign;
      }
      sum += sign * integral(y);
    }
    return std::max(sum / scale, 0.0);
  }

  std::array<double, kExact> a_{};
  std::size_t n_ = 0;
  double sigma_ = 0;
};

}  // namespace

void ErrorParts::add_normal(Mass u) { normal_u2_ += squared(u.in_si()); }

void ErrorParts::add_rectangular(Mass half_width) {
  if (half_width == Mass{}) {
    return;
  }
  assert(count_ < kMost);
  half_widths_.at(count_++) = std::fabs(half_width.in_si());
}

void ErrorParts::add_steps(Mass step, double weight) {
  add_rectangular(step * (weight / 2));
  add_rectangular(step * (weight / 2));
}

Mass ErrorParts::u() const {
  double u2 = normal_u2_;
  for (const double a : half_widths_) {
    u2 += squared(a) / 3;
  }
  return Mass::si(std::sqrt(u2));
}

Share ErrorParts::share_below(Mass margin) const {
  const double x = margin.in_si();
  const ErrorSum sum(normal_u2_, half_widths_, count_);
  if (!sum.normal()) {
    return Share::ratio(sum.below(x));
  }
  if (sum.sigma() <= 0) {
    return Share::ratio(x < 0 ? 0 : 1);
  }
  return Share::ratio(normal_share_below(x / sum.sigma()));
}

Mass ErrorParts::guard(Share confidence) const {
  constexpr double kLeast = 1e-12;  // a damaged record may hold anything
  const double asked = confidence.as_ratio();
  const double p = asked > kLeast ? std::min(asked, 1 - kLeast) : kLeast;
  const ErrorSum sum(normal_u2_, half_widths_, count_);
  if (sum.normal()) {
    return Mass::si(normal_quantile(p) * u().in_si());
  }
  return Mass::si(rising_root([&](double x) { return sum.below(x) - p; }, -sum.reach(), sum.reach(),
                              sum.reach()));
}

std::optional<NarrowedError> narrowed_by_check(Mass error, Mass step, Mass nominal, Mass reading,
                                               Mass tolerance) {
  const Mass difference = reading - nominal;
  const Mass apart = step + tolerance;
  const Mass low = std::max(error * -1, difference - apart);
  const Mass high = std::min(error, difference + apart);
  const Mass hair = step * 1e-9;
  if (low > high + hair) {
    return std::nullopt;
  }
  const Mass half = std::max((high - low) / 2, Mass{});
  return NarrowedError{(low + high) / 2, half, half / std::sqrt(3.0)};
}

}  // namespace loopledger::calc
