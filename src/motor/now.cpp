// SPDX-License-Identifier: MIT
#include "motor/now.h"

#include <algorithm>

#include "motor/life_fold.h"
#include "records/fields.h"

namespace loopledger::motor {
namespace {

using records::Entry;
using records::Kind;
using records::Record;

/// Whether nothing of before goes on behind it.
bool ends_a_life(const Entry& e) {
  return e.kind == Kind::broke || e.kind == Kind::retired ||
         (e.kind == Kind::wound && e.end == WindEnd::broke);
}

bool says_something_of_the_motor(Kind kind) {
  return kind == Kind::weighed || kind == Kind::tied || kind == Kind::break_in ||
         kind == Kind::wound || kind == Kind::flown || kind == Kind::broke || kind == Kind::retired;
}

/// Entries that lie before a knot or a break and stand behind it in the file.
void mark_late(const std::vector<Life>& lives, std::vector<Marked>& marked) {
  const Standing* border = nullptr;  // of those later in time, the first in the file
  std::vector<Marked> found;
  for (auto life = lives.rbegin(); life != lives.rend(); ++life) {
    for (auto s = life->entries.rbegin(); s != life->entries.rend(); ++s) {
      if (border != nullptr && border->index < s->index &&
          says_something_of_the_motor(s->entry->kind)) {
        found.push_back({Mark::late, s->entry, border->entry});
      }
      const bool is_knot = s + 1 == life->entries.rend() && life + 1 != lives.rend();
      if ((is_knot || ends_a_life(*s->entry)) && (border == nullptr || s->index < border->index)) {
        border = &*s;
      }
    }
  }
  marked.insert(marked.end(), found.rbegin(), found.rend());
}

/// Whether figures could follow from it, if it could be relied on. What the line said before it was
/// changed can't be known: a winding may have felt solid, an unknown kind may have been a break.
/// Nothing follows from a flight.
bool may_bear_on_figures(const Entry& e) {
  return e.kind == Kind::other || (says_something_of_the_motor(e.kind) && e.kind != Kind::flown);
}

/// Lines that can't be read any more; those before this life's knot are history.
void mark_lost(const Record& record, const std::vector<Life>& lives, std::vector<Marked>& marked) {
  const int knot = lives.size() > 1 ? lives.back().entries.front().entry->line : 0;
  for (const int line : record.lost) {
    if (line > knot) {
      marked.push_back({.mark = Mark::lost, .line = line});
    }
  }
}

/// Unsound lines that would bear on this life. One that stands before its knot and claims an
/// earlier time is history as a sound one would be.
void mark_unsound(const Record& record, const StandingEntries& standing,
                  const std::vector<Life>& lives, std::vector<Marked>& marked) {
  const Standing* const knot = lives.size() > 1 ? &lives.back().entries.front() : nullptr;
  for (std::size_t i = 0; i < record.entries.size(); ++i) {
    const Entry& e = record.entries[i];
    const auto at = records::moment_of_key(e.key);
    const bool is_history = knot != nullptr && i < knot->index && at && knot->at && *at < *knot->at;
    if (e.edited && standing.replaced_by[i] == nullptr && !is_history && may_bear_on_figures(e)) {
      marked.push_back({Mark::unsound, &e, nullptr});
    }
  }
}

void take_labels(const std::vector<Life>& lives, Now& now) {
  for (const Life& life : lives) {
    for (const Standing& s : life.entries) {
      if (s.entry->kind == Kind::labelled) {
        now.labelled = s.entry;
        now.labelled_before_knot = &life != &lives.back();
      }
    }
  }
}

}  // namespace

const std::optional<Mass>& Readings::of(Stage stage) const {
  switch (stage) {
    case Stage::as_cut:
      return as_cut;
    case Stage::washed:
      return washed;
    case Stage::tied:
      return tied;
    case Stage::finished:
      break;
  }
  return finished;
}

bool Now::has_damaged_head() const {
  return std::ranges::any_of(marked, [](const Marked& m) { return m.mark == Mark::head; });
}

bool Now::is_shaky() const {
  return std::ranges::any_of(marked, [](const Marked& m) {
    return m.mark == Mark::head || m.mark == Mark::torn || m.mark == Mark::lost ||
           (m.mark == Mark::unsound && !ends_a_life(*m.entry));
  });
}

bool Now::may_be_over() const {
  return state != State::retired && std::ranges::any_of(marked, [](const Marked& m) {
           return m.mark == Mark::unsound && ends_a_life(*m.entry);
         });
}

Now now_of(const Record& record) {
  const StandingEntries standing = standing_of(record.entries);
  Now now;
  LifeFold life(record.planned);
  for (const Standing& s : standing.entries) {
    if (life.is_ended_by(*s.entry)) {
      now.lives.push_back(life.life());
      life = life.followed_by(*s.entry);
    }
    life.take(s);
    if (s.at) {
      now.last = date_of(*s.at);
    }
  }
  if (record.planned_edited) {
    now.marked.push_back({Mark::head, nullptr, nullptr});
  }
  if (record.torn) {
    now.marked.push_back({Mark::torn, nullptr, nullptr});
  }
  now.lives.push_back(life.life());
  mark_lost(record, now.lives, now.marked);
  mark_unsound(record, standing, now.lives, now.marked);
  for (const Superseded& s : standing.superseded) {
    now.marked.push_back({Mark::superseded, s.earlier, s.newest});
  }
  life.finish(now);
  mark_late(now.lives, now.marked);
  take_labels(now.lives, now);
  if (!now.last) {
    now.last = record.planned.date;
  }
  return now;
}

std::optional<Stage> stage_weighed(const Entry& entry) {
  if (!entry.reading) {
    return std::nullopt;
  }
  return entry.kind == Kind::tied ? std::optional(Stage::tied) : entry.stage;
}

}  // namespace loopledger::motor
