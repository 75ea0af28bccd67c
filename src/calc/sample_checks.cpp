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

}  // namespace

Diagnostics check_samples(const plan::Strip& strip, const plan::Bench& bench) {
  Diagnostics said = few_samples(strip);
  const Diagnostics odd = odd_samples(strip);
  append(said, odd);
  if (odd.empty()) {
    append(said, offset(strip, bench));
  }
  return said;
}

}  // namespace loopledger::calc
