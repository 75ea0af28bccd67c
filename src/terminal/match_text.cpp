// SPDX-License-Identifier: MIT
#include "terminal/match_text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "base/text.h"
#include "terminal/list_fields.h"
#include "terminal/text_table.h"

namespace loopledger::terminal {
namespace {

using Side = TextTable::Side;

/// Two digits are all that a difference between two motors carries.
constexpr int kDigits = 2;

/// A difference of two readings carries the noise of their last bits.
double without_noise(double difference) {
  return number_from(fmt::format("{:.9g}", difference)).value_or(difference);
}

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

std::string match_text(const calc::Match& match, const MatchChoice& choice, calc::MatchBy by,
                       Units units) {
  TextTable table({{"motor"},
                   {"owner", Side::left, 6},
                   {"for", Side::left, 6},
                   {"washed g", Side::right},
                   {"loop", Side::right},
                   {"best", Side::right},
                   {"torque", Side::right},
                   {"full winds", Side::right}});
  for (const std::size_t m : match.motors) {
    const commands::ListRow& row = choice.rows[m];
    table.row({id_text(row), row.owner, row.purpose, washed_text(row),
               row.loop_is != LoopIs::planned ? loop_text(row, units) : "-", best_turns_text(row),
               best_torque_text(row, units), fmt::format("{}", row.full_winds)});
  }
  std::string out = how_alike(match, by, choice.rows.size(), units) + table.text() + kLoopLegend;
  if (match.motors.size() < choice.rows.size()) {
    out += match.proven ? fmt::format("proven: no other {} are more alike\n", match.motors.size())
                        : "a good set, not proven the best\n";
  }
  const std::string left_out = left_out_text(choice.left_out);
  return out + (left_out.empty() ? "" : wrapped("left out: " + left_out));
}

json::Json match_json(const std::optional<calc::Match>& match, const MatchChoice& choice,
                      calc::MatchBy by, int wanted, const Diagnostics& problems) {
  const auto words_json = [](calc::MatchBy figures) {
    json::Json words = json::Json::array();
    for (const std::string& word : by_words(figures)) {
      words.push(word);
    }
    return words;
  };
  const auto figure = [&](bool asked, const char* unit, double within, double ledger,
                          double share) {
    return match && asked ? json::Json::object()
                                .set(fmt::format("within_{}", unit), without_noise(within))
                                .set(fmt::format("ledger_{}", unit), ledger)
                                .set("share", share)
                          : json::Json();
  };
  const calc::Match m = match.value_or(calc::Match{});
  json::Json motors = json::Json::array();
  for (const std::size_t one : m.motors) {
    motors.push(row_json(choice.rows[one]).set("full_winds", choice.rows[one].full_winds));
  }
  json::Json left_out = json::Json::array();
  for (const LeftOut& one : choice.left_out) {
    left_out.push(json::Json::object()
                      .set("reason", one.reason)
                      .set("without", words_json(one.without))
                      .set("motors", one.motors));
  }
  return json::Json::object()
      .set("format", 1)
      .set("wanted", wanted)
      .set("choose_from", choice.rows.size())
      .set("by", words_json(by))
      .set("mass",
           figure(by.mass, "mg", m.within.mass.in_mg(), m.ledger.mass.in_mg(), m.shares.mass))
      .set("loop",
           figure(by.loop, "mm", m.within.loop.in_mm(), m.ledger.loop.in_mm(), m.shares.loop))
      .set("torque", figure(by.torque, "mNm", m.within.torque.in_mnm(), m.ledger.torque.in_mnm(),
                            m.shares.torque))
      .set("spread", match ? json::Json(m.spread) : json::Json())
      .set("proven", match ? json::Json(m.proven) : json::Json())
      .set("motors", std::move(motors))
      .set("left_out", std::move(left_out))
      .set("diagnostics", json::to_json(problems));
}

}  // namespace loopledger::terminal
