// SPDX-License-Identifier: MIT
#include "cutting/cut_failed.h"

namespace loopledger::cutting {
namespace {

constexpr unsigned kFirstBits = 10;
constexpr unsigned kMostBits = 16;  // 65,536 entries of 64 bytes: 4 MB
constexpr std::uint64_t kMostPlaces = 1U << 16;

}  // namespace

Failed::Failed(const Counts& most) : most_(most), bits_(kFirstBits) {
  std::size_t word = 0;
  std::uint64_t states = kMostPlaces;  // the first word begins with the place
  for (const int count : most_) {
    const auto radix = static_cast<std::uint64_t>(count) + 1;
    if (states > (std::uint64_t{1} << 62U) / radix) {
      ++word;
      states = 1;
    }
    states *= radix;
    word_.push_back(word);
  }
  fits_ = word < Key{}.size();
  if (fits_) {
    entries_.resize(std::size_t{1} << bits_);
  }
}

std::optional<Failed::Key> Failed::key(std::size_t place, const Counts& counts) const {
  if (!fits_ || place >= kMostPlaces) {
    return std::nullopt;
  }
  Key key{};
  key[0] = place;
  for (std::size_t t = 0; t < counts.size(); ++t) {
    std::uint64_t& word = key[word_[t]];
    word =
        word * (static_cast<std::uint64_t>(most_[t]) + 1) + static_cast<std::uint64_t>(counts[t]);
  }
  return key;
}

std::size_t Failed::slot(const Key& key) const {
  std::uint64_t hash = 0x9E3779B97F4A7C15U;
  for (const std::uint64_t word : key) {
    hash = (hash ^ word) * 0xBF58476D1CE4E5B9U;
    hash ^= hash >> 29U;
  }
  return hash >> (64U - bits_);
}

bool Failed::holds(const Key& key, const Allowance& allowance) const {
  const Entry& entry = entries_[slot(key)];
  return entry.used && entry.key == key && entry.allowance.scrap >= allowance.scrap &&
         entry.allowance.touched >= allowance.touched && (!entry.allowance.need || allowance.need);
}

void Failed::grow() {
  bits_ += 2;
  std::vector<Entry> old(std::size_t{1} << bits_);
  old.swap(entries_);
  used_ = 0;
  for (const Entry& entry : old) {
    if (entry.used) {
      Entry& place = entries_[slot(entry.key)];
      used_ += place.used ? 0 : 1;
      place = entry;
    }
  }
}

void Failed::add(const Key& key, const Allowance& allowance) {
  if (bits_ < kMostBits && used_ > entries_.size() / 2) {
    grow();
  }
  Entry& entry = entries_[slot(key)];
  used_ += entry.used ? 0 : 1;
  entry = {key, allowance, true};
}

}  // namespace loopledger::cutting
