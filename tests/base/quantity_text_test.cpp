// SPDX-License-Identifier: MIT
#include "base/quantity_text.h"

#include <doctest/doctest.h>

#include <string>
#include <utility>
#include <vector>

using namespace loopledger;
using doctest::Approx;

namespace {

template <class T>
std::string said(const Result<T>& result) {
  REQUIRE_FALSE(result.ok());
  REQUIRE(result.diagnostics().size() == 1);
  return render(result.diagnostics());
}

}  // namespace

TEST_CASE("a bare number is decimal, a fraction or a mixed number and nothing else") {
  const std::vector<std::pair<const char*, double>> good{
      {"1.5", 1.5},     {" 7 ", 7},    {".5", 0.5},       {"3/32", 3.0 / 32}, {"12 1/2", 12.5},
      {"12-1/2", 12.5}, {"12½", 12.5}, {"12 ½", 12.5},    {"⅛", 0.125},       {"-2.5", -2.5},
      {"−2.5", -2.5},   {"+3", 3},     {"-12 1/2", -12.5}};
  for (const auto& row : good) {
    CAPTURE(row.first);
    REQUIRE(number_from(row.first).has_value());
    CHECK(*number_from(row.first) == Approx(row.second));
  }
  for (const char* bad : {"", " ", "abc", "1.5 g", "1,5", "1.5/2", "3/", "/3", "3/0", "12 3/2",
                          "1 2", "inf", "nan", "-", "+", ".", "--1", "1e999", "0x10"}) {
    CAPTURE(bad);
    CHECK_FALSE(number_from(bad).has_value());
  }
}

TEST_CASE("a length is read in every unit that the hint names, and as people write it") {
  const std::vector<std::pair<const char*, double>> good{
      {"300 mm", 300},      {"300mm", 300},    {"30 cm", 300},       {"0.3 m", 300},
      {"12 in", 304.8},     {"1 ft", 304.8},   {"3/32 in", 2.38125}, {"12 1/2 in", 317.5},
      {"12-1/2 in", 317.5}, {"12½ in", 317.5}, {"12 1/2\"", 317.5},  {"12 inches", 304.8},
      {"300 MM", 300},      {"1'", 304.8},     {"300\u00A0mm", 300}, {"  300  mm  ", 300},
      {"0.128 in", 3.2512}};
  for (const auto& row : good) {
    CAPTURE(row.first);
    const auto length = length_from(row.first);
    REQUIRE(length.ok());
    CHECK(length->in_mm() == Approx(row.second).epsilon(1e-12));
  }
}

TEST_CASE("masses, densities, factors, times and shares are read in all their units") {
  CHECK(mass_from("1500 mg")->in_g() == Approx(1.5));
  CHECK(mass_from("0.0015 kg")->in_g() == Approx(1.5));
  CHECK(mass_from("1 oz")->in_g() == Approx(28.349523125));
  CHECK(density_from("930 kg/m3")->in_g_per_cm3() == Approx(0.93));
  CHECK(density_from("0.93 g/cm³")->in_g_per_cm3() == Approx(0.93));
  CHECK(uncertain_linear_density_from("2.43 mg/mm")->value.in_g_per_m() == Approx(2.43));
  CHECK(uncertain_linear_density_from("0.00243 kg/m")->value.in_g_per_m() == Approx(2.43));
  CHECK(pressure_from("600 kPa")->in_mpa() == Approx(0.6));
  CHECK(pressure_from("0.6 N/mm2")->in_mpa() == Approx(0.6));
  CHECK(duration_from("5 min")->in_s() == Approx(300));
  CHECK(duration_from("1 h")->in_s() == Approx(3600));
  CHECK(duration_from("2 d")->in_h() == Approx(48));
  CHECK(duration_from("90 s")->in_min() == Approx(1.5));
  CHECK(share_from("2 %")->as_ratio() == Approx(0.02));
  CHECK(share_from("2%")->as_ratio() == Approx(0.02));
  CHECK(share_from("0.02")->as_ratio() == Approx(0.02));
}

TEST_CASE("a unit may be written as an abbreviation, with a point at its end") {
  CHECK(length_from("12 in.")->in_mm() == Approx(304.8));
  CHECK(length_from("12 1/2 in.")->in_mm() == Approx(317.5));
  CHECK(length_from("1 ft.")->in_mm() == Approx(304.8));
  CHECK(uncertain_mass_from("12 oz. ± 2 oz.")->u.in_g() == Approx(56.69904625));
  CHECK(mass_from("1 oz.")->in_g() == Approx(28.349523125));
  CHECK(torque_from("0.25 in.-oz.")->in_ozf_in() == Approx(0.25));
  CHECK(duration_from("5 min.")->in_s() == Approx(300));
  for (const char* bad : {"12 .", "12 .in", "12 in.5"}) {
    CAPTURE(bad);
    CHECK_FALSE(length_from(bad).ok());
  }
}

TEST_CASE("a time reads back as it is shown") {
  for (const double s : {0.0, 1.0, 59.0, 60.0, 61.0, 5400.0, 3601.0, 86400.0, 93784.0}) {
    const std::string text = shown(Duration::s(s));
    CAPTURE(text);
    REQUIRE(duration_from(text).ok());
    CHECK(duration_from(text)->in_s() == Approx(s));
  }
  CHECK(duration_from("1 d 2 h 30 min")->in_s() == Approx(95400));
  CHECK(duration_from("1h30min")->in_s() == Approx(5400));
  CHECK(duration_from("1 1/2 h 10 s")->in_s() == Approx(5410));
  for (const char* bad : {"1 h 30", "30 min 1 h", "1 h 90 min", "1 h -30 min", "1 h 30 mm",
                          "1 h ± 5 min", "h 30 min", "1 min 30 s 5 s", "1 h, 30 min"}) {
    CAPTURE(bad);
    CHECK_FALSE(duration_from(bad).ok());
  }
}

TEST_CASE("a torque may be written with a point, a star, a middle dot, a hyphen or nothing") {
  for (const char* text : {"41 gf.cm", "41 gf*cm", "41 gf·cm", "41 gf-cm", "41 gfcm", "41 gf cm",
                           "41 g.cm", "41gf.cm", "41 GF.CM", "0.041 kgf.cm", "41 gf · cm"}) {
    CAPTURE(text);
    const auto torque = torque_from(text);
    REQUIRE(torque.ok());
    CHECK(torque->in_gf_cm() == Approx(41).epsilon(1e-12));
  }
  for (const char* text : {"0.25 ozf.in", "0.25 oz-in", "1/4 in-oz", "0.25 ozf*in"}) {
    CAPTURE(text);
    const auto torque = torque_from(text);
    REQUIRE(torque.ok());
    CHECK(torque->in_ozf_in() == Approx(0.25).epsilon(1e-12));
  }
  CHECK(torque_from("1.4 N.cm")->in_mnm() == Approx(14));
  CHECK(torque_from("0.014 N.m")->in_mnm() == Approx(14));
  CHECK(torque_from("14 mN.m")->in_mnm() == Approx(14));
  CHECK_FALSE(torque_from("41..gf.cm").ok());
  CHECK_FALSE(mass_from("5 ·g").ok());
}

TEST_CASE("a temperature is read on both scales") {
  CHECK(temperature_from("21 degC")->in_deg_c() == Approx(21));
  CHECK(temperature_from("-3 °C")->in_deg_c() == Approx(-3));
  CHECK(temperature_from("21C")->in_deg_c() == Approx(21));
  CHECK(temperature_from("70 degF")->in_deg_c() == Approx(21.111111));
  CHECK(temperature_from("70 °F")->in_deg_c() == Approx(21.111111));
  CHECK(said(temperature_from("70")) ==
        "error: expected a temperature such as \"21 degC\", found \"70\" [quantity-unit]\n"
        "  hint: units of temperature are degC, °C, degF and °F; write for example \"21 degC\"\n");
}

TEST_CASE("an uncertainty may stand before or behind the unit, with any of three signs") {
  for (const char* text :
       {"1.05 ± 0.02 g", "1.05 g ± 0.02 g", "1.05 g ± 0.02", "1.05 +/- 0.02 g", "1.05 +- 0.02 g",
        "1.05±0.02g", "1.05 g +/- 20/1000 g", "1050 mg ± 0.02 g"}) {
    CAPTURE(text);
    const auto mass = uncertain_mass_from(text);
    REQUIRE(mass.ok());
    CHECK(mass->value.in_g() == Approx(1.05).epsilon(1e-12));
    CHECK(mass->u.in_g() == Approx(0.02).epsilon(1e-12));
  }
  CHECK(uncertain_mass_from("1.05 g")->u.in_g() == 0);
  CHECK(uncertain_share_from("0.8 % ± 0.3 %")->u.in_percent() == Approx(0.3));
  CHECK(uncertain_mass_from("1 mg ± 0.5 mg")->u.in_mg() == Approx(0.5));
  CHECK(uncertain_pressure_from("0.60 MPa ± 0.15 MPa")->value.in_mpa() == Approx(0.6));
  CHECK(uncertain_factor_from("11.0 ± 0.9")->value == Approx(11));
  CHECK(uncertain_factor_from("11.0 ± 0.9")->u == Approx(0.9));
  CHECK(uncertain_factor_from("11")->u == 0);
  CHECK_FALSE(uncertain_mass_from("1.05 ± g").ok());
  CHECK_FALSE(uncertain_mass_from("1.05 g ± -0.02 g").ok());
  CHECK_FALSE(uncertain_mass_from("1.05 g ± 0.02 mm").ok());
}

TEST_CASE("an uncertainty where none makes sense is refused") {
  CHECK(said(length_from("1.05 ± 0.02 mm")) ==
        "error: expected a length without \"±\", found \"1.05 ± 0.02 mm\" [quantity-uncertain]\n"
        "  hint: give the value alone; this one carries no uncertainty of its own\n");
}

TEST_CASE("an unknown unit is named, with the units that are accepted") {
  CHECK(said(length_from("300 g")) ==
        "error: expected a length such as \"300 mm\", found the unit \"g\" in \"300 g\" "
        "[quantity-unit]\n"
        "  hint: units of length are mm, cm, m, in or ft; write for example \"300 mm\"\n");
  CHECK(said(mass_from("1.5")) ==
        "error: expected a mass such as \"1.5 g\", found \"1.5\" without a unit [quantity-unit]\n"
        "  hint: units of mass are mg, g, kg or oz; write for example \"1.5 g\"\n");
  CHECK(said(torque_from("120 mm")) ==
        "error: expected a torque such as \"41 gf.cm\", found the unit \"mm\" in \"120 mm\" "
        "[quantity-unit]\n"
        "  hint: units of torque are gf.cm, ozf.in, N.cm, N.m or mN.m; write for example \"41 "
        "gf.cm\"\n");
  CHECK(said(duration_from("5 fortnights")).find("units of time are s, min, h or d") !=
        std::string::npos);
  CHECK(said(pressure_from("0.6 bar")).find("MPa, kPa or N/mm2") != std::string::npos);
}

TEST_CASE("a decimal comma is refused with a hint how to write it, never read as something else") {
  for (const char* text : {"1,5 g", "1,500 g", "1.5 ± 0,1 g"}) {
    CAPTURE(text);
    CHECK(said(uncertain_mass_from(text)).find("hint: write the decimal point as a point: 1.5\n") !=
          std::string::npos);
  }
  CHECK(said(length_from("317,5 mm")) ==
        "error: expected a length such as \"300 mm\", found \"317,5 mm\" [quantity-form]\n"
        "  hint: write the decimal point as a point: 1.5\n");
  CHECK(said(temperature_from("21,5 degC")).find("write the decimal point as a point") !=
        std::string::npos);
}

TEST_CASE("what no double can hold in another unit is no quantity") {
  for (const char* text : {"1e308 m", "1e300 m", "1e-300 m", "1e-320 mm", "1e-400 m"}) {
    CAPTURE(text);
    CHECK_FALSE(length_from(text).ok());
  }
  CHECK(length_from("1e280 m").ok());
  CHECK(length_from("1e-280 m").ok());
  CHECK(length_from("0 m").ok());
  CHECK_FALSE(temperature_from("1e300 degF").ok());
  CHECK_FALSE(uncertain_mass_from("1 ± 1e300 g").ok());
}

TEST_CASE("text that is no quantity is an error, however odd or long") {
  for (const std::string& bad :
       {std::string(), std::string("g"), std::string("limit"), std::string("1 2 g"),
        std::string("1.5 g g"), std::string("1e999 g"), std::string("1.5 g\0", 6),
        std::string("NaN g"), std::string("± g"), std::string("1.5 \xff"), std::string(5000, '1'),
        std::string(5000, 'x'), std::string("3/0 g"), std::string("1.5 g ± 0.1 g ± 0.1 g")}) {
    CAPTURE(bad);
    CHECK_FALSE(uncertain_mass_from(bad).ok());
    CHECK_FALSE(mass_from(bad).ok());
    CHECK_FALSE(share_from(bad).ok());
    CHECK_FALSE(temperature_from(bad).ok());
  }
}

TEST_CASE(
    "a share in percent is the same number in text as in code, so that a bound can be typed") {
  for (const double percent : {95.0, 99.99, 0.3, 7.0, 55.0}) {
    CAPTURE(percent);
    CHECK(share_from(shortest(percent) + " %").value() == Share::percent(percent));
  }
}
