// SPDX-License-Identifier: MIT
#include "motor/slow_story.h"

namespace loopledger::test {
namespace {

using records::Planned;

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
  Story story{p, {}, {}, p.section};
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
  story.at_most = longer ? std::nullopt : before.longest();
  if (!longer && washed && !story.kept && tied.loop && *before.washed_rubber() > Mass{}) {
    const Mass rubber = *before.washed_rubber();
    const Length least = motor::loop_of_mass(p, rubber) - motor::loop_tolerance(p, rubber);
    if (least > Length{} && *tied.loop < least) {
      story.at_least =
          std::max(story.at_least, rubber / (least * p.strands + p.knot) * p.strands / p.density);
    }
  }
  return story;
}

}  // namespace

std::vector<Story> stories_of(const records::Record& record, const Places& places) {
  const Planned& p = record.planned;
  std::vector<Story> stories{{p, {}, {}, p.section}};
  for (const Standing& s : places) {
    if (is(*s.entry, Kind::tied) && is_new_knot(stories.back(), *s.entry)) {
      stories.push_back(story_behind(Story(stories.back()), *s.entry));
    }
    stories.back().places.push_back(s);
  }
  return stories;
}

}  // namespace loopledger::test
