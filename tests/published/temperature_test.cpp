// SPDX-License-Identifier: MIT
//
// Energy returned by colder rubber, against indoorarchive.github.io 0702/2274: it falls by 0.76 %
// and 0.86 % per degC of cooling for two lots, measured from 15 to 28 degC.
#include <doctest/doctest.h>

#include "calc/curve.h"

using namespace loopledger;

TEST_CASE("ten degrees colder: between what the two lots lost") {
  const Share lost = calc::energy_change(Temperature::deg_c(25), Temperature::deg_c(15));
  CHECK(lost.in_percent() < -7.6);
  CHECK(lost.in_percent() > -8.6);
  CHECK(calc::energy_change(Temperature::deg_c(15), Temperature::deg_c(25)) == -lost);
  CHECK(calc::energy_change(Temperature::deg_c(20), Temperature::deg_c(20)) == Share{});
}
