// SPDX-License-Identifier: MIT
#include "json/match_json.h"

#include <fmt/format.h>

#include "base/quantity_text.h"
#include "json/row_json.h"

namespace loopledger::json {
namespace {

/// A difference of two readings carries the noise of their last bits.
double without_noise(double difference) {
  return number_from(fmt::format("{:.9g}", difference)).value_or(difference);
}

Json words_json(calc::MatchBy figures) {
  Json words = Json::array();
  for (const std::string& word : commands::by_words(figures)) {
    words.push(word);
  }
  return words;
}

Json figure_json(const char* unit, double within, double ledger, double share) {
  return Json::object()
      .set(fmt::format("within_{}", unit), without_noise(within))
      .set(fmt::format("ledger_{}", unit), ledger)
      .set("share", share);
}

/// mass, loop and torque, null where they were not asked for.
void add_figures(Json& to, const std::optional<calc::Match>& match, calc::MatchBy by) {
  const auto add = [&](const char* key, bool asked, auto figure) {
    to.set(key, match && asked ? figure(*match) : Json());
  };
  add("mass", by.mass, [](const calc::Match& m) {
    return figure_json("mg", m.within.mass.in_mg(), m.ledger.mass.in_mg(), m.shares.mass);
  });
  add("loop", by.loop, [](const calc::Match& m) {
    return figure_json("mm", m.within.loop.in_mm(), m.ledger.loop.in_mm(), m.shares.loop);
  });
  add("torque", by.torque, [](const calc::Match& m) {
    return figure_json("mNm", m.within.torque.in_mnm(), m.ledger.torque.in_mnm(), m.shares.torque);
  });
}

Json left_out_json(const std::vector<commands::LeftOut>& all) {
  Json left_out = Json::array();
  for (const commands::LeftOut& one : all) {
    left_out.push(Json::object()
                      .set("reason", one.reason)
                      .set("without", words_json(one.without))
                      .set("motors", one.motors));
  }
  return left_out;
}

}  // namespace

Json to_json(const commands::MatchAnswer& answer) {
  if (!answer.choice) {
    return nothing_but(answer.said);
  }
  const std::vector<commands::MotorRow>& rows = answer.choice->rows;
  const std::optional<calc::Match>& match = answer.match;
  Json motors = Json::array();
  for (const std::size_t one : match ? match->motors : std::vector<std::size_t>{}) {
    motors.push(row_json(rows[one]).set("full_winds", rows[one].full_winds));
  }
  Json out = Json::object();
  out.set("format", 1).set("wanted", answer.wanted).set("choose_from", rows.size());
  out.set("by", words_json(answer.by));
  add_figures(out, match, answer.by);
  out.set("spread", match ? Json(match->spread) : Json());
  out.set("proven", match ? Json(match->proven) : Json());
  out.set("motors", std::move(motors));
  out.set("left_out", left_out_json(answer.choice->left_out));
  return out.set("diagnostics", to_json(answer.said));
}

}  // namespace loopledger::json
