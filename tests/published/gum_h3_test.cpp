// SPDX-License-Identifier: MIT
//
// JCGM 100:2008, Annex H.3: a straight line through eleven readings of a thermometer, about 20
// degC, with the results as quoted in pages on it. The table in data/ is a copy of the published
// one, columns number, temperature, correction.
#include <doctest/doctest.h>

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "calc/straight_line.h"
#include "support/printed.h"

using namespace loopledger;
using test::printed;

namespace {

calc::StraightLine thermometer_line() {
  std::ifstream in(std::string(LOOPLEDGER_SOURCE_DIR) + "/tests/published/data/gum_h3.txt");
  REQUIRE(in.is_open());
  std::vector<double> x;
  std::vector<double> y;
  for (std::string line; std::getline(in, line);) {
    std::istringstream numbers(line);
    int k = 0;
    double temperature = 0;
    double correction = 0;
    if (!line.empty() && line[0] != '#' && numbers >> k >> temperature >> correction) {
      x.push_back(temperature - 20);
      y.push_back(correction);
    }
  }
  REQUIRE(x.size() == 11);
  return calc::straight_line(x, y);
}

}  // namespace

TEST_CASE("JCGM 100 H.3: intercept and slope with their uncertainties and correlation") {
  const calc::StraightLine line = thermometer_line();
  CHECK(line.intercept == printed("-0.1712"));
  CHECK(line.u_intercept == printed("0.0029"));
  CHECK(line.slope == printed("0.00218"));
  CHECK(line.u_slope == printed("0.00067"));
  CHECK(line.correlation == printed("-0.930"));
  CHECK(line.residual_sd == printed("0.0035"));
  CHECK(line.degrees == 9);
}

TEST_CASE("JCGM 100 H.3: the correction at 30 degC, far outside the points, with its uncertainty") {
  const calc::StraightLine line = thermometer_line();
  CHECK(line.at(10) == printed("-0.1494"));
  CHECK(line.u_at(10) == printed("0.0041"));
}
