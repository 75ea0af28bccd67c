// SPDX-License-Identifier: MIT
//
// Writing quantities: exactly for files, shortly for people.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/quantity_text.h"

namespace loopledger {
namespace {

/// 13 significant digits hide the last-bit noise of unit conversion and still read back to 1e-12.
std::string thirteen(double value) { return fmt::format("{:.13g}", value); }

std::string with_unit(double value, std::string_view unit) {
  return fmt::format("{} {}", thirteen(value), unit);
}

std::string with_unit(double value, double u, std::string_view unit) {
  return fmt::format("{} ± {} {}", thirteen(value), thirteen(u), unit);
}

}  // namespace

std::string exact(Length v) { return with_unit(v.in_mm(), "mm"); }
std::string exact(Area v) { return with_unit(v.in_mm2(), "mm2"); }
std::string exact(Mass v) { return with_unit(v.in_g(), "g"); }
std::string exact(Density v) { return with_unit(v.in_g_per_cm3(), "g/cm3"); }
std::string exact(LinearDensity v) { return with_unit(v.in_g_per_m(), "g/m"); }
std::string exact(Pressure v) { return with_unit(v.in_mpa(), "MPa"); }
std::string exact(Torque v) { return with_unit(v.in_mnm(), "mN.m"); }
std::string exact(Duration v) { return with_unit(v.in_s(), "s"); }
std::string exact(Share v) { return with_unit(v.in_percent(), "%"); }
std::string exact(Temperature v) { return with_unit(v.in_deg_c(), "degC"); }
std::string exact(const Uncertain<Mass>& v) { return with_unit(v.value.in_g(), v.u.in_g(), "g"); }
std::string exact(const Uncertain<Share>& v) {
  return with_unit(v.value.in_percent(), v.u.in_percent(), "%");
}
std::string exact(const Uncertain<LinearDensity>& v) {
  return with_unit(v.value.in_g_per_m(), v.u.in_g_per_m(), "g/m");
}
std::string exact(const Uncertain<Pressure>& v) {
  return with_unit(v.value.in_mpa(), v.u.in_mpa(), "MPa");
}

std::string shown(Length value, Units units) {
  if (units == Units::inch) {
    return fixed(value.in_in(), 2) + " in";
  }
  return fixed(value.in_mm(), 0) + " mm";
}

std::string torque_unit(Units units) { return units == Units::inch ? "ozf·in" : "gf·cm"; }

double torque_in(Torque value, Units units) {
  return units == Units::inch ? value.in_ozf_in() : value.in_gf_cm();
}

std::string torque_number(Torque value, Units units) { return rounded(torque_in(value, units), 3); }

std::string shown(Torque value, Units units) {
  return torque_number(value, units) + " " + torque_unit(units);
}

std::string interval_of(const Estimate<Torque>& value, Units units) {
  return fmt::format("{}–{}", torque_number(value.low, units), torque_number(value.high, units));
}

std::string shown(const Estimate<Torque>& value, Units units) {
  return fmt::format("{} ({})", shown(value.value, units), interval_of(value, units));
}

std::string shown(Duration value) {
  const auto seconds = static_cast<long>(std::lround(value.in_s()));
  const long h = seconds / 3600;
  const long min = seconds / 60 % 60;
  const long s = seconds % 60;
  std::string out;
  const auto add = [&out](long n, std::string_view unit) {
    if (n > 0) {
      out += fmt::format("{}{} {}", out.empty() ? "" : " ", n, unit);
    }
  };
  add(h, "h");
  add(min, "min");
  add(s, "s");
  return out.empty() ? "0 s" : out;
}

std::string shown(Temperature value, Units units) {
  const double c = value.in_deg_c();
  return units == Units::inch ? fixed(c * 9 / 5 + 32, 0) + " °F" : fixed(c, 0) + " °C";
}

std::string shown_at_most(Turns turns) { return fixed(whole_down(turns).count(), 0); }

int gram_decimals(Mass scale_step) {
  // Enough decimals that the step itself prints exactly, at most 6 (micrograms).
  for (int decimals = 0; decimals < 6; ++decimals) {
    const double scaled = scale_step.in_g() * std::pow(10.0, decimals);
    if (scaled >= 1 - 1e-9 && std::fabs(scaled - std::round(scaled)) < 1e-9 * scaled + 1e-9) {
      return decimals;
    }
  }
  return 6;
}

std::string grams(Mass value, Mass scale_step) {
  return fixed(value.in_g(), gram_decimals(scale_step));
}

std::string shown(Mass value, Mass scale_step) { return grams(value, scale_step) + " g"; }

std::string shown_mg(Mass value, Mass scale_step) {
  return fixed(value.in_mg(), std::max(0, gram_decimals(scale_step) - 3)) + " mg";
}

std::string shown_width(Length width, Units units) {
  // 1/8 in is 3.175 mm, and 3.18: the half is what the next digit of the binary number hides.
  constexpr double kHalf = 0.5 + 1e-6;
  return units == Units::inch ? fixed(width.in_in(), 3) + " in"
                              : shortest(std::floor(width.in_mm() * 100 + kHalf) / 100) + " mm";
}

}  // namespace loopledger
