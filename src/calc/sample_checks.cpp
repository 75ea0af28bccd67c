// SPDX-License-Identifier: MIT
#include "calc/sample_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <vector>

#include "base/quantity_text.h"
#include "calc/linear_density.h"
#include "calc/straight_line.h"

namespace loopledger::calc {
namespace {

constexpr std::size_t kWantedSamples = 3;
constexpr double kOdd = 0.1;           // strip varies by some percent, a slip by more
constexpr double kTwoSided99 = 0.995;  // the quantile
constexpr double kUselessU = 0.05;     // relative; no better than width x thickness

// What rubber strip for models is made in; common sense, no source.
constexpr Length kThinnest = Length::mm(0.3);
constexpr Length kThickest = Length::mm(3);
constexpr LinearDensity kLightest = LinearDensity::g_per_m(0.1);
constexpr LinearDensity kHeaviest = LinearDensity::g_per_m(100);

Diagnostics few_samples(const plan::Strip& strip) {
  if (strip.samples.size() >= kWantedSamples) {
    return {};
  }
  return {note("few-samples",
               strip.samples.empty()
                   ? fmt::format("strip \"{}\" has no samples: its linear density is width x "
                                 "thickness x density, sure to {:.0f} %",
                                 strip.name, kSectionUncertainty * 100)
                   : fmt::format("strip \"{}\" has {} of the three samples that show how even it "
                                 "is",
                                 strip.name, strip.samples.size()),
               "measure and weigh three lengths from different places", strip.place)};
}

/// Samples that are unlike the middle one: a digit typed wrong, or another strip.
Diagnostics odd_samples(const plan::Strip& strip) {
  if (strip.samples.size() < kWantedSamples) {
    return {};
  }
  std::vector<double> each;
  for (const plan::Sample& sample : strip.samples) {
    each.push_back(sample.mass.in_si() / sample.length.in_si());
  }
  std::vector<double> sorted = each;
  std::ranges::sort(sorted);
  const double middle = sorted[sorted.size() / 2];
  Diagnostics problems;
  for (std::size_t i = 0; i < each.size(); ++i) {
    if (std::fabs(each[i] / middle - 1) >= kOdd) {
      problems.push_back(warning(
          "sample-odd",
          fmt::format("strip \"{}\": this sample of {} and {} has {} g/m, the middle one of all "
                      "has {} g/m",
                      strip.name, exact(strip.samples[i].length), exact(strip.samples[i].mass),
                      fixed(LinearDensity::si(each[i]).in_g_per_m(), 3),
                      fixed(LinearDensity::si(middle).in_g_per_m(), 3)),
          "is a figure typed wrong, or is it from another strip?", strip.samples[i].place));
    }
  }
  return problems;
}

Diagnostics offset(const plan::Strip& strip, const plan::Bench& bench) {
  if (strip.samples.size() < kWantedSamples) {
    return {};
  }
  std::vector<double> lengths;
  std::vector<double> masses;
  for (const plan::Sample& sample : strip.samples) {
    lengths.push_back(sample.length.in_si());
    masses.push_back(sample.mass.in_si());
  }
  const auto [least, most] = std::ranges::minmax(lengths);
  if (least == most) {
    return {};
  }
  const StraightLine line = straight_line(lengths, masses);
  const double by_chance =
      line.u_intercept * boost::math::quantile(boost::math::students_t(line.degrees), kTwoSided99);
  const double by_tools = bench.scale_error.value.in_si() + bench.scale_step.value.in_si() +
                          line.slope * bench.ruler_step.value.in_si();
  const double off = std::fabs(line.intercept);
  if (off <= by_chance || off <= by_tools) {
    return {};
  }
  return {warning(
      "samples-offset",
      fmt::format(
          "strip \"{}\": its samples lie on a line that has {} mg at no length: all of them "
          "are {} by about that, or {} mm too {}",
          strip.name, fixed(Mass::si(line.intercept).in_mg(), 0),
          line.intercept > 0 ? "too heavy" : "too light",
          fixed(Length::si(off / line.slope).in_mm(), 0), line.intercept > 0 ? "short" : "long"),
      "was the scale at zero, and the strip measured from its clean end?", strip.place)};
}

/// What to look for when a figure is `ratio` times what is likely at most, or at least.
std::string slip_hint(const plan::Strip& strip, bool tenfold) {
  const std::string where = strip.samples.empty() ? "the thickness"
                            : strip.width.given   ? "the samples or the width"
                                                  : "the samples";
  return tenfold ? fmt::format(
                       "ten times off? look for a decimal point in the wrong place in {}, "
                       "cm for mm, or mg for g",
                       where)
                 : fmt::format("look at the units in {}: mm or in, g or mg", where);
}

/// Whether a decimal point moved by one place brings it between the two.
template <class Q>
bool is_tenfold(Q value, Q low, Q high) {
  const auto within = [&](Q moved) { return moved >= low && moved <= high; };
  return within(value * 10) || within(value / 10);
}

/// A tenfold slip that is in all of the samples shows only beside what strip can be.
Diagnostics unlikely_strip(const plan::Strip& strip, LinearDensity lambda) {
  if (!strip.width.given) {
    if (lambda >= kLightest && lambda <= kHeaviest) {
      return {};
    }
    return {
        warning("samples-density",
                fmt::format("strip \"{}\": its samples give {} g/m; rubber strip has {} to {} "
                            "g/m",
                            strip.name, rounded(lambda.in_g_per_m(), 3),
                            rounded(kLightest.in_g_per_m(), 3), rounded(kHeaviest.in_g_per_m(), 3)),
                slip_hint(strip, is_tenfold(lambda, kLightest, kHeaviest)), strip.place)};
  }
  const Length thick =
      Length::si((lambda / strip.density.value).in_si() / strip.width.value.in_si());
  if (thick >= kThinnest && thick <= kThickest) {
    return {};
  }
  return {warning(
      "samples-thickness",
      fmt::format("strip \"{}\": {} it {} mm thick; rubber strip is {} to {} mm thick", strip.name,
                  strip.samples.empty() ? "`thickness` makes" : "samples, width and density make",
                  rounded(thick.in_mm(), 3), rounded(kThinnest.in_mm(), 3),
                  rounded(kThickest.in_mm(), 3)),
      slip_hint(strip, is_tenfold(thick, kThinnest, kThickest)), strip.place)};
}

/// Samples so unlike each other, or so short, that nothing can be told from them.
Diagnostics scatter(const plan::Strip& strip, const Uncertain<LinearDensity>& lambda) {
  const double relative = lambda.u / lambda.value;
  if (strip.samples.empty() || relative <= kUselessU) {
    return {};
  }
  constexpr double kNormal95 = 1.96;
  return {warning("samples-scatter",
                  fmt::format("strip \"{}\": its samples leave the linear density open by ± {:.0f} "
                              "% (95 %): loops, turns and what never to pass follow from it",
                              strip.name, kNormal95 * relative * 100),
                  "is a figure typed wrong? else weigh three longer lengths, from different places",
                  strip.place)};
}

}  // namespace

Diagnostics check_samples(const plan::Strip& strip, const plan::Bench& bench) {
  Diagnostics said = few_samples(strip);
  const Diagnostics odd = odd_samples(strip);
  append(said, odd);
  if (odd.empty()) {
    const Uncertain<LinearDensity> lambda = linear_density(strip, bench);
    append(said, offset(strip, bench));
    append(said, unlikely_strip(strip, lambda.value));
    append(said, scatter(strip, lambda));
  }
  return said;
}

}  // namespace loopledger::calc
