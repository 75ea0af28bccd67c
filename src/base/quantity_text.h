// SPDX-License-Identifier: MIT
//
// Quantities <-> text: the one place that knows unit names. Reads what a person types ("1.5 g",
// "3/32 in", "12 1/2 in", "1.05 ± 0.02 mm", "41 gf.cm", "2 %") and writes what is printed. Numbers
// are read and written without any locale.
//
// Grammar: number [± number] unit, or number unit ± number unit. A number is decimal ("1.5",
// "1,5" is an error with a hint), a fraction ("3/32") or a mixed number ("12 1/2", "12-1/2").
// "+/-" and "+-" are read as "±". Torque units may be written with "." or "*" or "·" or "-".
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/quantity.h"
#include "base/result.h"

namespace loopledger {

/// A bare number: decimal, fraction or mixed; nothing may follow it.
[[nodiscard]] std::optional<double> number_from(std::string_view text);

/// Which systems of units lead on paper and in the terminal.
enum class Units { metric, inch };

// Each reader returns the quantity or one diagnostic without a place (code "quantity-…"): what was
// expected, what was found, and the accepted units as its hint. Values must be finite; sign and
// bounds are the caller's to check. A "±" is an error except in the `uncertain_…` readers.
[[nodiscard]] Result<Length> length_from(std::string_view text);      // mm cm m in ft
[[nodiscard]] Result<Area> area_from(std::string_view text);          // mm2 cm2 in2
[[nodiscard]] Result<Mass> mass_from(std::string_view text);          // mg g kg oz
[[nodiscard]] Result<Density> density_from(std::string_view text);    // g/cm3 kg/m3
[[nodiscard]] Result<Pressure> pressure_from(std::string_view text);  // MPa kPa N/mm2
[[nodiscard]] Result<Torque> torque_from(std::string_view text);  // gf.cm ozf.in N.cm N.m mN.m …
[[nodiscard]] Result<Duration> duration_from(std::string_view text);        // s min h d; 1 h 30 min
[[nodiscard]] Result<Share> share_from(std::string_view text);              // % or a bare ratio
[[nodiscard]] Result<Temperature> temperature_from(std::string_view text);  // degC °C C degF °F F

[[nodiscard]] Result<Uncertain<Mass>> uncertain_mass_from(std::string_view text);
[[nodiscard]] Result<Uncertain<Share>> uncertain_share_from(std::string_view text);
[[nodiscard]] Result<Uncertain<LinearDensity>> uncertain_linear_density_from(
    std::string_view text);  // g/m mg/mm kg/m
[[nodiscard]] Result<Uncertain<Pressure>> uncertain_pressure_from(std::string_view text);
/// A bare factor such as "11.0 ± 0.9".
[[nodiscard]] Result<Uncertain<double>> uncertain_factor_from(std::string_view text);

/// One way to write a unit that the readers above take.
struct UnitName {
  std::string_view kind;  ///< "length", "torque factor", …
  std::string_view name;  ///< in lower case, with "." between factors
  bool in_hint = false;
};
/// Every row of every table of units, so that tests can hold them all against their sources.
[[nodiscard]] std::vector<UnitName> unit_names();

/// Fixed decimals, no locale, no "-0".
[[nodiscard]] std::string fixed(double value, int decimals);
/// The shortest text that reads back to the same double.
[[nodiscard]] std::string shortest(double value);
/// About `digits` significant digits, trailing zeros dropped.
[[nodiscard]] std::string rounded(double value, int digits);

// For files: exact text that the readers above read back to the same value within 1 part in 1e12.
[[nodiscard]] std::string exact(Length value);         // mm
[[nodiscard]] std::string exact(Area value);           // mm2
[[nodiscard]] std::string exact(Mass value);           // g
[[nodiscard]] std::string exact(Density value);        // g/cm3
[[nodiscard]] std::string exact(LinearDensity value);  // g/m
[[nodiscard]] std::string exact(Pressure value);       // MPa
[[nodiscard]] std::string exact(Torque value);         // mN.m
[[nodiscard]] std::string exact(Duration value);       // s
[[nodiscard]] std::string exact(Share value);          // %
[[nodiscard]] std::string exact(Temperature value);    // degC
[[nodiscard]] std::string exact(const Uncertain<Mass>& value);
[[nodiscard]] std::string exact(const Uncertain<Share>& value);
[[nodiscard]] std::string exact(const Uncertain<LinearDensity>& value);
[[nodiscard]] std::string exact(const Uncertain<Pressure>& value);

// For people. `units` picks the leading system.
[[nodiscard]] std::string shown(Length value, Units units);  // "303 mm", "11.93 in"
/// "2.38 mm" or "0.094 in": a strip's width as its maker would state it.
[[nodiscard]] std::string shown_width(Length width, Units units);
[[nodiscard]] std::string shown(Torque value, Units units);  // "44 gf·cm", "0.611 ozf·in"
/// "gf·cm" or "ozf·in", and a torque in it, without it: for columns and axes.
[[nodiscard]] std::string torque_unit(Units units);
[[nodiscard]] double torque_in(Torque value, Units units);
[[nodiscard]] std::string torque_number(Torque value, Units units);
/// The interval's two ends without a unit, "27.3–72.8"; and both: "44.6 gf·cm (27.3–72.8)".
[[nodiscard]] std::string interval_of(const Estimate<Torque>& value, Units units);
[[nodiscard]] std::string shown(const Estimate<Torque>& value, Units units);
[[nodiscard]] std::string shown(Duration value);  // "5 min", "1 h 30 min"
/// "1113": turns to wind to or not to pass; whole, never rounded up.
[[nodiscard]] std::string shown_at_most(Turns turns);
[[nodiscard]] std::string shown(Temperature value, Units units);  ///< "21 °C", "70 °F"
/// "1.497 g", with as many decimals as the scale's step has; without the unit; in milligrams.
[[nodiscard]] std::string shown(Mass value, Mass scale_step);
[[nodiscard]] std::string grams(Mass value, Mass scale_step);
[[nodiscard]] std::string shown_mg(Mass value, Mass scale_step);  // "14 mg"
/// Decimals in grams that a scale of this step shows: 3 for 1 mg, 2 for 10 mg.
[[nodiscard]] int gram_decimals(Mass scale_step);

}  // namespace loopledger
