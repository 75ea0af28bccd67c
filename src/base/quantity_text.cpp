// SPDX-License-Identifier: MIT
//
// Reading quantities. One table per kind names every unit that is understood; the first names are
// the ones shown in hints.
#include "base/quantity_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "base/number_text.h"
#include "base/quantity_pattern.h"
#include "base/text.h"

namespace loopledger {
namespace {

constexpr std::string_view kPointHint = "write the decimal point as a point: 1.5";
// Beyond these a change of unit leaves what a double can hold: no quantity of anything.
constexpr double kLeastSize = 1e-290;
constexpr double kMostSize = 1e290;

struct Unit {
  std::string_view name;  ///< lower case, "." between factors
  double si;
  bool in_hint;
  double over = 1;  ///< divides: "95 %" is to be the same double as Share::percent(95)
  [[nodiscard]] double in_si(double value) const { return value * si / over; }
};

struct KindOfQuantity {
  std::string_view what;     ///< "a length"
  std::string_view example;  ///< "300 mm"
  std::span<const Unit> units;
  bool bare = false;  ///< a number without a unit is accepted, in SI
};

constexpr double kInch = 0.0254;
constexpr double kOunce = 0.028349523125;
constexpr double kGravity = 9.80665;
constexpr double kPound = 0.45359237;

constexpr std::array<Unit, 15> kLength{{{"mm", 1e-3, true},
                                        {"cm", 1e-2, true},
                                        {"m", 1, true},
                                        {"in", kInch, true},
                                        {"ft", 12 * kInch, true},
                                        {"inch", kInch, false},
                                        {"inches", kInch, false},
                                        {"\"", kInch, false},
                                        {"″", kInch, false},
                                        {"feet", 12 * kInch, false},
                                        {"foot", 12 * kInch, false},
                                        {"'", 12 * kInch, false},
                                        {"metre", 1, false},
                                        {"metres", 1, false},
                                        {"meter", 1, false}}};
constexpr std::array<Unit, 6> kArea{{{"mm2", 1e-6, true},
                                     {"cm2", 1e-4, true},
                                     {"in2", kInch* kInch, true},
                                     {"mm²", 1e-6, false},
                                     {"cm²", 1e-4, false},
                                     {"in²", kInch* kInch, false}}};
constexpr std::array<Unit, 6> kMass{{{"mg", 1e-6, true},
                                     {"g", 1e-3, true},
                                     {"kg", 1, true},
                                     {"oz", kOunce, true},
                                     {"gram", 1e-3, false},
                                     {"grams", 1e-3, false}}};
constexpr std::array<Unit, 5> kDensity{{{"g/cm3", 1e3, true},
                                        {"kg/m3", 1, true},
                                        {"g/cm³", 1e3, false},
                                        {"g/cm^3", 1e3, false},
                                        {"kg/m³", 1, false}}};
constexpr std::array<Unit, 4> kLinearDensity{
    {{"g/m", 1e-3, true}, {"mg/mm", 1e-3, true}, {"kg/m", 1, true}, {"g/in", 1e-3 / kInch, true}}};
constexpr std::array<Unit, 5> kPressure{{{"mpa", 1e6, true},
                                         {"kpa", 1e3, true},
                                         {"n/mm2", 1e6, true},
                                         {"n/mm²", 1e6, false},
                                         {"pa", 1, false}}};
constexpr double kGfCm = 1e-3 * kGravity * 1e-2;
constexpr double kOzfIn = kOunce * kGravity * kInch;
constexpr std::array<Unit, 21> kTorque{{{"gf.cm", kGfCm, true},
                                        {"ozf.in", kOzfIn, true},
                                        {"n.cm", 1e-2, true},
                                        {"n.m", 1, true},
                                        {"mn.m", 1e-3, true},
                                        {"g.cm", kGfCm, false},
                                        {"gfcm", kGfCm, false},
                                        {"gcm", kGfCm, false},
                                        {"gf.mm", kGfCm / 10, false},
                                        {"kgf.cm", kGfCm * 1000, false},
                                        {"oz.in", kOzfIn, false},
                                        {"in.oz", kOzfIn, false},
                                        {"in.ozf", kOzfIn, false},
                                        {"ozin", kOzfIn, false},
                                        {"ozfin", kOzfIn, false},
                                        {"ncm", 1e-2, false},
                                        {"nm", 1, false},
                                        {"mnm", 1e-3, false},
                                        {"n.mm", 1e-3, false},
                                        {"lbf.in", kPound* kGravity* kInch, false},
                                        {"in.lbf", kPound* kGravity* kInch, false}}};
constexpr std::array<Unit, 15> kDuration{{{"s", 1, true},
                                          {"min", 60, true},
                                          {"h", 3600, true},
                                          {"d", 86400, true},
                                          {"sec", 1, false},
                                          {"second", 1, false},
                                          {"seconds", 1, false},
                                          {"minute", 60, false},
                                          {"minutes", 60, false},
                                          {"hr", 3600, false},
                                          {"hour", 3600, false},
                                          {"hours", 3600, false},
                                          {"day", 86400, false},
                                          {"days", 86400, false},
                                          {"m", 60, false}}};
constexpr std::array<Unit, 2> kShare{{{"%", 1, true, 100}, {"percent", 1, false, 100}}};

constexpr KindOfQuantity kLengthKind{"a length", "300 mm", kLength};
constexpr KindOfQuantity kAreaKind{"an area", "6.02 mm2", kArea};
constexpr KindOfQuantity kMassKind{"a mass", "1.5 g", kMass};
constexpr KindOfQuantity kDensityKind{"a density", "0.93 g/cm3", kDensity};
constexpr KindOfQuantity kLinearDensityKind{"a linear density", "2.43 g/m", kLinearDensity};
constexpr KindOfQuantity kPressureKind{"a torque factor", "0.60 MPa", kPressure};
constexpr KindOfQuantity kTorqueKind{"a torque", "41 gf.cm", kTorque};
constexpr KindOfQuantity kDurationKind{"a time", "5 min", kDuration};
constexpr KindOfQuantity kShareKind{"a share", "2 %", kShare, true};
constexpr KindOfQuantity kFactorKind{"a number", "11.0 ± 0.9", {}, true};

/// Scales, with a zero of their own: not factors.
constexpr std::array<UnitName, 7> kTemperature{{{"temperature", "degc", true},
                                                {"temperature", "°c", true},
                                                {"temperature", "c", false},
                                                {"temperature", "℃", false},
                                                {"temperature", "degf", true},
                                                {"temperature", "°f", true},
                                                {"temperature", "f", false}}};

/// All kinds that have units, for unit_names.
constexpr std::array<const KindOfQuantity*, 9> kKinds{
    &kLengthKind,   &kAreaKind,   &kMassKind,     &kDensityKind, &kLinearDensityKind,
    &kPressureKind, &kTorqueKind, &kDurationKind, &kShareKind};

/// "length" of "a length"
std::string_view without_article(const KindOfQuantity& kind) {
  return kind.what.substr(kind.what.find(' ') + 1);
}

/// Lower case, with one "." for every way to write a product.
std::string unit_key(std::string_view text) {
  std::string key;
  const std::string lower = lower_ascii(trimmed(text));
  for (std::size_t i = 0; i < lower.size();) {
    const std::string_view rest = std::string_view(lower).substr(i);
    const std::size_t dot = rest.starts_with("·") ? 2 : rest.starts_with("⋅") ? 3 : 0;
    const bool point = dot > 0 || lower[i] == '.';
    const bool product = point || lower[i] == '*' || lower[i] == '-' || lower[i] == ' ';
    // "gf · cm" is one product; "12-in" is none.
    const bool needless = key.empty() ? !point : key.back() == '.';
    if (!product || !needless) {
      key += product ? '.' : lower[i];
    }
    i += std::max<std::size_t>(dot, 1);
  }
  return key;
}

/// A point at the end marks an abbreviation: "12 in." is "12 in".
const Unit* find_unit(std::string_view text, const KindOfQuantity& kind) {
  text = trimmed(text);
  if (text.size() > 1 && text.back() == '.' &&
      trimmed(text.substr(0, text.size() - 1)).size() == text.size() - 1) {
    text.remove_suffix(1);
  }
  const std::string key = unit_key(text);
  for (const Unit& unit : kind.units) {
    if (unit.name == key) {
      return &unit;
    }
  }
  return nullptr;
}

/// Unit names as people write them; the tables hold them in lower case.
std::string display(std::string_view name) {
  constexpr std::array<std::array<std::string_view, 2>, 6> kWritten{{{"mpa", "MPa"},
                                                                     {"kpa", "kPa"},
                                                                     {"n/mm2", "N/mm2"},
                                                                     {"n.cm", "N.cm"},
                                                                     {"n.m", "N.m"},
                                                                     {"mn.m", "mN.m"}}};
  for (const auto& [key, written] : kWritten) {
    if (key == name) {
      return std::string(written);
    }
  }
  return std::string(name);
}

std::string unit_hint(const KindOfQuantity& kind) {
  std::vector<std::string> names;
  for (const Unit& unit : kind.units) {
    if (unit.in_hint) {
      names.push_back(display(unit.name));
    }
  }
  if (names.empty()) {
    return fmt::format("write for example \"{}\"", kind.example);
  }
  const std::vector<std::string_view> views(names.begin(), names.end());
  return fmt::format("units of {} are {}; write for example \"{}\"", without_article(kind),
                     either(views), kind.example);
}

Diagnostic not_a(const KindOfQuantity& kind, std::string_view text) {
  return error("quantity-form",
               fmt::format("expected {} such as \"{}\", found \"{}\"", kind.what, kind.example,
                           shortened(text, 60)),
               has_decimal_comma(text) ? std::string(kPointHint) : unit_hint(kind));
}

Diagnostic wrong_unit(const KindOfQuantity& kind, std::string_view unit, std::string_view text) {
  const std::string found = unit.empty()
                                ? fmt::format("\"{}\" without a unit", shortened(text, 60))
                                : fmt::format("the unit \"{}\" in \"{}\"",
                                              shortened(trimmed(unit), 20), shortened(text, 60));
  return error("quantity-unit",
               fmt::format("expected {} such as \"{}\", found {}", kind.what, kind.example, found),
               unit_hint(kind));
}

struct Split {
  std::string_view value;
  std::string_view u;  ///< what stands behind "±"
  bool uncertain = false;
};

Split split(std::string_view text) {
  for (const std::string_view sign : {"±", "+/-", "+-"}) {
    if (const auto at = text.find(sign); at != std::string_view::npos) {
      return {trimmed(text.substr(0, at)), trimmed(text.substr(at + sign.size())), true};
    }
  }
  return {trimmed(text), {}, false};
}

bool has_size(double v) {
  return v == 0 || (std::fabs(v) >= kLeastSize && std::fabs(v) <= kMostSize);
}

struct Raw {
  double value = 0;
  double u = 0;
};

/// "1.05 ± 0.02 mm", "1.05 mm ± 0.02 mm" and "1.05 mm ± 0.02" are the same.
Result<Raw> read(std::string_view text, const KindOfQuantity& kind, bool may_be_uncertain) {
  if (text.size() > kMaxQuantityText || has_decimal_comma(text)) {
    return not_a(kind, text);
  }
  const Split parts = split(text);
  const auto value = leading_number(parts.value);
  const auto u = parts.uncertain ? leading_number(parts.u) : std::optional<LeadingNumber>{};
  if (!value || (parts.uncertain && !u)) {
    return not_a(kind, text);
  }
  if (parts.uncertain && !may_be_uncertain) {
    return error("quantity-uncertain",
                 fmt::format("expected {} without \"±\", found \"{}\"", kind.what, text),
                 "give the value alone; this one carries no uncertainty of its own");
  }
  const std::string_view u_unit = u ? u->rest : std::string_view{};
  const std::string_view value_unit = value->rest.empty() ? u_unit : value->rest;
  static constexpr Unit kBare{"", 1, false};
  const auto unit_of = [&kind](std::string_view name) -> const Unit* {
    return !name.empty() ? find_unit(name, kind) : kind.bare ? &kBare : nullptr;
  };
  const Unit* const of_value = unit_of(value_unit);
  if (of_value == nullptr) {
    return wrong_unit(kind, value_unit, text);
  }
  const Unit* const of_u = unit_of(u_unit.empty() ? value_unit : u_unit);
  if (of_u == nullptr) {
    return wrong_unit(kind, u_unit, text);
  }
  const Raw raw{of_value->in_si(value->value), u ? of_u->in_si(u->value) : 0};
  if (!has_size(raw.value) || !has_size(raw.u) || raw.u < 0) {
    return not_a(kind, text);
  }
  return raw;
}

template <class Q>
Result<Q> plain(std::string_view text, const KindOfQuantity& kind) {
  auto raw = read(text, kind, false);
  if (!raw) {
    return raw.diagnostics();
  }
  return Q::si(raw->value);
}

template <class Q>
Result<Uncertain<Q>> uncertain(std::string_view text, const KindOfQuantity& kind) {
  auto raw = read(text, kind, true);
  if (!raw) {
    return raw.diagnostics();
  }
  return Uncertain<Q>{Q::si(raw->value), Q::si(raw->u)};
}

/// "1 h 30 min", as times are shown: each part in a smaller unit than the part before it, and less
/// than one of that. Empty when the text is no such sum.
std::optional<Duration> sum_of_times(std::string_view text) {
  double sum = 0;
  double larger = 0;  // the unit before
  int parts = 0;
  for (std::string_view rest = trimmed(text); !rest.empty(); ++parts) {
    const auto number = leading_number(rest);
    if (!number) {
      return std::nullopt;
    }
    const std::size_t end = std::min(number->rest.find_first_of(" \t0123456789"),  //
                                     number->rest.size());
    const Unit* const unit = find_unit(number->rest.substr(0, end), kDurationKind);
    const double value = unit == nullptr ? -1 : unit->in_si(number->value);
    if (value < 0 || (parts > 0 && value >= larger)) {
      return std::nullopt;
    }
    sum += value;
    larger = unit->si;
    rest = trimmed(number->rest.substr(end));
  }
  return parts > 1 ? std::optional(Duration::s(sum)) : std::nullopt;
}

}  // namespace

Result<Length> length_from(std::string_view t) { return plain<Length>(t, kLengthKind); }
Result<Area> area_from(std::string_view t) { return plain<Area>(t, kAreaKind); }
Result<Mass> mass_from(std::string_view t) { return plain<Mass>(t, kMassKind); }
Result<Density> density_from(std::string_view t) { return plain<Density>(t, kDensityKind); }
Result<Pressure> pressure_from(std::string_view t) { return plain<Pressure>(t, kPressureKind); }
Result<Torque> torque_from(std::string_view t) { return plain<Torque>(t, kTorqueKind); }
Result<Duration> duration_from(std::string_view t) {
  const auto sum = t.size() > kMaxQuantityText ? std::nullopt : sum_of_times(t);
  return sum ? Result<Duration>(*sum) : plain<Duration>(t, kDurationKind);
}
Result<Share> share_from(std::string_view t) { return plain<Share>(t, kShareKind); }

Result<Uncertain<Mass>> uncertain_mass_from(std::string_view t) {
  return uncertain<Mass>(t, kMassKind);
}
Result<Uncertain<Share>> uncertain_share_from(std::string_view t) {
  return uncertain<Share>(t, kShareKind);
}
Result<Uncertain<LinearDensity>> uncertain_linear_density_from(std::string_view t) {
  return uncertain<LinearDensity>(t, kLinearDensityKind);
}
Result<Uncertain<Pressure>> uncertain_pressure_from(std::string_view t) {
  return uncertain<Pressure>(t, kPressureKind);
}

Result<Uncertain<double>> uncertain_factor_from(std::string_view t) {
  auto raw = read(t, kFactorKind, true);
  if (!raw) {
    return raw.diagnostics();
  }
  return Uncertain<double>{raw->value, raw->u};
}

Result<Temperature> temperature_from(std::string_view text) {
  constexpr std::string_view kHint =
      "units of temperature are degC, °C, degF and °F; write for example \"21 degC\"";
  const auto number = leading_number(trimmed(text));
  const std::string unit = number ? lower_ascii(trimmed(number->rest)) : std::string{};
  const auto known = std::ranges::find(kTemperature, unit, &UnitName::name);
  if (!number || known == kTemperature.end() || text.size() > kMaxQuantityText ||
      !has_size(number->value)) {
    return error("quantity-unit",
                 fmt::format("expected a temperature such as \"21 degC\", found \"{}\"",
                             shortened(text, 60)),
                 std::string(has_decimal_comma(text) ? kPointHint : kHint));
  }
  const bool celsius = known->name.find('f') == std::string_view::npos;
  return Temperature::deg_c(celsius ? number->value : (number->value - 32) / 1.8);
}

bool may_be_bare(std::string_view kind) {
  return kind == without_article(kShareKind) || kind == without_article(kFactorKind);
}

std::vector<UnitName> unit_names() {
  std::vector<UnitName> names(kTemperature.begin(), kTemperature.end());
  for (const KindOfQuantity* const kind : kKinds) {
    for (const Unit& unit : kind->units) {
      names.push_back({without_article(*kind), unit.name, unit.in_hint});
    }
  }
  return names;
}

}  // namespace loopledger
