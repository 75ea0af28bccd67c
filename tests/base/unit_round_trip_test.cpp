// SPDX-License-Identifier: MIT
//
// Value -> text -> value in every unit that is understood, and what is printed read back. The
// factors are written down here a second time, from the exact definitions (inch, ounce, pound,
// standard gravity; from memory, and held against print in tests/published); a unit that is not
// among them fails the first test.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "base/quantity_text.h"
#include "base/text.h"

using namespace loopledger;

namespace {

constexpr double kPart = 1e-12;  ///< as base/quantity_text.h promises

constexpr double kIn = 25.4e-3;
constexpr double kOz = 28.349523125e-3;
constexpr double kLb = 453.59237e-3;
constexpr double kG = 9.80665;
constexpr double kGramForceCm = kG * 1e-5;

struct UnitFactor {
  std::string name;
  double si;
};

struct KindOfUnit {
  std::string kind;
  double (*read)(const std::string&);  ///< in SI; NaN when it is refused
  std::vector<UnitFactor> units;
};

template <class Q, Result<Q> (*kReader)(std::string_view)>
double si_of(const std::string& text) {
  const auto q = kReader(text);
  return q ? q->in_si() : std::numeric_limits<double>::quiet_NaN();
}

/// Of a kind that is only read with its uncertainty.
Result<LinearDensity> linear_density_from(std::string_view text) {
  const auto q = uncertain_linear_density_from(text);
  return q ? Result<LinearDensity>(q->value) : q.diagnostics();
}

double kelvin_of(const std::string& text) {
  const auto t = temperature_from(text);
  return t ? t->in_deg_c() : std::numeric_limits<double>::quiet_NaN();
}

const std::vector<KindOfUnit>& kinds() {
  static const std::vector<KindOfUnit> kKinds{
      {"length",
       si_of<Length, length_from>,
       {{"mm", 1e-3},
        {"cm", 1e-2},
        {"m", 1},
        {"metre", 1},
        {"metres", 1},
        {"meter", 1},
        {"in", kIn},
        {"inch", kIn},
        {"inches", kIn},
        {"\"", kIn},
        {"″", kIn},
        {"ft", 12 * kIn},
        {"feet", 12 * kIn},
        {"foot", 12 * kIn},
        {"'", 12 * kIn}}},
      {"area",
       si_of<Area, area_from>,
       {{"mm2", 1e-6},
        {"cm2", 1e-4},
        {"in2", kIn * kIn},
        {"mm²", 1e-6},
        {"cm²", 1e-4},
        {"in²", kIn * kIn}}},
      {"mass",
       si_of<Mass, mass_from>,
       {{"mg", 1e-6}, {"g", 1e-3}, {"gram", 1e-3}, {"grams", 1e-3}, {"kg", 1}, {"oz", kOz}}},
      {"density",
       si_of<Density, density_from>,
       {{"g/cm3", 1e3}, {"g/cm³", 1e3}, {"g/cm^3", 1e3}, {"kg/m3", 1}, {"kg/m³", 1}}},
      {"linear density",
       si_of<LinearDensity, linear_density_from>,
       {{"g/m", 1e-3}, {"mg/mm", 1e-3}, {"kg/m", 1}, {"g/in", 1e-3 / kIn}}},
      {"torque factor",
       si_of<Pressure, pressure_from>,
       {{"mpa", 1e6}, {"kpa", 1e3}, {"pa", 1}, {"n/mm2", 1e6}, {"n/mm²", 1e6}}},
      {"torque",
       si_of<Torque, torque_from>,
       {{"gf.cm", kGramForceCm},
        {"g.cm", kGramForceCm},
        {"gfcm", kGramForceCm},
        {"gcm", kGramForceCm},
        {"gf.mm", kGramForceCm / 10},
        {"kgf.cm", kGramForceCm * 1000},
        {"ozf.in", kOz * kG * kIn},
        {"oz.in", kOz * kG * kIn},
        {"in.oz", kOz * kG * kIn},
        {"in.ozf", kOz * kG * kIn},
        {"ozin", kOz * kG * kIn},
        {"ozfin", kOz * kG * kIn},
        {"lbf.in", kLb * kG * kIn},
        {"in.lbf", kLb * kG * kIn},
        {"n.m", 1},
        {"nm", 1},
        {"n.cm", 1e-2},
        {"ncm", 1e-2},
        {"n.mm", 1e-3},
        {"mn.m", 1e-3},
        {"mnm", 1e-3}}},
      {"time",
       si_of<Duration, duration_from>,
       {{"s", 1},
        {"sec", 1},
        {"second", 1},
        {"seconds", 1},
        {"m", 60},
        {"min", 60},
        {"minute", 60},
        {"minutes", 60},
        {"h", 3600},
        {"hr", 3600},
        {"hour", 3600},
        {"hours", 3600},
        {"d", 86400},
        {"day", 86400},
        {"days", 86400}}},
      {"share", si_of<Share, share_from>, {{"%", 0.01}, {"percent", 0.01}}},
      {"temperature",
       kelvin_of,
       {{"degc", 1}, {"°c", 1}, {"c", 1}, {"℃", 1}, {"degf", 1}, {"°f", 1}, {"f", 1}}}};
  return kKinds;
}

/// From 1e-6 to 1e6, as many in each power of ten, and some that are awkward in decimal.
std::vector<double> values_to_try() {
  std::mt19937 random(20260209);
  std::vector<double> values{1e-6, 1e6, 1, 1.0 / 3, 2.0 / 7, 0.1};
  for (int i = 0; i < 200; ++i) {
    values.push_back(std::pow(10, -6 + 12 * static_cast<double>(random()) / 4294967295.0));
  }
  return values;
}

/// "gf.cm" in every way to write the product.
std::vector<std::string> spellings(const std::string& name) {
  std::vector<std::string> all{name, upper_ascii(name)};
  const std::size_t dot = name.find('.');
  if (dot != std::string::npos) {
    for (const char* product : {"*", "-", " ", "·", "⋅", " . ", " · "}) {
      all.push_back(name.substr(0, dot) + product + name.substr(dot + 1));
    }
  }
  return all;
}

bool is_close(double a, double b) { return std::fabs(a - b) <= kPart * std::fabs(b); }

/// The number in the unit of a value in SI; of a temperature, on the unit's scale.
double in_unit(const KindOfUnit& kind, const UnitFactor& unit, double si) {
  const bool fahrenheit = kind.kind == "temperature" && unit.name.find('f') != std::string::npos;
  return fahrenheit ? si * 9 / 5 + 32 : si / unit.si;
}

using Named = std::set<std::pair<std::string, std::string>>;

Named named_by_program() {
  Named names;
  for (const UnitName& unit : unit_names()) {
    CHECK_MESSAGE(names.emplace(std::string(unit.kind), std::string(unit.name)).second, unit.name);
  }
  return names;
}

}  // namespace

TEST_CASE("every unit that is understood is in this file with its factor, and none is twice") {
  Named here;
  for (const KindOfUnit& kind : kinds()) {
    for (const UnitFactor& unit : kind.units) {
      CHECK_MESSAGE(here.emplace(kind.kind, unit.name).second, unit.name);
    }
  }
  CHECK(here == named_by_program());
}

TEST_CASE("value, text, value: the same in every unit and every way to write it") {
  const std::vector<double> values = values_to_try();
  for (const KindOfUnit& kind : kinds()) {
    for (const UnitFactor& unit : kind.units) {
      for (const std::string& name : spellings(unit.name)) {
        CAPTURE(name);
        for (const double si : values) {
          const double number = in_unit(kind, unit, si);
          const double back = kind.read(shortest(number) + " " + name);
          // Around 0 degrees the other scale's 32 takes digits away; nothing else does.
          const double slack = kind.kind == "temperature" ? kPart * 32 : 0;
          CHECK_MESSAGE(std::fabs(back - si) <= kPart * si + slack, si);
          CHECK_MESSAGE(
              kind.read("-" + shortest(number) + name) == kind.read(shortest(-number) + " " + name),
              si);
        }
      }
    }
  }
}

TEST_CASE("the hint of a kind names units that its reader takes") {
  for (const UnitName& unit : unit_names()) {
    const auto kind = std::ranges::find(kinds(), std::string(unit.kind), &KindOfUnit::kind);
    REQUIRE(kind != kinds().end());
    CHECK_MESSAGE(std::isfinite(kind->read("7 " + std::string(unit.name))), unit.name);
    CHECK_MESSAGE(std::isnan(kind->read("7 " + std::string(unit.name) + "x")), unit.name);
  }
  for (const KindOfUnit& kind : kinds()) {
    CHECK_MESSAGE(std::ranges::any_of(
                      unit_names(),
                      [&](const UnitName& unit) { return unit.kind == kind.kind && unit.in_hint; }),
                  kind.kind);
    CHECK(std::isnan(kind.read("7 parsec")));
  }
}

TEST_CASE("exact text reads back to the same quantity, of every kind") {
  for (const double si : values_to_try()) {
    CAPTURE(si);
    for (const double v : {si, -si}) {
      CHECK(is_close(length_from(exact(Length::si(v)))->in_si(), v));
      CHECK(is_close(area_from(exact(Area::si(v)))->in_si(), v));
      CHECK(is_close(mass_from(exact(Mass::si(v)))->in_si(), v));
      CHECK(is_close(density_from(exact(Density::si(v)))->in_si(), v));
      CHECK(is_close(linear_density_from(exact(LinearDensity::si(v)))->in_si(), v));
      CHECK(is_close(pressure_from(exact(Pressure::si(v)))->in_si(), v));
      CHECK(is_close(torque_from(exact(Torque::si(v)))->in_si(), v));
      CHECK(is_close(duration_from(exact(Duration::si(v)))->in_si(), v));
      CHECK(is_close(share_from(exact(Share::si(v)))->in_si(), v));
      CHECK(is_close(temperature_from(exact(Temperature::deg_c(v)))->in_deg_c(), v));
    }
  }
}

TEST_CASE("exact text with an uncertainty reads back to both, of every kind that has one") {
  for (const double v : values_to_try()) {
    CAPTURE(v);
    const double u = v / 7;
    const auto same = [&](const auto& read) {
      REQUIRE(read.ok());
      CHECK(is_close(read->value.in_si(), v));
      CHECK(is_close(read->u.in_si(), u));
    };
    same(uncertain_mass_from(exact(Uncertain<Mass>{Mass::si(v), Mass::si(u)})));
    same(uncertain_share_from(exact(Uncertain<Share>{Share::si(v), Share::si(u)})));
    same(uncertain_linear_density_from(
        exact(Uncertain<LinearDensity>{LinearDensity::si(v), LinearDensity::si(u)})));
    same(uncertain_pressure_from(exact(Uncertain<Pressure>{Pressure::si(v), Pressure::si(u)})));
  }
}

TEST_CASE("what people are shown reads back to what it says") {
  for (const double v : values_to_try()) {
    CAPTURE(v);
    const auto length = Length::mm(v);
    const auto mm = length_from(shown(length, Units::metric));
    REQUIRE(mm.ok());
    CHECK(std::fabs(mm->in_mm() - v) <= 0.5 * (1 + kPart) + kPart * v);
    CHECK(shown(*mm, Units::metric) == shown(length, Units::metric));
    const auto inches = length_from(shown(length, Units::inch));
    REQUIRE(inches.ok());
    CHECK(std::fabs(inches->in_in() - v / 25.4) <= 0.005 * (1 + kPart) + kPart * v);
    CHECK(shown(*inches, Units::inch) == shown(length, Units::inch));

    const auto torque = Torque::gf_cm(v);
    for (const Units units : {Units::metric, Units::inch}) {
      const auto back = torque_from(shown(torque, units));
      REQUIRE(back.ok());
      CHECK(std::fabs(*back / torque - 1) <= 0.005 * (1 + kPart));  // three digits
      CHECK(shown(*back, units) == shown(torque, units));
    }
    for (const double step_mg : {0.1, 1.0, 5.0, 10.0, 1000.0}) {
      const auto mass = mass_from(shown(Mass::g(v), Mass::mg(step_mg)));
      REQUIRE(mass.ok());
      const double half = 0.5 * std::pow(10, -gram_decimals(Mass::mg(step_mg)));
      CHECK(std::fabs(mass->in_g() - v) <= half * (1 + kPart) + kPart * v);
      CHECK(shown(*mass, Mass::mg(step_mg)) == shown(Mass::g(v), Mass::mg(step_mg)));
    }
    for (const Units units : {Units::metric, Units::inch}) {
      const auto warm = Temperature::deg_c(std::fmod(v, 100) - 50);
      const auto back = temperature_from(shown(warm, units));
      REQUIRE(back.ok());
      CHECK(std::fabs(back->in_deg_c() - warm.in_deg_c()) <= 0.5 + 1e-9);
      CHECK(shown(*back, units) == shown(warm, units));
    }
  }
}

TEST_CASE("a time is shown in hours, minutes and seconds that add up to it") {
  for (const double v : values_to_try()) {
    const std::string text = shown(Duration::s(v));
    CAPTURE(text);
    double sum = 0;
    std::size_t at = 0;
    while (at < text.size()) {  // "1 h 30 min": a number and a unit at a time
      const std::size_t unit = text.find(' ', at);
      REQUIRE(unit != std::string::npos);
      const std::size_t end = std::min(text.find(' ', unit + 1), text.size());
      const auto part = duration_from(text.substr(at, end - at));
      REQUIRE(part.ok());
      sum += part->in_s();
      at = end + 1;
    }
    CHECK(sum == std::round(v));
  }
}
