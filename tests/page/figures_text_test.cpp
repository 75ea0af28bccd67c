// SPDX-License-Identifier: MIT
#include "page/figures_text.h"

#include <doctest/doctest.h>

using namespace loopledger;

TEST_CASE("a cutting plan says what is proven, else how far the first open aim may be") {
  calc::CuttingPlan plan;
  plan.made = true;
  const auto says = [&] { return page::proof_text(plan, Units::metric); };
  CHECK(says() == "Not proven: another plan might cut more motors, or earlier ones.");
  plan.aims_proven = 1;
  plan.gap = Length::mm(0.03);
  plan.pieces_gap = 1;
  CHECK(says() == "Scrap is within 1 mm (0.04 in) of the bound.");  // never "within 0 mm"
  plan.gap = Length::mm(17.2);
  CHECK(says() == "Scrap is within 18 mm (0.71 in) of the bound.");
  plan.aims_proven = 2;
  plan.gap = {};
  CHECK(says() == "Scrap is proven least; 1 piece fewer might be touched.");
  plan.pieces_gap = 2;
  CHECK(says() == "Scrap is proven least; 2 pieces fewer might be touched.");
  plan.aims_proven = 3;
  plan.pieces_gap = 0;
  plan.longest_gap = Length::mm(300);
  CHECK(says() ==
        "Scrap and pieces are proven least; the longest left is within 300 mm (11.81 in) of the "
        "bound.");
  plan.aims_proven = 4;
  plan.longest_gap = {};
  plan.proven = true;
  CHECK(says() == "Proven: least scrap, then fewest pieces touched, then longest piece left.");
}
