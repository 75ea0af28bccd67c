// SPDX-License-Identifier: MIT
#include "commands/sources.h"

#include <fmt/format.h>

#include <cmath>

#include "base/quantity_text.h"
#include "calc/ahead.h"
#include "calc/curve.h"
#include "calc/energy.h"
#include "calc/fit.h"
#include "calc/linear_density.h"
#include "calc/turns_torque.h"
#include "calc/weigh.h"
#include "motor/advice.h"
#include "motor/card_motor.h"
#include "plan/plan.h"
#include "tag/qr.h"
#include "tag/qr_fit.h"

namespace loopledger::commands {
namespace {

constexpr const char* kPractice = "common practice, no source";
constexpr const char* kArchive = "indoorarchive.github.io ";

std::string percent(double share, int decimals = 0) { return fixed(share * 100, decimals) + " %"; }

std::string factor_interval(double value, double u, int decimals) {
  const auto e = calc::log_normal(value, u);
  return fmt::format("95 % {} to {}", fixed(e.low, decimals), fixed(e.high, decimals));
}

std::string lost_at(double let_out) {
  const auto curve = calc::TorqueCurve::by_default(Turns::of(1), Torque::si(1));
  return percent(calc::let_out(curve, Turns::of(let_out)).lost.as_ratio());
}

using Rows = std::vector<SourceRow>;

void add_scale(Rows& rows) {
  rows.push_back({"one reading of the scale", "step and largest error of the plan",
                  "u² = 2 step²/12 + error²/3", "JCGM 100:2008, F.2.2.1 and 4.3.7"});
  rows.push_back({"guard band under a limit",
                  fmt::format("{} u at 95 %", rounded(calc::guard_factor(Share::percent(95)), 4)),
                  "the plan's confidence", "JCGM 106:2012"});
  rows.push_back({"the same, rectangular parts", "quantile of the errors' sum",
                  "the plan's confidence", "computed"});
  rows.push_back({"readings of one motor", "least squares", "1 in 1,000 so far off is dropped",
                  "JCGM 100:2008; the limit: common sense, no source"});
  rows.push_back({"strip to cut", "scatter of one more sample", "Student's t, 95 %",
                  "computed; NIST StRD NoInt1, NoInt2"});
  rows.push_back({"linear density from samples", "least squares through 0",
                  "the fit's, at least the instruments'",
                  "NIST StRD NoInt1, NoInt2; JCGM 100:2008"});
  rows.push_back({"samples that miss 0", "a line with an intercept", "Student's t, 99 %",
                  "JCGM 100:2008, H.3; NIST StRD Norris"});
  rows.push_back({"linear density from the section", "width x thickness x density",
                  "u " + percent(calc::kSectionUncertainty), kPractice});
  rows.push_back({"density of rubber", exact(plan::Strip{}.density.value), "0.95 elsewhere",
                  "Thermopedia, entry 1105; MatWeb"});
}

void add_strength(Rows& rows) {
  rows.push_back({"largest turns, N = k_N L/sqrt(A)",
                  "k_N " + fixed(calc::kTurnsFactor, 1) + " (published 10.64 to 11.70)",
                  factor_interval(calc::kTurnsFactor, calc::kTurnsFactorU, 1),
                  std::string(kArchive) +
                      "1310/15340, 1804/21319, 1804/21311; endlesslift.com/motor-turns-tables"});
  rows.push_back(
      {"largest torque, Q = k_Q A^1.5", "k_Q " + exact(calc::kTorqueFactor),
       factor_interval(calc::kTorqueFactor.in_mpa(), calc::kTorqueFactorU, 2) + " MPa",
       std::string("0.703 MPa, and 15 to 55 % less on thin loops: ") + kArchive + "1310/15340"});
  rows.push_back({"wind to, lot not fitted", percent(calc::kWindToShare) + " of the largest turns",
                  percent(calc::breaking_risk(calc::kWindToShare, calc::kTurnsFactorU), 1) +
                      " of motors break, over all lots",
                  "computed from the log-normal"});
  rows.push_back({"the same, a poor lot", "k_N " + rounded(calc::kPoorTurnsFactor, 3),
                  percent(calc::breaking_risk_of_lot(calc::kWindToShare, calc::kPoorTurnsFactor)) +
                      " of its motors break",
                  "computed; lots of 9 to 13: endlesslift.com/motor-turns-tables"});
  rows.push_back({"wind to, fitted lot", "the share with that risk",
                  percent(calc::kFittedRisk) + " of motors break",
                  "the builder's risk, no source"});
  rows.push_back({"fit: lot and motor", "half each of " + percent(calc::kFitTurnsU),
                  fmt::format("lots 9 to 13; ln spread ± {}", rounded(calc::kSpreadLogSd, 2)),
                  "endlesslift.com/motor-turns-tables; the halves: common sense, no source"});
  rows.push_back({"a winding counts as full", "from " + percent(motor::kFullWind) + " of wind to",
                  "-", "common sense, no source"});
}

void add_launch_and_rest(Rows& rows) {
  rows.push_back({"torque while unwinding", "monotone cubic through 12 points",
                  fmt::format("10, 15, 20 % let out lose {}, {}, {}", lost_at(0.10), lost_at(0.15),
                              lost_at(0.20)),
                  std::string("30, 40, 45 %: ") + kArchive +
                      "0612/1700; torques: 0612/1696, 1211/13058, 1310/15318"});
  rows.push_back({"the same, partial winding", "over the largest turns",
                  "through the reading, or by a first drop", "common sense, no source"});
  rows.push_back({"a torque read again", "another day, meter and hand",
                  "u " + percent(calc::kReadAgainU), "common sense, no source"});
  rows.push_back(
      {"torque to expect at wind to",
       "that curve, through a torque read past " + percent(motor::kTellsOfWindTo) + " of it",
       "95 %", "computed; from where a reading tells: common sense, no source"});
  rows.push_back({"energy of good rubber", "for comparison",
                  fmt::format("{} to {} J/g", fixed(calc::kGoodEnergyLow.in_joule_per_g(), 1),
                              fixed(calc::kGoodEnergyHigh.in_joule_per_g(), 1)),
                  "3,000 to 4,800 ft·lbf/lb in published strip tests"});
  rows.push_back({"colder rubber", percent(calc::kEnergyPerDegree, 1) + " less energy a °C",
                  "0.76 and 0.86 % for two lots", std::string(kArchive) + "0702/2274"});
  rows.push_back({"lubricant", "the plan's", "1.15 % taken up, 0.5 % left the next day",
                  std::string(kArchive) + "1212/13268"});
  rows.push_back({"part motor", "its share of loop and turns, the same torque", "-",
                  std::string(kArchive) + "0906/5733"});
  rows.push_back({"width to slit", "by mass and length of a trial piece", "-",
                  std::string(kArchive) + "1309/15206"});
}

void add_paper(Rows& rows) {
  rows.push_back({"check character", "MOD 37,36", "-", "ISO/IEC 7064"});
  rows.push_back({"code on a label",
                  fmt::format("modules of {} to {}, quiet zone {}", exact(tag::kModuleGood),
                              exact(tag::kModuleMax), tag::kQuietModules),
                  "never under " + exact(tag::kModuleMin), "ISO/IEC 18004; qrcode.com"});
  rows.push_back({"units", "exact", "-", "NIST SP 811, App. B"});
}

/// What a plan need not say.
void add_defaults(Rows& rows) {
  const plan::MotorGroup group;
  const plan::Bench bench;
  const plan::Rings rings;
  const auto add = [&](const char* what, const std::string& value) {
    rows.push_back({what, value, "-", kPractice});
  };
  add("default: knot", exact(group.knot.value));
  add("default: allowance",
      fmt::format("{}, or half the cut's 95 % interval", exact(group.allowance.value)));
  add("default: tails, talc, ends", "0");
  add("default: window", "the larger of 3 mg and two steps");
  add("default: strands, rings of a motor",
      fmt::format("{}, {}", group.strands.value, rings.each.value));
  add("default: ruler_step, winder_ratio",
      fmt::format("{}, {}", exact(bench.ruler_step.value), rounded(bench.winder_ratio.value, 3)));
  add("default: confidence", exact(bench.confidence.value));
  add("default: scale_error", "one step");
}

}  // namespace

SourcesAnswer sources() {
  SourcesAnswer answer;
  add_scale(answer.rows);
  add_strength(answer.rows);
  add_launch_and_rest(answer.rows);
  add_paper(answer.rows);
  add_defaults(answer.rows);
  return answer;
}

}  // namespace loopledger::commands
