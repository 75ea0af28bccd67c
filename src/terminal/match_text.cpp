// SPDX-License-Identifier: MIT
#include "terminal/match_text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "base/text.h"
#include "terminal/row_cells.h"
#include "terminal/text_table.h"

namespace loopledger::terminal {
namespace {

using Side = TextTable::Side;

/// Two digits are all that a difference between two motors carries.
constexpr int kDigits = 2;

std::string loop_within(Length range, Units units) {
  return units == Units::inch ? rounded(range.in_in(), kDigits) + " in"
                              : rounded(range.in_mm(), kDigits) + " mm";
}

std::string torque_within(Torque range, Units units) {
  return rounded(torque_in(range, units), kDigits) + " " + torque_unit(units);
}

std::string how_alike(const calc::Match& match, calc::MatchBy by, std::size_t of, Units units) {
  std::vector<std::string> within;
  std::vector<std::string> shares;
  const auto say = [&](bool asked, const char* what, const std::string& range, double share) {
    if (asked) {
      within.push_back(fmt::format("{} within {}", what, range));
      shares.push_back(rounded(share, kDigits));
    }
  };
  say(by.mass, "mass", rounded(match.within.mass.in_mg(), kDigits) + " mg", match.shares.mass);
  say(by.loop, "loop", loop_within(match.within.loop, units), match.shares.loop);
  say(by.torque, "torque", torque_within(match.within.torque, units), match.shares.torque);
  const std::size_t n = match.motors.size();
  return wrapped(fmt::format("{}: {} ({} of the spread of all {})",
                             n == of ? fmt::format("all {} motors that can be chosen", n)
                                     : fmt::format("{} motors most alike of {}", n, of),
                             fmt::join(within, ", "), fmt::join(shares, ", "), of));
}

}  // namespace

std::string match_text(const commands::MatchAnswer& answer, Units units) {
  const calc::Match& match = *answer.match;
  const std::vector<commands::MotorRow>& rows = answer.choice->rows;
  TextTable table({{"motor"},
                   {"owner", Side::left, 6},
                   {"for", Side::left, 6},
                   {"washed g", Side::right},
                   {"loop", Side::right},
                   {"best", Side::right},
                   {"torque", Side::right},
                   {"full winds", Side::right}});
  for (const std::size_t m : match.motors) {
    const commands::MotorRow& row = rows[m];
    table.row({id_text(row), row.owner, row.purpose, washed_text(row),
               row.loop_is != LoopIs::planned ? loop_text(row, units) : "-", best_turns_text(row),
               best_torque_text(row, units), fmt::format("{}", row.full_winds)});
  }
  std::string out = how_alike(match, answer.by, rows.size(), units) + table.text() + kLoopLegend;
  if (match.motors.size() < rows.size()) {
    out += match.proven ? fmt::format("proven: no other {} are more alike\n", match.motors.size())
                        : "a good set, not proven the best\n";
  }
  const std::string left_out = commands::left_out_text(answer.choice->left_out);
  return out + (left_out.empty() ? "" : wrapped("left out: " + left_out));
}

}  // namespace loopledger::terminal
