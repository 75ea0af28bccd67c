// SPDX-License-Identifier: MIT
#include "sheets/figures_text.h"

#include <doctest/doctest.h>

using namespace loopledger;

TEST_CASE("a cutting plan says what is proven, else how far the first open aim may be") {
  calc::CuttingPlan plan;
  plan.made = true;
  const auto says = [&] { return sheets::proof_text(plan, Units::metric); };
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

TEST_CASE("a length to cut is never rounded down") {
  CHECK(sheets::number(sheets::cut_length(Length::mm(501.303), Units::metric), Units::metric) ==
        "502");
  CHECK(sheets::number(sheets::cut_length(Length::mm(501), Units::metric), Units::metric) == "501");
  CHECK(sheets::number(sheets::cut_length(Length::mm(501.303), Units::inch), Units::inch) ==
        "19.74");
}

TEST_CASE("no mark of a piece is nearer to the one before than its motor needs") {
  calc::Batch batch;
  batch.motors.resize(3);
  for (calc::MotorFigures& motor : batch.motors) {
    motor.planned.cut = Length::mm(500.31);
  }
  calc::PieceCuts cuts;
  cuts.length = Length::mm(1600);
  cuts.motors = {0, 1, 2};
  const auto says = [&](Units units) {
    std::string out;
    for (const Length mark : sheets::cut_marks(cuts, batch, units)) {
      out += sheets::mark_number(mark, units) + " ";
    }
    return out;
  };
  CHECK(says(Units::metric) == "500.4 1000.8 1501.2 ");
  CHECK(says(Units::inch) == "19.70 39.40 59.10 ");
  batch.motors[0].planned.cut = Length::mm(500);
  CHECK(says(Units::metric) == "500 1000.4 1500.8 ");
  cuts.length = Length::mm(1500.65);  // no room for that: as near as can be printed
  CHECK(says(Units::metric) == "500 1000.3 1500.6 ");
}

TEST_CASE("a factor from the shelf that does not say how sure it is, is no default") {
  records::Planned p;
  p.turns_factor = 9.5;
  p.turns_factor_u = 0.08;
  p.torque_factor = Pressure::mpa(0.6);
  p.torque_factor_u = 0.25;
  CHECK(sheets::factors(p) == "k_N 9.5 ± 0.76 (from the shelf), k_Q 0.6 MPa ± 25 % (default)");
  p.turns_factor = 11;
  CHECK(sheets::factors(p) == "k_N 11 ± 0.88 (default), k_Q 0.6 MPa ± 25 % (default)");
}
