// SPDX-License-Identifier: MIT
#include "motor/standing.h"

#include <algorithm>
#include <limits>
#include <string_view>
#include <tuple>
#include <unordered_map>

#include "records/fields.h"

namespace loopledger::motor {
namespace {

using records::Entry;
using records::Kind;

constexpr std::size_t kNone = static_cast<std::size_t>(-1);

/// The corrections of a record as a forest: each entry and the one that it corrects.
class Corrections {
 public:
  explicit Corrections(const std::vector<Entry>& entries)
      : entries_(entries),
        target_(entries.size(), kNone),
        newest_(entries.size(), kNone),
        content_(entries.size()),
        is_lost_(entries.size(), false) {
    std::unordered_map<std::string_view, std::size_t> at;
    for (std::size_t i = 0; i < entries.size(); ++i) {
      at.try_emplace(entries[i].key, i);
    }
    for (std::size_t i = 0; i < entries.size(); ++i) {
      const auto found = entries[i].corrects.empty() ? at.end() : at.find(entries[i].corrects);
      target_[i] = found == at.end() ? kNone : found->second;
      is_lost_[i] = !entries[i].corrects.empty() && found == at.end();
    }
    cut_circles();
    settle();
  }

  /// Stands in its own place: it corrects nothing that is there.
  [[nodiscard]] bool is_place(std::size_t i) const { return target_[i] == kNone; }
  /// What counts in this place.
  [[nodiscard]] const Entry& content(std::size_t i) const { return entries_[content_[i]]; }
  /// It corrects an entry that the record does not have.
  [[nodiscard]] bool is_lost(std::size_t i) const { return is_lost_[i]; }
  [[nodiscard]] std::size_t newest(std::size_t i) const { return newest_[i]; }
  [[nodiscard]] std::size_t target(std::size_t i) const { return target_[i]; }

  /// Whether it replaces anything: it is not taken back, and it is sound or a sound entry stands
  /// for it.
  [[nodiscard]] bool counts(std::size_t i) const {
    const std::size_t by = newest_[i];
    if (by == kNone) {
      return !entries_[i].edited;
    }
    return content(by).kind != Kind::note;
  }

 private:
  void cut_circles() {
    enum : unsigned char { kNew, kOnPath, kDone };
    std::vector<unsigned char> seen(entries_.size(), kNew);
    std::vector<std::size_t> path;
    for (std::size_t start = 0; start < entries_.size(); ++start) {
      path.clear();
      std::size_t i = start;
      while (i != kNone && seen[i] == kNew) {
        seen[i] = kOnPath;
        path.push_back(i);
        i = target_[i];
      }
      if (i != kNone && seen[i] == kOnPath) {
        const auto circle = std::ranges::find(path, i);
        std::for_each(circle, path.end(), [this](std::size_t on) { target_[on] = kNone; });
      }
      for (const std::size_t on : path) {
        seen[on] = kDone;
        order_.push_back(on);  // its target may stand behind it: sorted by depth below
      }
    }
  }

  /// From the last correction of each chain down to its place.
  void settle() {
    std::vector<std::size_t> depth(entries_.size(), kNone);
    std::vector<std::size_t> chain;
    for (std::size_t i = 0; i < entries_.size(); ++i) {
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
    const auto rank = [this](std::size_t i) {
      return std::tuple(records::moment_of_key(entries_[i].key).value_or(Moment{}), i);
    };
    return rank(a) > rank(b);
  }

  const std::vector<Entry>& entries_;
  std::vector<std::size_t> target_;   ///< the entry it corrects
  std::vector<std::size_t> newest_;   ///< the newest that corrects it and counts
  std::vector<std::size_t> content_;  ///< what counts in its place
  std::vector<bool> is_lost_;
  std::vector<std::size_t> order_;  ///< the last of each chain first
};

/// By place: what counts there, with its time.
std::vector<Standing> places(const std::vector<Entry>& entries, const Corrections& corrections) {
  std::vector<Standing> out;
  Moment before{std::numeric_limits<std::int64_t>::min()};
  std::vector<Moment> times;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const Entry& e = entries[i];
    if (!corrections.is_place(i)) {
      continue;
    }
    const auto of_lost = corrections.is_lost(i) ? records::moment_of_key(e.corrects) : std::nullopt;
    const auto at = of_lost ? of_lost : records::moment_of_key(e.key);
    const Moment time = at.value_or(before);
    if (!e.edited) {
      before = time;
    }
    const Entry& content = corrections.content(i);
    if (!content.edited) {
      out.push_back({&content, &e, i, at});
      times.push_back(time);
    }
  }
  std::vector<std::size_t> order(out.size());
  for (std::size_t i = 0; i < order.size(); ++i) {
    order[i] = i;
  }
  std::ranges::stable_sort(order, {}, [&times](std::size_t i) { return times[i]; });
  std::vector<Standing> sorted;
  sorted.reserve(out.size());
  for (const std::size_t i : order) {
    sorted.push_back(out[i]);
  }
  return sorted;
}

}  // namespace

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
