// SPDX-License-Identifier: MIT
#include "records/state.h"

#include <algorithm>
#include <array>
#include <utility>

#include "base/text.h"
#include "records/fields.h"

namespace loopledger::records {
namespace {

constexpr std::array<std::pair<State, std::string_view>, 5> kWords{{{State::planned, "planned"},
                                                                    {State::tied, "tied"},
                                                                    {State::broken_in, "broken_in"},
                                                                    {State::flown, "flown"},
                                                                    {State::retired, "retired"}}};

State after(State now, const Entry& e) {
  switch (e.kind) {
    case Kind::tied:
      return now == State::planned || now == State::retired ? State::tied : now;
    case Kind::weighed:
      return e.stage == Stage::tied || e.stage == Stage::finished ? std::max(now, State::tied)
                                                                  : now;
    case Kind::break_in:
      return std::max(now, State::broken_in);
    case Kind::wound:
      return e.end == WindEnd::broke ? State::retired : std::max(now, State::broken_in);
    case Kind::flown:
      return std::max(now, State::flown);
    case Kind::broke:
    case Kind::retired:
      return State::retired;
    case Kind::planned:
    case Kind::labelled:
    case Kind::piece:
    case Kind::note:
    case Kind::other:
      break;
  }
  return now;
}

/// A new knot, a new motor.
bool begins_anew(State now, const Entry& e) {
  return e.kind == Kind::tied && now == State::retired;
}

void take_reading(Known& known, const Entry& e) {
  const auto stage = stage_weighed(e);
  if (stage == Stage::washed) {
    known.washed = e.reading;
  } else if (stage == Stage::tied) {
    known.tied = e.reading;
  } else if (stage == Stage::finished) {
    known.finished = e.reading;
  }
}

void take_winding(Known& known, const Entry& e) {
  ++known.windings;
  if (e.turns && (!known.best_turns || *e.turns > *known.best_turns)) {
    known.best_turns = e.turns;
    known.best_torque = e.torque;
    known.best_at = moment_of_key(e.key);
    known.best_temperature = e.temperature;
  }
  if (e.backed_off) {
    known.backed_off = e.backed_off;
  }
}

/// What was weighed, wound and flown before says nothing of it: what broke or slipped was cut off.
void tie_again(Known& known) {
  known.washed.reset();
  known.tied.reset();
  known.finished.reset();
  known.loop.reset();
  known.loop_broken_in = false;
  known.best_turns.reset();
  known.best_torque.reset();
  known.best_at.reset();
  known.best_temperature.reset();
  known.worked_at.reset();
  known.backed_off.reset();
  known.windings = 0;
  known.flights = 0;
}

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

State state_of(const std::vector<Entry>& entries) {
  State state = State::planned;
  for (const Entry* const e : standing(entries)) {
    state = after(state, *e);
  }
  return state;
}

Known known_of(const std::vector<Entry>& entries) {
  Known known;
  State state = State::planned;
  for (const Entry* const e : standing(entries)) {
    if (begins_anew(state, *e)) {
      tie_again(known);
    }
    state = after(state, *e);
    if (e->edited) {
      continue;
    }
    if (e->kind == Kind::weighed || e->kind == Kind::tied) {
      take_reading(known, *e);
    }
    if (e->kind == Kind::tied && e->loop && !known.loop_broken_in) {
      known.loop = e->loop;
    }
    if (e->kind == Kind::break_in && e->loop_after) {
      known.loop = e->loop_after;
      known.loop_broken_in = true;
    }
    if (e->kind == Kind::wound) {
      take_winding(known, *e);
    }
    if (e->kind == Kind::wound || e->kind == Kind::break_in) {
      known.worked_at = moment_of_key(e->key);
    }
    known.flights += e->kind == Kind::flown ? 1 : 0;
  }
  return known;
}

LoopIs loop_is(const Known& known) {
  return !known.loop ? LoopIs::planned : known.loop_broken_in ? LoopIs::broken_in : LoopIs::tied;
}

std::vector<const Entry*> this_life(const std::vector<Entry>& entries) {
  return std::move(lives(entries).back());
}

std::vector<std::vector<const Entry*>> lives(const std::vector<Entry>& entries) {
  std::vector<std::vector<const Entry*>> all(1);
  State state = State::planned;
  for (const Entry* const e : standing(entries)) {
    if (begins_anew(state, *e)) {
      all.emplace_back();
    }
    state = after(state, *e);
    if (!e->edited) {
      all.back().push_back(e);
    }
  }
  return all;
}

std::optional<Stage> stage_weighed(const Entry& entry) {
  if (!entry.reading) {
    return std::nullopt;
  }
  return entry.kind == Kind::tied ? std::optional(Stage::tied) : entry.stage;
}

}  // namespace loopledger::records
