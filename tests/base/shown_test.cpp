// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "base/quantity_text.h"

using namespace loopledger;
using doctest::Approx;

namespace {

constexpr double kExact = 1e-12;  // promised by base/quantity_text.h

/// Numbers that are awkward in decimal, from a microgram to a large reel.
constexpr double kAwkward[] = {1.0 / 3, 0.1,    2.0 / 7, 1e-9,      3.0 / 32,  1.497,
                               28.35,   1234.5, 1e7 / 3, 99999999., -1.0 / 3e3};

template <class Q, class Read>
void check_round_trip(double v, const Read& read) {
  const Q value = Q::si(v);
  const std::string text = exact(value);
  CAPTURE(text);
  const auto back = read(text);
  REQUIRE(back.ok());
  CHECK(std::fabs(back->in_si() - v) <= kExact * std::fabs(v));
}

}  // namespace

TEST_CASE("exact text of every quantity reads back to the same value") {
  for (const double v : kAwkward) {
    CAPTURE(v);
    check_round_trip<Length>(v, length_from);
    check_round_trip<Area>(v, area_from);
    check_round_trip<Mass>(v, mass_from);
    check_round_trip<Density>(v, density_from);
    check_round_trip<Pressure>(v, pressure_from);
    check_round_trip<Torque>(v, torque_from);
    check_round_trip<Duration>(v, duration_from);
    check_round_trip<Share>(v, share_from);
    const auto back = temperature_from(exact(Temperature::deg_c(v)));
    REQUIRE(back.ok());
    CHECK(back->in_deg_c() == Approx(v).epsilon(kExact));
  }
}

TEST_CASE("exact text of an uncertain value keeps both numbers") {
  for (const double v : kAwkward) {
    const double u = std::fabs(v) / 7;
    CAPTURE(v);
    const auto mass = uncertain_mass_from(exact(Uncertain<Mass>{Mass::si(v), Mass::si(u)}));
    REQUIRE(mass.ok());
    CHECK(mass->value.in_si() == Approx(v).epsilon(kExact));
    CHECK(mass->u.in_si() == Approx(u).epsilon(kExact));
    const auto share = uncertain_share_from(exact(Uncertain<Share>{Share::si(v), Share::si(u)}));
    REQUIRE(share.ok());
    CHECK(share->u.as_ratio() == Approx(u).epsilon(kExact));
    const auto density = uncertain_linear_density_from(
        exact(Uncertain<LinearDensity>{LinearDensity::si(v), LinearDensity::si(u)}));
    REQUIRE(density.ok());
    CHECK(density->value.in_si() == Approx(v).epsilon(kExact));
    const auto pressure =
        uncertain_pressure_from(exact(Uncertain<Pressure>{Pressure::si(v), Pressure::si(u)}));
    REQUIRE(pressure.ok());
    CHECK(pressure->value.in_si() == Approx(v).epsilon(kExact));
  }
}

TEST_CASE("exact text shows round numbers as a person would write them") {
  CHECK(exact(Length::in(12.5)) == "317.5 mm");
  CHECK(exact(Mass::g(1.5)) == "1.5 g");
  CHECK(exact(Torque::mnm(4.02)) == "4.02 mN.m");
  CHECK(exact(Share::percent(1.2)) == "1.2 %");
  CHECK(exact(Uncertain<Mass>{Mass::mg(1), Mass::mg(0.5)}) == "0.001 ± 0.0005 g");
}

TEST_CASE("fixed decimals never show a minus zero") {
  CHECK(fixed(1.0835, 3) == "1.083");  // 1.0835 is a little under in binary
  CHECK(fixed(2, 0) == "2");
  CHECK(fixed(-0.0004, 3) == "0.000");
  CHECK(fixed(-0.0006, 3) == "-0.001");
  CHECK(fixed(1234567.5, 1) == "1234567.5");
}

TEST_CASE("the shortest text of a number reads back to the same number") {
  for (const double v : kAwkward) {
    CAPTURE(v);
    REQUIRE(number_from(shortest(v)).has_value());
    CHECK(*number_from(shortest(v)) == v);
  }
  CHECK(shortest(3.175) == "3.175");
}

TEST_CASE("rounding keeps about as many digits as asked for") {
  CHECK(rounded(1302.7, 3) == "1303");
  CHECK(rounded(41.52, 3) == "41.5");
  CHECK(rounded(0.61234, 3) == "0.612");
  CHECK(rounded(2.0, 3) == "2");
  CHECK(rounded(9.9996, 3) == "10");
  CHECK(rounded(0, 3) == "0");
  CHECK(rounded(-0.25, 1) == "-0.2");
}

TEST_CASE("lengths, torques and times are shown in the leading system") {
  CHECK(shown(Length::mm(303.4), Units::metric) == "303 mm");
  CHECK(shown(Length::mm(303), Units::inch) == "11.93 in");
  CHECK(shown(Torque::gf_cm(44), Units::metric) == "44 gf·cm");
  CHECK(shown(Torque::gf_cm(44), Units::inch) == "0.611 ozf·in");
  CHECK(shown(Duration::min(5)) == "5 min");
  CHECK(shown(Duration::min(90)) == "1 h 30 min");
  CHECK(shown(Duration::s(0)) == "0 s");
  CHECK(shown(Duration::s(61)) == "1 min 1 s");
}

TEST_CASE("a mass is shown as the scale shows it") {
  CHECK(gram_decimals(Mass::mg(1)) == 3);
  CHECK(gram_decimals(Mass::mg(10)) == 2);
  CHECK(gram_decimals(Mass::mg(5)) == 3);
  CHECK(gram_decimals(Mass::mg(0.1)) == 4);
  CHECK(gram_decimals(Mass::g(1)) == 0);
  CHECK(gram_decimals(Mass::g(0.5)) == 1);
  CHECK(shown(Mass::g(1.4971), Mass::mg(1)) == "1.497 g");
  CHECK(shown(Mass::g(1.4971), Mass::mg(10)) == "1.50 g");
}
