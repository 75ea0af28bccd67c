// SPDX-License-Identifier: MIT
#include "motor/slow_model.h"

#include <algorithm>
#include <cmath>
#include <functional>

#include "calc/break_in.h"
#include "calc/turns_torque.h"
#include "calc/weigh.h"
#include "motor/slow_standing.h"

namespace loopledger::test {
namespace {

using motor::Life;
using motor::Mark;
using motor::Now;
using motor::Standing;
using motor::State;
using motor::Winding;
using records::Entry;
using records::Kind;
using records::Planned;

using Places = std::vector<Standing>;
using Question = std::function<bool(const Entry&)>;

/// The newest place of which something holds; null: none.
const Standing* newest(const Places& places, const Question& holds) {
  const auto found = std::find_if(places.rbegin(), places.rend(),
                                  [&](const Standing& s) { return holds(*s.entry); });
  return found == places.rend() ? nullptr : &*found;
}

int count(const Places& places, const Question& holds) {
  return static_cast<int>(
      std::ranges::count_if(places, [&](const Standing& s) { return holds(*s.entry); }));
}

bool is(const Entry& e, Kind kind) { return e.kind == kind; }

bool is_break(const Entry& e) {
  return is(e, Kind::broke) || (is(e, Kind::wound) && e.end == WindEnd::broke);
}

bool is_over(const Entry& e) { return is_break(e) || is(e, Kind::retired); }

bool is_worked(const Entry& e) {
  return is_over(e) || is(e, Kind::wound) || is(e, Kind::break_in) || is(e, Kind::flown);
}

/// A knot's life up to some moment, and what is still known of the strip from before its knot.
struct Story {
  const Planned& p;
  Places places;
  std::optional<Mass> kept;

  [[nodiscard]] bool worked() const { return newest(places, is_worked) != nullptr; }

  // --- what the scale said -----------------------------------------------------------------------
  [[nodiscard]] std::optional<Mass> reading(Stage stage) const {
    const Standing* const s = newest(
        places, [&](const Entry& e) { return motor::stage_weighed(e) == std::optional(stage); });
    return s != nullptr ? s->entry->reading : stage == Stage::washed ? kept : std::nullopt;
  }
  [[nodiscard]] std::optional<Mass> washed_rubber() const {
    const auto read = reading(Stage::washed);
    return read ? std::optional(calc::counted(p, Stage::washed, *read).rubber) : std::nullopt;
  }
  /// The stage of the newest reading behind "as cut".
  [[nodiscard]] std::optional<Stage> newest_stage() const {
    const Standing* const s = newest(places, [](const Entry& e) {
      const auto stage = motor::stage_weighed(e);
      return stage && *stage != Stage::as_cut;
    });
    return s != nullptr ? motor::stage_weighed(*s->entry)
           : kept       ? std::optional(Stage::washed)
                        : std::nullopt;
  }
  [[nodiscard]] std::optional<Mass> rubber() const {
    const auto stage = newest_stage();
    return stage ? std::optional(calc::counted(p, *stage, *reading(*stage)).rubber) : std::nullopt;
  }
  [[nodiscard]] bool is_light() const {
    const auto stage = newest_stage();
    return stage && calc::judge(p, *stage, *reading(*stage)).verdict == calc::Verdict::light;
  }

  // --- what the ruler said -----------------------------------------------------------------------
  [[nodiscard]] std::optional<Length> tied() const {
    const Standing* const s =
        newest(places, [](const Entry& e) { return is(e, Kind::tied) && e.loop; });
    return s != nullptr ? s->entry->loop : std::nullopt;
  }
  [[nodiscard]] std::optional<Length> broken_in() const {
    const Standing* const s =
        newest(places, [](const Entry& e) { return is(e, Kind::break_in) && e.loop_after; });
    return s != nullptr ? s->entry->loop_after : std::nullopt;
  }
  [[nodiscard]] std::optional<Length> of_mass() const {
    const auto mass = rubber();
    if (tied() || !mass || !is_light()) {
      return std::nullopt;
    }
    return std::min(p.loop, motor::loop_of_mass(p, *mass));
  }
  [[nodiscard]] Length as_tied() const {
    return tied() ? *tied() : of_mass() ? *of_mass() : p.loop;
  }
  [[nodiscard]] Length loop() const { return broken_in().value_or(as_tied()); }

  // --- what it stands ----------------------------------------------------------------------------
  [[nodiscard]] Length loop_for_turns() const {
    return std::min(loop(), as_tied() * (1 + motor::kMostGrowth));
  }
  [[nodiscard]] Area section() const {
    const auto mass = rubber();
    if (!tied() || !mass ||
        *tied() >= motor::loop_of_mass(p, *mass) - motor::loop_tolerance(p, *mass)) {
      return p.section;
    }
    const LinearDensity strip = *mass / (p.strands * *tied() + p.knot);
    return std::max(p.section, p.strands * (strip / p.density));
  }
  [[nodiscard]] double density_u() const { return p.linear_density.u / p.linear_density.value; }
  [[nodiscard]] bool as_planned() const {
    return !broken_in() && !tied() && !of_mass() && section() == p.section;
  }
  [[nodiscard]] Estimate<Turns> largest() const {
    return as_planned() ? p.turns_max
                        : calc::largest_turns({p.turns_factor, p.turns_factor_u}, loop_for_turns(),
                                              section(), density_u());
  }
  [[nodiscard]] Turns wind_to() const {
    return as_planned() ? p.wind_to
                        : calc::wind_to(largest(), {p.turns_factor, p.turns_factor_u}, density_u(),
                                        p.turns_factor_fitted);
  }
};

/// Whether a `tied` behind these places is a new knot.
bool is_new_knot(const Story& before, const Entry& tied) {
  if (before.worked()) {
    return true;
  }
  const auto loop = before.tied();
  const Length ruler = before.p.ruler_step;
  if (loop && tied.loop &&
      std::abs((*tied.loop - *loop).in_mm()) > std::max(motor::kSameLoop * *loop, ruler).in_mm()) {
    return true;
  }
  const auto mass = before.reading(Stage::tied);
  const Mass scale = 3 * std::sqrt(2.0) * calc::scale_u(before.p.scale_step, before.p.scale_error);
  return mass && tied.reading && std::abs((*tied.reading - *mass).in_mg()) > scale.in_mg();
}

/// What is still known of the strip when this knot is tied behind that story.
std::optional<Mass> kept_for(const Story& before, const Entry& tied) {
  const auto rubber = before.washed_rubber();
  if (before.worked() || !rubber || !tied.loop) {
    return std::nullopt;
  }
  const double off = std::abs((motor::loop_of_mass(before.p, *rubber) - *tied.loop).in_mm());
  return off <= motor::loop_tolerance(before.p, *rubber).in_mm() ? before.reading(Stage::washed)
                                                                 : std::nullopt;
}

std::vector<Story> stories_of(const Planned& p, const Places& places) {
  std::vector<Story> stories{{p, {}, {}}};
  for (const Standing& s : places) {
    if (is(*s.entry, Kind::tied) && is_new_knot(stories.back(), *s.entry)) {
      const auto kept = kept_for(stories.back(), *s.entry);
      stories.push_back({p, {}, kept});
    }
    stories.back().places.push_back(s);
  }
  return stories;
}

/// The story as far as one of its places, that one in it.
Story up_to(const Story& story, std::size_t last) {
  Story part{story.p, {}, story.kept};
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

bool is_winding(const Entry& e) { return is(e, Kind::wound) && e.turns; }

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
  now.best = most_turns(story, [&](const Entry& e) { return !past(e) && e.torque; });
  now.best = now.best ? now.best : now.most;
  const Standing* const own = newest(story.places, [&](const Entry& e) {
    return is(e, Kind::wound) && !past(e) && calc::own_curve_of(e);
  });
  now.own_curve = own != nullptr ? calc::own_curve_of(*own->entry) : std::nullopt;
  now.windings = count(story.places, [](const Entry& e) { return is(e, Kind::wound); });
  now.full_winds = count(story.places, [&](const Entry& e) {
    return is_winding(e) && *e.turns >= motor::kFullWind * now.wind_to;
  });
  now.flights = count(story.places, [](const Entry& e) { return is(e, Kind::flown); });
  const Standing* const launch =
      newest(story.places, [](const Entry& e) { return is(e, Kind::wound) && e.backed_off; });
  now.backed_off = launch != nullptr ? launch->entry->backed_off : std::nullopt;
  const Standing* const last = newest(story.places, is_winding);
  now.last_turns = last != nullptr ? last->entry->turns : std::nullopt;
  const Standing* const worked = newest(
      story.places, [](const Entry& e) { return is(e, Kind::wound) || is(e, Kind::break_in); });
  now.worked_at = worked != nullptr ? worked->at : std::nullopt;
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
  const SlowStanding standing(record.entries);
  for (const Entry* const e : standing.unanswered()) {
    if (is_over(*e) || is(*e, Kind::tied)) {
      now.marked.push_back({Mark::unsound, e, nullptr});
    }
  }
  for (const auto& [earlier, newer] : standing.superseded()) {
    now.marked.push_back({Mark::superseded, earlier, newer});
  }
  for (std::size_t i = 0; i < places.size(); ++i) {
    const auto behind = std::find_if(
        places.begin() + static_cast<std::ptrdiff_t>(i), places.end(), [&](const Standing& s) {
          return s.index < places[i].index && (is_break(*s.entry) || is_knot(stories, s.entry));
        });
    if (behind != places.end()) {
      now.marked.push_back({Mark::late, places[i].entry, behind->entry});
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
  const std::vector<Story> stories = stories_of(record.planned, places);
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
  now.largest = story.largest();
  now.wind_to = story.wind_to();
  now.do_not_pass = now.largest.low;
  windings_of(story, now);
  for (const Standing& s : places) {
    if (s.at) {
      now.last = std::max(now.last.value_or(date_of(*s.at)), date_of(*s.at));
    }
  }
  now.step = next_step(story, false);
  now.winding_step = next_step(story, true);
  label_of(stories, places, now);
  marks_of(record, stories, places, now);
  return now;
}

}  // namespace loopledger::test
