// SPDX-License-Identifier: MIT
#include "motor/slow_model.h"

#include <algorithm>

#include "calc/break_in.h"
#include "motor/slow_standing.h"
#include "motor/slow_story.h"
#include "records/fields.h"

namespace loopledger::test {
namespace {

using motor::Life;
using motor::Mark;
using motor::Now;
using motor::State;
using motor::Winding;

/// The story as far as one of its places, that one in it.
Story up_to(const Story& story, std::size_t last) {
  Story part{story.p, {}, story.kept, story.at_least, story.at_most};
  part.places.assign(story.places.begin(),
                     story.places.begin() + static_cast<std::ptrdiff_t>(last + 1));
  return part;
}

Life life_of(const Story& story) {
  Life life{story.places, {}};
  for (std::size_t i = 0; i < story.places.size(); ++i) {
    const Entry* const e = story.places[i].entry;
    if (is(*e, Kind::wound) || is(*e, Kind::broke)) {
      const Story then = up_to(story, i);
      life.strains.push_back({e, then.loop_for_turns(), then.section()});
    }
  }
  return life;
}

State state_of(const Story& story) {
  const Places& all = story.places;
  if (newest(all, is_over) != nullptr) {
    return State::retired;
  }
  if (newest(all, [](const Entry& e) { return is(e, Kind::flown); }) != nullptr) {
    return State::flown;
  }
  if (story.worked()) {
    return State::broken_in;
  }
  const auto tied = [](const Entry& e) {
    return is(e, Kind::tied) || e.stage == Stage::tied || e.stage == Stage::finished;
  };
  return newest(all, tied) != nullptr ? State::tied : State::planned;
}

/// How often each step of the recipe was done: who is at step 3 has done with 1 and 2; a break-in
/// that names no step is the one that was next.
std::optional<motor::NextStep> next_step(const Story& story, bool winding) {
  const auto& steps = story.p.break_in;
  if (newest(story.places, [](const Entry& e) { return is(e, Kind::wound); }) != nullptr) {
    return std::nullopt;
  }
  std::vector<std::pair<std::size_t, int>> times;  // every repeat of every step, in order
  for (std::size_t i = 0; i < steps.size(); ++i) {
    for (int t = 1; t <= steps[i].repeat; ++t) {
      times.emplace_back(i, t);
    }
  }
  std::size_t at = 0;  // into `times`
  for (const Standing& s : story.places) {
    if (!is(*s.entry, Kind::break_in)) {
      continue;
    }
    const int wanted = s.entry->step ? std::max(*s.entry->step, 1) - 1 : -1;
    if (wanted >= static_cast<int>(steps.size())) {
      continue;
    }
    const auto first = std::ranges::find_if(
        times, [&](const auto& time) { return static_cast<int>(time.first) == wanted; });
    if (wanted >= 0) {
      at = std::max(at, static_cast<std::size_t>(first - times.begin()));
      if (at < times.size() && static_cast<int>(times[at].first) != wanted) {
        continue;  // one time more of a step that is done
      }
    }
    at = std::min(at + 1, times.size());
  }
  while (winding && at < times.size() && !calc::winds(steps[times[at].first])) {
    ++at;
  }
  return at < times.size() ? std::optional(motor::NextStep{times[at].first, times[at].second})
                           : std::nullopt;
}

// --- windings
// --------------------------------------------------------------------------------------

bool is_winding(const Entry& e) { return is(e, Kind::wound) && e.turns && *e.turns > Turns{}; }

/// The most turns of those of which something holds, the first of equal ones.
std::optional<Winding> most_turns(const Story& story, const Question& holds) {
  const Standing* most = nullptr;
  for (const Standing& s : story.places) {
    if (is_winding(*s.entry) && holds(*s.entry) &&
        (most == nullptr || *s.entry->turns > *most->entry->turns)) {
      most = &s;
    }
  }
  return most == nullptr ? std::nullopt
                         : std::optional(Winding{*most->entry->turns, most->entry->torque, most->at,
                                                 most->entry->temperature});
}

void windings_of(const Story& story, Now& now) {
  const Turns limit = now.do_not_pass;
  const auto past = [&](const Entry& e) { return is_winding(e) && *e.turns > limit; };
  now.beyond = most_turns(story, past);
  now.most = most_turns(story, [&](const Entry& e) { return !past(e); });
  now.best = most_turns(
      story, [&](const Entry& e) { return !past(e) && e.torque && *e.torque > Torque{}; });
  now.best = now.best ? now.best : now.most;
  const Standing* const own = newest(story.places, [&](const Entry& e) {
    const auto curve = is(e, Kind::wound) && !past(e) ? calc::own_curve_of(e) : std::nullopt;
    return curve && curve->curve.top_turns() <= limit;
  });
  now.own_curve = own != nullptr ? calc::own_curve_of(*own->entry) : std::nullopt;
  now.windings = count(story.places, [](const Entry& e) { return is(e, Kind::wound); });
  now.full_winds = count(story.places, [&](const Entry& e) {
    return is_winding(e) && *e.turns >= motor::kFullWind * now.wind_to;
  });
  now.flights = count(story.places, [](const Entry& e) { return is(e, Kind::flown); });
  const Standing* const launch = newest(story.places, [](const Entry& e) {
    return is(e, Kind::wound) && e.backed_off && (!e.turns || *e.backed_off <= *e.turns);
  });
  now.backed_off = launch != nullptr ? launch->entry->backed_off : std::nullopt;
  const Standing* const last = newest(story.places, is_winding);
  now.last_turns = last != nullptr ? last->entry->turns : std::nullopt;
  const Standing* const worked = newest(
      story.places, [](const Entry& e) { return is(e, Kind::wound) || is(e, Kind::break_in); });
  now.worked_at = worked != nullptr ? worked->at : std::nullopt;
  for (const Standing& s : story.places) {
    const Kind kind = s.entry->kind;
    if (s.at && (kind == Kind::weighed || kind == Kind::tied || kind == Kind::break_in ||
                 kind == Kind::wound)) {
      now.figures_at = s.at;
    }
  }
}

// --- marks
// -----------------------------------------------------------------------------------------

bool is_knot(const std::vector<Story>& stories, const Entry* e) {
  return std::any_of(stories.begin() + 1, stories.end(),
                     [&](const Story& s) { return s.places.front().entry == e; });
}

void marks_of(const records::Record& record, const std::vector<Story>& stories,
              const Places& places, Now& now) {
  if (record.planned_edited) {
    now.marked.push_back({Mark::head, nullptr, nullptr});
  }
  if (record.torn) {
    now.marked.push_back({Mark::torn, nullptr, nullptr});
  }
  const SlowStanding standing(record.entries);
  const Standing* const knot = stories.size() > 1 ? &stories.back().places.front() : nullptr;
  for (const int line : record.lost) {
    if (stories.size() == 1 || stories.back().places.front().entry->line < line) {
      now.marked.push_back({.mark = Mark::lost, .line = line});
    }
  }
  for (const Entry* const e : standing.unanswered()) {
    const auto at = records::moment_of_key(e->key);
    const bool before = knot != nullptr && e < &record.entries[knot->index] && at && knot->at &&
                        at->seconds < knot->at->seconds;
    const bool is_told = is(*e, Kind::note) || is(*e, Kind::flown) || is(*e, Kind::labelled) ||
                         is(*e, Kind::piece) || is(*e, Kind::planned);
    if (!before && !is_told) {
      now.marked.push_back({Mark::unsound, e, nullptr});
    }
  }
  for (const auto& [earlier, newer] : standing.superseded()) {
    now.marked.push_back({Mark::superseded, earlier, newer});
  }
  for (std::size_t i = 0; i < places.size(); ++i) {
    const Standing* first = nullptr;  // in the file
    for (std::size_t later = i + 1; later < places.size(); ++later) {
      const Standing& s = places[later];
      if ((is_over(*s.entry) || is_knot(stories, s.entry)) && s.index < places[i].index &&
          (first == nullptr || s.index < first->index)) {
        first = &s;
      }
    }
    if (first != nullptr && (is_worked(*places[i].entry) || is(*places[i].entry, Kind::tied) ||
                             is(*places[i].entry, Kind::weighed))) {
      now.marked.push_back({Mark::late, places[i].entry, first->entry});
    }
  }
  for (const Standing& s : stories.back().places) {
    if (is_winding(*s.entry) && *s.entry->turns > now.do_not_pass) {
      now.marked.push_back({Mark::beyond, s.entry, nullptr});
    }
  }
}

void label_of(const std::vector<Story>& stories, const Places& places, Now& now) {
  const auto labelled = [](const Entry& e) { return is(e, Kind::labelled); };
  const Standing* const label = newest(places, labelled);
  now.labelled = label != nullptr ? label->entry : nullptr;
  now.labelled_before_knot = label != nullptr && newest(stories.back().places, labelled) == nullptr;
}

}  // namespace

Now slow_now(const records::Record& record) {
  const Places places = SlowStanding(record.entries).in_time();
  const std::vector<Story> stories = stories_of(record, places);
  const Story& story = stories.back();
  Now now;
  now.state = state_of(story);
  for (const Story& each : stories) {
    now.lives.push_back(life_of(each));
  }
  now.read = {story.reading(Stage::as_cut), story.reading(Stage::washed),
              story.reading(Stage::tied), story.reading(Stage::finished)};
  now.washed = story.washed_rubber();
  now.rubber = story.rubber();
  now.loop = story.loop();
  now.loop_is = story.broken_in() ? LoopIs::broken_in
                : story.tied()    ? LoopIs::tied
                                  : LoopIs::planned;
  now.loop_of_mass = !story.broken_in() && story.of_mass();
  now.loop_as_tied = story.as_tied();
  now.tied_measured = story.tied().has_value();
  if (story.broken_in()) {
    now.growth = Share::ratio(*story.broken_in() / story.as_tied() - 1);
  }
  now.section = story.section();
  now.loop_held = story.held();
  now.largest = story.largest();
  now.wind_to = story.wind_to();
  now.do_not_pass = now.largest.low;
  windings_of(story, now);
  for (const Standing& s : places) {
    if (s.at) {
      now.last = std::max(now.last.value_or(date_of(*s.at)), date_of(*s.at));
    }
  }
  now.last = now.last ? now.last : record.planned.date;
  now.step = next_step(story, false);
  now.winding_step = next_step(story, true);
  label_of(stories, places, now);
  marks_of(record, stories, places, now);
  return now;
}

}  // namespace loopledger::test
