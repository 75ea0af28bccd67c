// SPDX-License-Identifier: MIT
#include "calc/cranks.h"

#include <doctest/doctest.h>

using namespace loopledger;

TEST_CASE("cranks to wind to are never told as the cranks never to pass") {
  const Turns wind_to = Turns::of(1085);
  const Turns never = Turns::of(1089);
  CHECK(calc::cranks_never_to_pass(never, 10) == 108);
  CHECK(calc::cranks_to_wind_to(wind_to, never, 10) == 107);
  // Apart already: no more is taken off than the rounding down.
  CHECK(calc::cranks_to_wind_to(Turns::of(1019), never, 10) == 101);
  CHECK(calc::cranks_to_wind_to(wind_to, never, 16.5) == 65);
  CHECK(calc::cranks_never_to_pass(never, 16.5) == 66);
  // One turn of a large crank is more than the motor stands.
  CHECK(calc::cranks_never_to_pass(Turns::of(19), 20) == 0);
  CHECK(calc::cranks_to_wind_to(Turns::of(18), Turns::of(19), 20) == 0);
}
