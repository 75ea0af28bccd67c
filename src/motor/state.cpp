// SPDX-License-Identifier: MIT
#include "motor/state.h"

#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include "base/terms.h"

namespace loopledger::motor {
namespace {

constexpr std::array<std::pair<State, std::string_view>, 5> kWords{{{State::planned, "planned"},
                                                                    {State::tied, "tied"},
                                                                    {State::broken_in, "broken_in"},
                                                                    {State::flown, "flown"},
                                                                    {State::retired, "retired"}}};

}  // namespace

std::string_view word(State state) {
  return std::ranges::find(kWords, state, &std::pair<State, std::string_view>::first)->second;
}

std::optional<State> state_from(std::string_view text) {
  const std::string key = as_word(text);
  for (const auto& [state, name] : kWords) {
    if (name == key) {
      return state;
    }
  }
  return std::nullopt;
}

}  // namespace loopledger::motor
