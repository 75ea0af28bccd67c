// SPDX-License-Identifier: MIT
//
// NIST Special Publication 811, Appendix B: factors between units, as quoted in pages on it. The
// exact definitions (inch, ounce, pound, standard gravity) are from memory.
#include <doctest/doctest.h>

#include "base/quantity.h"
#include "base/quantity_text.h"
#include "support/printed.h"

using namespace loopledger;
using test::printed;

TEST_CASE("NIST SP 811: torque units in newton metres as printed") {
  CHECK(torque_from("1 ozf.in")->in_si() == printed("0.007061552"));
  CHECK(Torque::ozf_in(1).in_si() == printed("0.007061552"));
  CHECK(torque_from("1 lbf.in")->in_si() == printed("0.1129848"));
  CHECK(torque_from("1 gf.cm")->in_si() == printed("9.80665e-5"));
  CHECK(Torque::gf_cm(1).in_si() == printed("9.80665e-5"));
}

TEST_CASE("exact definitions, from memory: lengths and masses") {
  CHECK(length_from("1 in")->in_mm() == printed("25.4"));
  CHECK(Length::in(1).in_mm() == printed("25.400000000000"));
  CHECK(length_from("1 ft")->in_mm() == printed("304.80000000000"));
  CHECK(mass_from("1 oz")->in_g() == printed("28.349523125"));
  CHECK(Mass::oz(16).in_g() == printed("453.59237"));
}

TEST_CASE("computed from the exact definitions: ounce-inches in gram-centimetres") {
  CHECK(Torque::ozf_in(1).in_gf_cm() == printed("72.0077887375"));
}

TEST_CASE("NIST SP 811: a foot pound-force is 1.355818 J") {
  CHECK(torque_from("12 lbf.in")->in_si() == printed("1.355818"));
}
