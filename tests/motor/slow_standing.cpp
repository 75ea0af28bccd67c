// SPDX-License-Identifier: MIT
#include "motor/slow_standing.h"

#include <algorithm>
#include <set>

#include "records/fields.h"

namespace loopledger::test {

using motor::Standing;
using motor::Superseded;
using records::Entry;
using records::Kind;

std::optional<std::size_t> SlowStanding::line_of(const std::string& key) const {
  std::optional<std::size_t> found;
  for (Index i = 0; i < entries_.size(); ++i) {
    const bool is_it = !key.empty() && entries_[i].key == key;
    if (is_it && (!found || (entries_[*found].edited && !entries_[i].edited))) {
      found = i;  // a sound line before one that is not
    }
  }
  return found;
}

SlowStanding::SlowStanding(const std::vector<Entry>& entries) : entries_(entries) {
  for (const Entry& e : entries) {
    next_.push_back(line_of(e.corrects));
  }
}

bool SlowStanding::in_circle(Index i) const {
  std::optional<Index> at = next(i);
  for (Index steps = 0; at && steps <= entries_.size(); ++steps) {
    if (*at == i) {
      return true;
    }
    at = next(*at);
  }
  return false;
}

bool SlowStanding::corrects(Index i) const {
  return !entries_[i].corrects.empty() && !in_circle(i);
}

bool SlowStanding::corrects_absent(Index i, const std::string& key) const {
  return entries_[i].corrects == key && !next(i);
}

std::vector<std::size_t> SlowStanding::in_force(Index of) const {
  std::vector<Index> found;
  for (Index i = 0; i < entries_.size(); ++i) {
    if (corrects(i) && next(i) == of && says(i)) {
      found.push_back(i);
    }
  }
  return found;
}

std::vector<std::size_t> SlowStanding::in_force_of_absent(const std::string& key) const {
  std::vector<Index> found;
  for (Index i = 0; i < entries_.size(); ++i) {
    if (corrects_absent(i, key) && says(i)) {
      found.push_back(i);
    }
  }
  return found;
}

std::size_t SlowStanding::newest(const std::vector<Index>& corrections) const {
  Index best = corrections.front();
  for (const Index i : corrections) {
    best = claimed(i) >= claimed(best) ? i : best;
  }
  return best;
}

std::optional<std::size_t> SlowStanding::made_of(const std::vector<Index>& corrections) const {
  const Index counts = *says(newest(corrections));
  return entries_[counts].kind == Kind::note ? std::nullopt : std::optional(counts);
}

std::optional<std::size_t> SlowStanding::says(Index i) const {
  if (const std::vector<Index> corrections = in_force(i); !corrections.empty()) {
    return made_of(corrections);
  }
  return entries_[i].edited ? std::nullopt : std::optional(i);
}

std::optional<Moment> SlowStanding::claimed(Index i) const {
  if (const auto own = records::moment_of_key(entries_[i].key)) {
    return own;
  }
  for (Index before = i; before-- > 0;) {
    if (!entries_[before].edited) {
      return claimed(before);
    }
  }
  return std::nullopt;
}

std::vector<Standing> SlowStanding::in_time() const {
  std::vector<std::pair<std::optional<Moment>, Standing>> all;  // with the time it stands at
  std::set<std::string> absent;
  for (Index i = 0; i < entries_.size(); ++i) {
    const auto own = records::moment_of_key(entries_[i].key);
    const std::string& key = entries_[i].corrects;
    if (!corrects(i)) {
      if (const auto counts = says(i)) {
        all.push_back({claimed(i), {&entries_[*counts], &entries_[i], i, own}});
      }
    } else if (!next(i) && absent.insert(key).second) {
      const std::vector<Index> corrections = in_force_of_absent(key);
      const auto counts = corrections.empty() ? std::nullopt : made_of(corrections);
      if (counts) {
        const Index place = newest(corrections);
        const auto of_absent = records::moment_of_key(key);
        const auto at = of_absent ? of_absent : records::moment_of_key(entries_[place].key);
        all.push_back(
            {at ? at : claimed(place), {&entries_[*counts], &entries_[place], place, at}});
      }
    }
  }
  std::ranges::sort(all, {}, [](const auto& s) { return std::pair(s.first, s.second.index); });
  std::vector<Standing> places;
  std::ranges::transform(all, std::back_inserter(places), [](const auto& s) { return s.second; });
  return places;
}

std::vector<const Entry*> SlowStanding::unanswered() const {
  std::vector<const Entry*> lines;
  for (Index i = 0; i < entries_.size(); ++i) {
    if (entries_[i].edited && in_force(i).empty()) {
      lines.push_back(&entries_[i]);
    }
  }
  return lines;
}

std::vector<Superseded> SlowStanding::superseded() const {
  std::vector<Superseded> pairs;
  for (Index i = 0; i < entries_.size(); ++i) {
    if (!corrects(i) || !says(i)) {
      continue;
    }
    const auto of = next(i);
    const Index counts = newest(of ? in_force(*of) : in_force_of_absent(entries_[i].corrects));
    if (counts != i) {
      pairs.push_back({&entries_[i], &entries_[counts]});
    }
  }
  return pairs;
}

}  // namespace loopledger::test
