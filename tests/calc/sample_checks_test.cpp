// SPDX-License-Identifier: MIT
#include "calc/sample_checks.h"

#include <doctest/doctest.h>

#include <initializer_list>
#include <random>
#include <utility>

#include "support/small_plan.h"

using namespace loopledger;
using test::given;

namespace {

plan::Strip strip_of(std::initializer_list<std::pair<double, double>> mm_and_g) {
  plan::Strip strip;
  strip.name = "tan";
  for (const auto& [mm, g] : mm_and_g) {
    strip.samples.push_back({Length::mm(mm), Mass::g(g), {}});
  }
  return strip;
}

plan::Bench bench_of_1_mg() {
  plan::Bench bench;
  bench.scale_step = given(Mass::mg(1));
  bench.scale_error = given(Mass::mg(2));
  return bench;
}

Diagnostics said_of(const plan::Strip& strip) {
  return calc::check_samples(strip, bench_of_1_mg());
}

}  // namespace

TEST_CASE("three samples on a line through nothing are taken in silence") {
  CHECK(said_of(strip_of({{500, 1.214}, {800, 1.940}, {1000, 2.428}})).empty());
  CHECK(said_of(strip_of({{600, 1.071}, {600, 1.064}, {600, 1.068}})).empty());
}

TEST_CASE("fewer than three samples are noted") {
  CHECK(said_of(strip_of({{500, 1.214}})).at(0).code == "few-samples");
  CHECK(said_of(strip_of({})).at(0).message.find("sure to 5 %") != std::string::npos);
}

TEST_CASE("a sample that is unlike the others is named with what it gives") {
  const Diagnostics said = said_of(strip_of({{500, 1.214}, {800, 19.40}, {1000, 2.428}}));
  REQUIRE(said.size() == 1);
  CHECK(said[0].code == "sample-odd");
  CHECK(said[0].message ==
        "strip \"tan\": this sample of 800 mm and 19.4 g has 24.250 g/m, the middle one of all has "
        "2.428 g/m");
}

TEST_CASE(
    "samples that are all too heavy by the same are noticed, if scale and ruler can't do it") {
  // 2.428 g/m, and 25 mg on the scale before anything was put there.
  const Diagnostics heavy =
      said_of(strip_of({{300, 0.7534}, {500, 1.2390}, {800, 1.9674}, {1000, 2.4530}}));
  REQUIRE(heavy.size() == 1);
  CHECK(heavy[0].code == "samples-offset");
  CHECK(heavy[0].message ==
        "strip \"tan\": its samples lie on a line that has 25 mg at no length: all of them are too "
        "heavy by about that, or 10 mm too short");
  // 3 mg is within what a scale with an error of 2 mg and a ruler of 1 mm may do.
  CHECK(said_of(strip_of({{300, 0.7314}, {500, 1.2170}, {800, 1.9454}, {1000, 2.4310}})).empty());
  // Uneven strip: the line is as far off, and chance explains it.
  CHECK(said_of(strip_of({{300, 0.78}, {500, 1.20}, {800, 1.99}, {1000, 2.42}})).empty());
}

TEST_CASE("even strip weighed with the scale's own noise raises no alarm") {
  std::mt19937 engine(11);
  std::normal_distribution<double> noise(0, 0.0008);
  int alarms = 0;
  for (int run = 0; run < 2000; ++run) {
    plan::Strip strip;
    for (const double mm : {300.0, 500.0, 800.0, 1000.0}) {
      strip.samples.push_back(
          {Length::mm(mm), Mass::g(2.428e-3 * mm * (1 + noise(engine) * 2) + noise(engine)), {}});
    }
    alarms += said_of(strip).empty() ? 0 : 1;
  }
  CHECK(alarms <= 20);  // one in a hundred by chance, and those have to pass the tools' share too
}

namespace {

/// 2.5 mm wide, of 1.31 g in half a metre: 1.13 mm thick. `slip` is what all its masses are taken
/// times.
plan::Strip wide_strip(double slip) {
  plan::Strip strip = strip_of({{500, 1.31 * slip}, {800, 2.096 * slip}, {1000, 2.62 * slip}});
  strip.width = given(Length::mm(2.5));
  return strip;
}

}  // namespace

TEST_CASE("a tenfold slip in all samples shows as a thickness that no strip has") {
  CHECK(said_of(wide_strip(1)).empty());
  const Diagnostics thin = said_of(wide_strip(0.1));
  REQUIRE(thin.size() == 1);
  CHECK(thin[0].code == "samples-thickness");
  CHECK(thin[0].severity == Severity::warning);
  CHECK(
      thin[0].message ==
      "strip \"tan\": samples, width and density make it 0.113 mm thick; rubber strip is 0.3 to 3 "
      "mm thick");
  CHECK(thin[0].hint.find("ten times off?") != std::string::npos);
  const Diagnostics thick = said_of(wide_strip(10));
  REQUIRE(thick.size() == 1);
  CHECK(thick[0].message.find("11.3 mm thick") != std::string::npos);
  CHECK(thick[0].hint.find("ten times off?") != std::string::npos);
  // A thousand times: milligrams for grams.
  const Diagnostics units = said_of(wide_strip(1000));
  REQUIRE(units.size() == 1);
  CHECK(units[0].hint.find("units") != std::string::npos);
}

TEST_CASE("a thickness typed ten times off is told without samples too") {
  plan::Strip strip = test::section_strip(Length::mm(2.5), Length::mm(10.5));
  const Diagnostics said = said_of(strip);
  REQUIRE(said.size() == 2);
  CHECK(said[0].code == "few-samples");
  CHECK(said[1].code == "samples-thickness");
  CHECK(said[1].hint.find("the thickness") != std::string::npos);
  strip.thickness = given(Length::mm(1.05));
  CHECK(said_of(strip).size() == 1);
}

TEST_CASE("without a width the linear density itself is held against what strip has") {
  CHECK(said_of(strip_of({{500, 30}, {800, 48}, {1000, 60}})).empty());
  const Diagnostics heavy = said_of(strip_of({{500, 300}, {800, 480}, {1000, 600}}));
  REQUIRE(heavy.size() == 1);
  CHECK(heavy[0].code == "samples-density");
  CHECK(heavy[0].message ==
        "strip \"tan\": its samples give 600 g/m; rubber strip has 0.1 to 100 g/m");
  CHECK(heavy[0].hint.find("ten times off?") != std::string::npos);
}

TEST_CASE("samples that scatter too much to be of use are told with what they leave open") {
  const Diagnostics said = said_of(strip_of({{500, 1.15}, {500, 1.37}}));
  REQUIRE(said.size() == 2);  // fewer than three, too
  CHECK(said[1].code == "samples-scatter");
  CHECK(said[1].message.find("open by ± 17 % (95 %)") != std::string::npos);
  CHECK(said_of(strip_of({{500, 1.25}, {500, 1.28}})).size() == 1);
  // So short that the scale itself leaves it open.
  CHECK(said_of(strip_of({{5, 0.013}})).at(1).code == "samples-scatter");
}
