// SPDX-License-Identifier: MIT
#include "cli/doubt.h"

#include <fmt/format.h>

#include "calc/weigh.h"
#include "cli/advice.h"
#include "cli/record_text.h"
#include "records/state.h"

namespace loopledger::cli {
namespace {

using records::Entry;
using records::Kind;
using records::Planned;
using records::Record;

constexpr double kMassNear = 1.2;  ///< masses are planned far better than loops
constexpr double kTenTimes = 1.3;  ///< and ten times off within this factor of that

bool within_factor(double value, double expected, double factor) {
  return expected > 0 && value > 0 && value <= expected * factor && value >= expected / factor;
}

std::string far_off(const Planned& p, Stage stage, Mass reading) {
  const auto expected = stage == Stage::as_cut ? p.windows.about : expected_reading(p, stage);
  const double factor = expected ? reading / *expected : 1;
  if (within_factor(factor, 1, kMassNear)) {
    return {};
  }
  const bool ten = within_factor(factor, 10, kTenTimes) || within_factor(factor, 0.1, kTenTimes);
  return fmt::format("{} is {}; {} it should read about {}", shown(reading, p.scale_step),
                     ten ? "ten times off" : "far off", spoken(stage) + with_tails(stage, p),
                     shown(*expected, p.scale_step));
}

}  // namespace

std::optional<Mass> expected_reading(const Planned& p, Stage stage) {
  const records::Window w = calc::scale_window(p, stage);
  return w.low && w.high ? std::optional((*w.low + *w.high) / 2) : std::nullopt;
}

std::string hardly_true(const Record& record, const Entry& e) {
  if (const auto stage = records::stage_weighed(e); stage && e.reading) {
    return far_off(record.planned, *stage, *e.reading);
  }
  if (e.turns) {
    const Turns nearly_all = motor::now_of(record).largest.high;
    if (*e.turns > nearly_all) {
      return fmt::format("{} turns is past the {} at which nearly all would have broken",
                         shown_at_most(*e.turns), shown_at_most(nearly_all));
    }
  }
  return {};
}

std::string doubt_about(const Record& record, const Entry& e, Units units) {
  if (std::string doubt = hardly_true(record, e); !doubt.empty()) {
    return doubt;
  }
  const Planned& p = record.planned;
  const records::Known known = records::known_of(record.entries);
  if (records::stage_weighed(e) == Stage::tied && known.washed) {
    const calc::TyingCheck check = calc::check_tying(p, *known.washed, *e.reading);
    return check.agrees ? std::string() : tying_text(check, p.scale_step);
  }
  const auto loop = e.loop ? e.loop : e.loop_after;
  if (loop && !within_factor(*loop / p.loop, 1, kNear)) {
    return fmt::format("a loop of {} is far from the planned {}", shown(*loop, units),
                       shown(p.loop, units));
  }
  return {};
}

}  // namespace loopledger::cli
