// SPDX-License-Identifier: MIT
#include "motor/standing.h"

#include <algorithm>
#include <iterator>
#include <limits>
#include <string_view>
#include <tuple>
#include <unordered_map>
#include <utility>

#include "records/fields.h"

namespace loopledger::motor {
namespace {

using records::Entry;
using records::Kind;

constexpr std::size_t kNone = static_cast<std::size_t>(-1);

/// The time that each line's key claims, or that of the sound line before it.
std::vector<Moment> claims(const std::vector<Entry>& entries) {
  std::vector<Moment> times;
  Moment before{std::numeric_limits<std::int64_t>::min()};
  for (const Entry& e : entries) {
    times.push_back(records::moment_of_key(e.key).value_or(before));
    before = e.edited ? before : times.back();
  }
  return times;
}

/// The corrections of a record as a forest: each line and the one that it corrects. Behind the
/// lines stand the entries that are corrected and that the record does not have, as nothing but
/// their keys.
class Corrections {
 public:
  explicit Corrections(const std::vector<Entry>& entries)
      : entries_(entries), claims_(claims(entries)) {
    std::unordered_map<std::string_view, std::size_t>& at = of_key_;
    for (std::size_t i = 0; i < entries.size(); ++i) {
      const auto [of, fresh] = at.try_emplace(entries[i].key, i);
      if (!fresh && entries[of->second].edited && !entries[i].edited) {
        of->second = i;  // of two lines with one key the sound one is meant
      }
    }
    target_.assign(entries.size(), kNone);
    for (std::size_t i = 0; i < entries.size(); ++i) {
      if (!entries[i].corrects.empty()) {
        const auto [found, lost] = at.try_emplace(entries[i].corrects, target_.size());
        target_[i] = found->second;
        if (lost) {
          target_.push_back(kNone);
        }
      }
    }
    newest_.assign(target_.size(), kNone);
    content_.assign(target_.size(), kNone);
    cut_circles();
    settle();
  }

  /// Of lines, and of entries that the record does not have.
  [[nodiscard]] std::size_t size() const { return target_.size(); }
  /// Stands in its own place: it corrects nothing.
  [[nodiscard]] bool is_place(std::size_t i) const { return target_[i] == kNone; }
  [[nodiscard]] bool is_lost(std::size_t i) const { return i >= entries_.size(); }
  /// What counts in this place; null: it is taken back, or nothing sound stands there.
  [[nodiscard]] const Entry* content(std::size_t i) const {
    return counts(i) ? &entries_[content_[i]] : nullptr;
  }
  [[nodiscard]] std::size_t newest(std::size_t i) const { return newest_[i]; }
  [[nodiscard]] std::size_t target(std::size_t i) const { return target_[i]; }
  [[nodiscard]] Moment claim(std::size_t i) const { return claims_[i]; }
  /// The key at the end of the chain that begins with this one.
  [[nodiscard]] std::string_view place_of(std::string_view key) const {
    for (auto at = of_key_.find(key); at != of_key_.end() && !is_place(at->second);
         at = of_key_.find(key)) {
      key = entries_[at->second].corrects;
    }
    return key;
  }

  /// Whether it says anything: it is not taken back, and it is sound or a sound entry stands for
  /// it.
  [[nodiscard]] bool counts(std::size_t i) const {
    const std::size_t by = newest_[i];
    if (by == kNone) {
      return !is_lost(i) && !entries_[i].edited;
    }
    return entries_[content_[by]].kind != Kind::note;
  }

 private:
  void cut_circles() {
    enum class Seen : unsigned char { not_yet, on_path, done };
    std::vector<Seen> seen(size(), Seen::not_yet);
    std::vector<std::size_t> path;
    for (std::size_t start = 0; start < size(); ++start) {
      path.clear();
      std::size_t i = start;
      while (i != kNone && seen[i] == Seen::not_yet) {
        seen[i] = Seen::on_path;
        path.push_back(i);
        i = target_[i];
      }
      if (i != kNone && seen[i] == Seen::on_path) {
        const auto circle = std::ranges::find(path, i);
        std::for_each(circle, path.end(), [this](std::size_t on) { target_[on] = kNone; });
      }
      for (const std::size_t on : path) {
        seen[on] = Seen::done;
        order_.push_back(on);  // its target may stand behind it: sorted by depth below
      }
    }
  }

  /// From the last correction of each chain down to its place.
  void settle() {
    std::vector<std::size_t> depth(size(), kNone);
    std::vector<std::size_t> chain;
    for (std::size_t i = 0; i < size(); ++i) {
      chain.clear();
      std::size_t at = i;
      while (at != kNone && depth[at] == kNone) {
        chain.push_back(at);
        at = target_[at];
      }
      std::size_t below = at == kNone ? 0 : depth[at] + 1;
      for (auto link = chain.rbegin(); link != chain.rend(); ++link) {
        depth[*link] = below++;
      }
    }
    std::ranges::stable_sort(order_, std::ranges::greater{},
                             [&depth](std::size_t i) { return depth[i]; });
    for (const std::size_t i : order_) {
      content_[i] = newest_[i] == kNone ? i : content_[newest_[i]];
      const std::size_t t = target_[i];
      if (t != kNone && counts(i) && (newest_[t] == kNone || is_newer(i, newest_[t]))) {
        newest_[t] = i;
      }
    }
  }

  [[nodiscard]] bool is_newer(std::size_t a, std::size_t b) const {
    return std::tuple(claims_[a], a) > std::tuple(claims_[b], b);
  }

  const std::vector<Entry>& entries_;
  std::vector<Moment> claims_;
  std::unordered_map<std::string_view, std::size_t> of_key_;
  std::vector<std::size_t> target_;   ///< the entry it corrects
  std::vector<std::size_t> newest_;   ///< the newest that corrects it and counts
  std::vector<std::size_t> content_;  ///< what was said last in its place
  std::vector<std::size_t> order_;    ///< the last of each chain first
};

/// A place with its time, for putting it in order.
struct Timed {
  Moment time;
  Standing standing;
};

/// What counts in a place.
Timed timed(const std::vector<Entry>& entries, const Corrections& corrections, std::size_t place) {
  // Of an entry that is not there, the correction stands in its place.
  const std::size_t line = corrections.is_lost(place) ? corrections.newest(place) : place;
  const Entry& e = entries[line];
  const auto of_key = records::moment_of_key(corrections.is_lost(place) ? e.corrects : e.key);
  const auto at = of_key || !corrections.is_lost(place) ? of_key : records::moment_of_key(e.key);
  return {at.value_or(corrections.claim(line)), {corrections.content(place), &e, line, at}};
}

/// By place: what counts there, in the order of its time.
std::vector<Standing> places(const std::vector<Entry>& entries, const Corrections& corrections) {
  std::vector<Timed> all;
  for (std::size_t i = 0; i < corrections.size(); ++i) {
    if (corrections.is_place(i) && corrections.content(i) != nullptr) {
      all.push_back(timed(entries, corrections, i));
    }
  }
  std::ranges::sort(all, {}, [](const Timed& t) { return std::pair(t.time, t.standing.index); });
  std::vector<Standing> sorted;
  sorted.reserve(all.size());
  std::ranges::transform(all, std::back_inserter(sorted), &Timed::standing);
  return sorted;
}

}  // namespace

std::string_view place_of(const std::vector<Entry>& entries, std::string_view key) {
  return Corrections(entries).place_of(key);
}

StandingEntries standing_of(const std::vector<Entry>& entries) {
  const Corrections corrections(entries);
  StandingEntries out;
  out.entries = places(entries, corrections);
  out.replaced_by.assign(entries.size(), nullptr);
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const std::size_t by = corrections.newest(i);
    if (by != kNone) {
      out.replaced_by[i] = &entries[by];
    }
    const std::size_t target = corrections.target(i);
    if (target != kNone && corrections.counts(i) && corrections.newest(target) != i) {
      out.superseded.push_back({&entries[i], &entries[corrections.newest(target)]});
    }
  }
  return out;
}

}  // namespace loopledger::motor
