// SPDX-License-Identifier: MIT
#include "plan/read_printer_misses.h"

#include <doctest/doctest.h>

namespace {

using namespace loopledger;

TEST_CASE("a printer's misses are read, for all stocks and for one") {
  const auto printer = plan::read_printer_misses(
      "shift = [\"0.6 mm\", \"-0.3 mm\"]\n"
      "[stock.\"a4-3x8-70x37\"]\nbars = [\"99.6 mm\", \"100.2 mm\"]\n",
      "printer.toml");
  REQUIRE_MESSAGE(printer.ok(), render(printer.diagnostics()));
  const plan::PrinterMiss& usual = printer->miss_on("letter");
  CHECK(usual.right.in_mm() == doctest::Approx(0.6));
  CHECK(usual.down.in_mm() == doctest::Approx(-0.3));
  CHECK(usual.bar_across == plan::kCheckBar);
  const plan::PrinterMiss& own = printer->miss_on("a4-3x8-70x37");
  CHECK(own.right == Length{});
  CHECK(own.bar_across.in_mm() == doctest::Approx(99.6));
  CHECK(own.bar_down.in_mm() == doctest::Approx(100.2));
}

TEST_CASE(
    "what no printer misses by, one length alone and a misspelt key are told with their place") {
  const auto text = [](const char* toml) {
    return render(plan::read_printer_misses(toml, "printer.toml").diagnostics());
  };
  CHECK(text("shift = [\"25 mm\", \"0 mm\"]").find("plan-bounds") != std::string::npos);
  CHECK(text("bars = [\"9.96 mm\", \"100 mm\"]").find("at least 90 mm") != std::string::npos);
  CHECK(text("shift = [\"1 mm\"]").find("expected two lengths") != std::string::npos);
  CHECK(text("shft = [\"1 mm\", \"0 mm\"]").find("did you mean `shift`?") != std::string::npos);
  CHECK(text("[stock.a4]\nbar = [\"99 mm\", \"99 mm\"]").find("printer.toml:2:1") !=
        std::string::npos);
}

TEST_CASE("a stock that is no table is a fault, and a very long name of one is told in short") {
  const auto text = [](const std::string& toml) {
    return render(plan::read_printer_misses(toml, "printer.toml").diagnostics());
  };
  CHECK(text("stock.a4 = \"0.6 mm\"") ==
        "printer.toml:1:7: error: stock \"a4\": expected a table, found text [plan-type]\n"
        "    1 | stock.a4 = \"0.6 mm\"\n"
        "      |       ^\n"
        "  hint: [stock.a4-3x8-70x37]\n");
  const std::string name(50'000, 'x');
  CHECK(text("[stock." + name + "]\nbar = 1").size() < 1000);
}

}  // namespace
