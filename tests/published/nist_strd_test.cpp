// SPDX-License-Identifier: MIT
//
// NIST Statistical Reference Datasets, linear regression: NoInt1 and NoInt2 through the origin,
// Norris with an intercept.
// The tables in data/ are copies of the published ones, columns y then x.
#include <doctest/doctest.h>

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "calc/linear_density.h"
#include "calc/straight_line.h"
#include "support/printed.h"

using namespace loopledger;
using test::printed;

namespace {

struct Table {
  std::vector<double> x;
  std::vector<double> y;
};

Table read_table(const std::string& name) {
  std::ifstream in(std::string(LOOPLEDGER_SOURCE_DIR) + "/tests/published/data/" + name);
  REQUIRE(in.is_open());
  Table table;
  for (std::string line; std::getline(in, line);) {
    std::istringstream numbers(line);
    double y = 0;
    double x = 0;
    if (!line.empty() && line[0] != '#' && numbers >> y >> x) {
      table.x.push_back(x);
      table.y.push_back(y);
    }
  }
  return table;
}

}  // namespace

TEST_CASE("NIST StRD NoInt1: slope through the origin and its standard deviation as certified") {
  const Table table = read_table("strd_noint1.txt");
  REQUIRE(table.x.size() == 11);
  const calc::Slope slope = calc::slope_through_origin(table.x, table.y);
  CHECK(slope.value == printed("2.07438016528926"));
  CHECK(slope.u == printed("0.0165289256198347"));
}

TEST_CASE("NIST StRD NoInt2: slope through the origin and its standard deviation as certified") {
  const Table table = read_table("strd_noint2.txt");
  REQUIRE(table.x.size() == 3);
  const calc::Slope slope = calc::slope_through_origin(table.x, table.y);
  CHECK(slope.value == printed("0.727272727272727"));
  CHECK(slope.u == printed("0.0420827318078432"));
}

TEST_CASE("NIST StRD NoInt1 as strip samples: the linear density has the certified slope") {
  const Table table = read_table("strd_noint1.txt");
  plan::Strip strip;
  for (std::size_t i = 0; i < table.x.size(); ++i) {
    strip.samples.push_back({Length::m(table.x[i]), Mass::g(table.y[i]), {}});
  }
  plan::Bench bench;
  bench.scale_step.value = Mass::mg(1);
  bench.scale_error.value = Mass::mg(1);
  const Uncertain<LinearDensity> lambda = calc::linear_density(strip, bench);
  CHECK(lambda.value.in_g_per_m() == printed("2.07438016528926"));
  // The scatter of the points is far larger than what scale and ruler allow, so it decides.
  CHECK(lambda.u.in_g_per_m() == printed("0.0165289256198347"));
}

TEST_CASE("NIST StRD Norris: intercept, slope and residual deviation as certified") {
  const Table table = read_table("strd_norris.txt");
  REQUIRE(table.x.size() == 36);
  const calc::StraightLine line = calc::straight_line(table.x, table.y);
  // Fifteen certified digits; twelve of them are what double arithmetic is sure of here.
  CHECK(line.intercept == doctest::Approx(-0.262323073774029).epsilon(1e-12));
  CHECK(line.u_intercept == doctest::Approx(0.232818234301152).epsilon(1e-12));
  CHECK(line.slope == printed("1.00211681802045"));
  CHECK(line.u_slope == doctest::Approx(0.000429796848199937).epsilon(1e-12));
  CHECK(line.residual_sd == printed("0.884796396144373"));
  CHECK(line.degrees == 34);
}
