// SPDX-License-Identifier: MIT
#include "commands/match.h"

#include <fmt/format.h>

#include "base/text.h"
#include "commands/find_record.h"
#include "commands/motor_rows.h"
#include "commands/outcome.h"
#include "records/ledger.h"

namespace loopledger::commands {
namespace {

std::optional<calc::Match> matched(const MatchChoice& choice, calc::MatchBy by, int wanted) {
  std::vector<calc::MatchFigures> motors;
  for (const MotorRow& row : choice.rows) {
    motors.push_back({row.washed.value_or(Mass{}),
                      row.loop_is == LoopIs::planned ? Length{} : row.loop,
                      row.best ? row.best->torque.value_or(Torque{}) : Torque{}});
  }
  return calc::most_alike(motors, by, static_cast<std::size_t>(wanted));
}

/// What of the request no set can be found for.
Diagnostics unanswerable(const MatchRequest& request, calc::MatchBy by) {
  if (request.wanted < kLeastMatched || request.wanted > kMostMatched) {
    return {usage_error("value",
                        fmt::format("N: expected a whole number from {} to {}, found {}",
                                    kLeastMatched, kMostMatched, request.wanted),
                        {})};
  }
  if (by_words(by).empty()) {
    const std::vector<std::string> words = figure_words();
    const std::vector<std::string_view> views(words.begin(), words.end());
    return {usage_error("value", fmt::format("--by: expected {}", either(views)), {})};
  }
  return {};
}

}  // namespace

MatchAnswer match(const MatchRequest& request, World& world) {
  MatchAnswer answer;
  answer.wanted = request.wanted;
  answer.by = match_by(request.by);
  answer.said = unanswerable(request, answer.by);
  if (!answer.said.empty()) {
    return answer;
  }
  const std::string folder = records_folder(request.records, {}, world);
  const auto all = read_ledger(world, folder, [](const MotorRow&) { return true; });
  answer.said = all.diagnostics();
  if (!all) {
    return answer;
  }
  answer.choice = match_choice(all->rows, request.only, answer.by,
                               static_cast<int>(all->ids.size() - all->rows.size()));
  answer.match = matched(*answer.choice, answer.by, request.wanted);
  if (!answer.match) {
    answer.said.push_back(
        too_few(*answer.choice, request.wanted, request.only, answer.by, printable(folder)));
  }
  return answer;
}

}  // namespace loopledger::commands
