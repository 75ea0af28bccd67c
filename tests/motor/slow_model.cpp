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
  Area at_least;  ///< section
  bool sound_head = true;

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
  [[nodiscard]] calc::Verdict verdict() const {
    const auto stage = newest_stage();
    return stage ? calc::judge(p, *stage, *reading(*stage)).verdict : calc::Verdict::ok;
  }

  // --- what the ruler said -----------------------------------------------------------------------
  /// Whether something was done to this knot before that place.
  [[nodiscard]] bool worked_before(const Standing& s) const {
    return std::any_of(places.data(), &s, [](const Standing& b) { return is_worked(*b.entry); });
  }
  /// All lengths of the loop as tied, or all as broken in, in the order in which they were read.
  [[nodiscard]] std::vector<Length> lengths(bool broken_in) const {
    std::vector<Length> read;
    for (const Standing& s : places) {
      const bool breaks_in = is(*s.entry, Kind::break_in);
      if (is(*s.entry, Kind::tied) && s.entry->loop && !broken_in) {
        read.push_back(*s.entry->loop);
      }
      if (breaks_in && s.entry->loop_before && worked_before(s) == broken_in) {
        read.push_back(*s.entry->loop_before);
      }
      if (breaks_in && s.entry->loop_after && broken_in) {
        read.push_back(*s.entry->loop_after);
      }
    }
    return read;
  }
  [[nodiscard]] std::optional<Length> tied() const {
    const auto read = lengths(false);
    return read.empty() ? std::nullopt : std::optional(read.back());
  }
  [[nodiscard]] std::optional<Length> broken_in() const {
    const auto read = lengths(true);
    return read.empty() ? std::nullopt : std::optional(read.back());
  }
  [[nodiscard]] std::optional<Length> of_mass() const {
    const auto mass = rubber();
    if (tied() || !mass || *mass <= Mass{} || verdict() != calc::Verdict::light) {
      return std::nullopt;
    }
    const Length loop = motor::loop_of_mass(p, *mass);
    return loop < p.loop ? std::optional(loop) : std::nullopt;
  }
  [[nodiscard]] Length as_tied() const {
    return tied() ? *tied() : of_mass() ? *of_mass() : p.loop;
  }
  [[nodiscard]] Length loop() const { return broken_in().value_or(as_tied()); }

  // --- what it stands ----------------------------------------------------------------------------
  [[nodiscard]] Length loop_for_turns() const {
    return std::min(loop(), as_tied() * (1 + motor::kMostGrowth));
  }
  [[nodiscard]] bool is_to_be_snipped() const {
    return p.aim_is_limit && newest_stage() == Stage::washed;
  }
  /// Shorter than its mass allows.
  [[nodiscard]] bool is_too_short(Mass rubber) const {
    if (tied()) {
      return *tied() < motor::loop_of_mass(p, rubber) - motor::loop_tolerance(p, rubber);
    }
    return verdict() == calc::Verdict::over && !is_to_be_snipped();
  }
  [[nodiscard]] Area section() const {
    const auto mass = rubber();
    if (!mass || *mass <= Mass{} || !is_too_short(*mass)) {
      return std::max(p.section, at_least);
    }
    const LinearDensity strip = *mass / (p.strands * as_tied() + p.knot);
    return std::max({p.section, at_least, p.strands * (strip / p.density)});
  }
  [[nodiscard]] double density_u() const { return p.linear_density.u / p.linear_density.value; }
  [[nodiscard]] bool as_planned() const {
    return loop_for_turns() == p.loop && section() == p.section;
  }
  [[nodiscard]] calc::Factor<double> factor() const { return {p.turns_factor, p.turns_factor_u}; }
  [[nodiscard]] Estimate<Turns> by_factor() const {
    return calc::largest_turns(factor(), loop_for_turns(), section(), density_u());
  }
  /// Of the planned turns, for this loop and section.
  [[nodiscard]] double of_planned() const {
    return loop_for_turns() / p.loop / std::sqrt(section() / p.section);
  }
  [[nodiscard]] Estimate<Turns> largest() const {
    if (sound_head) {
      return as_planned() ? p.turns_max : by_factor();
    }
    const Estimate<Turns>& plan = p.turns_max;
    const double share = of_planned();
    return plan.low * share < by_factor().low
               ? Estimate<Turns>{plan.value * share, plan.low * share, plan.high * share}
               : by_factor();
  }
  [[nodiscard]] Turns wind_to() const {
    const Turns by_rule = calc::wind_to(by_factor(), factor(), density_u(), p.turns_factor_fitted);
    const Turns most = calc::most_to_wind(largest().low);
    return !sound_head    ? std::min({by_rule, p.wind_to * of_planned(), most})
           : as_planned() ? std::min(p.wind_to, most)
                          : std::min(by_rule, most);
  }
};

/// Whether a `tied` behind these places is a new knot.
bool is_new_knot(const Story& before, const Entry& tied) {
  if (before.worked()) {
    return true;
  }
  // Both ends of a length and both readings of a mass carry the step: 2 step^2/12 each. [gum]
  const auto loop = before.tied();
  if (loop && tied.loop) {
    const double off = std::abs((*tied.loop - *loop).in_mm());
    const double ruler = 3 * std::sqrt(2 * 2.0 / 12) * before.p.ruler_step.in_mm();
    const double hanging = motor::kSameLoop * std::max(*loop, *tied.loop).in_mm();
    if (off > std::max(ruler, hanging) + 1e-9) {
      return true;
    }
  }
  const auto mass = before.reading(Stage::tied);
  const Mass u = calc::scale_u(before.p.scale_step, before.p.scale_error);
  return mass && tied.reading &&
         std::abs((*tied.reading - *mass).in_mg()) > 3 * std::sqrt(2.0) * u.in_mg() + 1e-9;
}

bool fits(const Planned& p, Length loop, Mass rubber) {
  const double off = std::abs((motor::loop_of_mass(p, rubber) - loop).in_mm());
  return rubber > Mass{} && off <= motor::loop_tolerance(p, rubber).in_mm();
}

/// The knot that is tied behind that story, with what is kept of its strip.
Story story_behind(const Story& before, const Entry& tied) {
  const Planned& p = before.p;
  Story story{p, {}, {}, p.section, before.sound_head};
  if (before.worked()) {
    return story;
  }
  const auto washed = before.reading(Stage::washed);
  const bool loop_fits = !tied.loop || !washed || fits(p, *tied.loop, *before.washed_rubber());
  const bool mass_fits =
      !tied.reading || !washed || calc::check_tying(p, *washed, *tied.reading).agrees;
  story.kept = loop_fits && mass_fits ? washed : std::nullopt;
  const bool longer = tied.loop && before.tied() && *tied.loop > *before.tied();
  story.at_least = longer ? p.section : before.section();
  return story;
}

std::vector<Story> stories_of(const records::Record& record, const Places& places) {
  const Planned& p = record.planned;
  std::vector<Story> stories{{p, {}, {}, p.section, !record.planned_edited}};
  for (const Standing& s : places) {
    if (is(*s.entry, Kind::tied) && is_new_knot(stories.back(), *s.entry)) {
      stories.push_back(story_behind(Story(stories.back()), *s.entry));
    }
    stories.back().places.push_back(s);
  }
  return stories;
}

/// The story as far as one of its places, that one in it.
Story up_to(const Story& story, std::size_t last) {
  Story part{story.p, {}, story.kept, story.at_least, story.sound_head};
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
