// SPDX-License-Identifier: MIT
#include "motor/crank_words.h"

#include <fmt/format.h>

#include "base/quantity_text.h"
#include "calc/cranks.h"

namespace loopledger::motor {
namespace {

std::string equal_to(double cranks) { return fmt::format(" = {:.0f} cranks", cranks); }

}  // namespace

std::string as_cranks_at_most(Turns turns, double ratio) {
  return calc::has_cranks(ratio) ? equal_to(calc::cranks_at_most(turns, ratio)) : "";
}

std::string as_cranks_to_wind_to(Turns wind_to, Turns do_not_pass, double ratio) {
  return calc::has_cranks(ratio) ? equal_to(calc::cranks_to_wind_to(wind_to, do_not_pass, ratio))
                                 : "";
}

std::string as_nearest_cranks(Turns out, double ratio) {
  return calc::has_cranks(ratio) ? equal_to(calc::nearest_cranks(out, ratio)) : "";
}

std::string cranks_head(double ratio) {
  return calc::has_cranks(ratio) ? fmt::format("cranks {}:1", rounded(ratio, 4)) : "cranks";
}

}  // namespace loopledger::motor
