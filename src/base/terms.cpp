// SPDX-License-Identifier: MIT
#include "base/terms.h"

#include <string>
#include <utility>

#include "base/text.h"

namespace loopledger {
namespace {

template <class E, std::size_t N>
using Words = std::array<std::pair<E, std::string_view>, N>;

constexpr Words<Stage, 4> kStageWords{{{Stage::as_cut, "as_cut"},
                                       {Stage::washed, "washed"},
                                       {Stage::tied, "tied"},
                                       {Stage::finished, "finished"}}};
constexpr Words<Weighed, 2> kWeighedWords{{{Weighed::fresh, "fresh"}, {Weighed::rested, "rested"}}};
constexpr Words<WindEnd, 3> kWindEndWords{
    {{WindEnd::broke, "broke"}, {WindEnd::solid, "solid"}, {WindEnd::stopped, "stopped"}}};
constexpr Words<BreakPlace, 3> kBreakPlaceWords{
    {{BreakPlace::knot, "knot"}, {BreakPlace::hook, "hook"}, {BreakPlace::middle, "middle"}}};

constexpr Words<LoopIs, 3> kLoopIsWords{
    {{LoopIs::planned, "planned"}, {LoopIs::tied, "tied"}, {LoopIs::broken_in, "broken_in"}}};
constexpr Words<LoopIs, 3> kLoopIsSpoken{
    {{LoopIs::planned, "as planned"}, {LoopIs::tied, "as tied"}, {LoopIs::broken_in, "broken in"}}};

template <class E, std::size_t N>
std::string_view word_of(E value, const Words<E, N>& words) {
  for (const auto& [e, w] : words) {
    if (e == value) {
      return w;
    }
  }
  return {};
}

template <class E, std::size_t N>
std::optional<E> value_of(std::string_view text, const Words<E, N>& words) {
  const std::string key = as_word(text);
  for (const auto& [e, w] : words) {
    if (w == key) {
      return e;
    }
  }
  return std::nullopt;
}

}  // namespace

std::string as_word(std::string_view text) {
  std::string key = lower_ascii(trimmed(text));
  for (char& c : key) {
    if (c == ' ' || c == '-') {
      c = '_';
    }
  }
  return key;
}

std::vector<std::string_view> words(const Counts& counts) {
  std::vector<std::string_view> out;
  for (const auto& [name, part] : kCountWords) {
    if (counts.*part) {
      out.push_back(name);
    }
  }
  return out;
}

std::string listed(const Counts& counts) {
  std::string out;
  for (const std::string_view word : words(counts)) {
    out += out.empty() ? "" : ", ";
    out += word;
  }
  return out;
}

bool Counts::*count_from(std::string_view text) {
  const std::string key = as_word(text);
  for (const auto& [name, part] : kCountWords) {
    if (key == name) {
      return part;
    }
  }
  return key == "ring" ? &Counts::rings : nullptr;
}

std::string_view word(Stage stage) { return word_of(stage, kStageWords); }
std::string_view word(Weighed weighed) { return word_of(weighed, kWeighedWords); }
std::string_view word(WindEnd end) { return word_of(end, kWindEndWords); }
std::string_view word(BreakPlace place) { return word_of(place, kBreakPlaceWords); }

std::string_view word(LoopIs loop) { return word_of(loop, kLoopIsWords); }
std::string_view spoken(LoopIs loop) { return word_of(loop, kLoopIsSpoken); }

std::optional<Stage> stage_from(std::string_view text) { return value_of(text, kStageWords); }
std::optional<Weighed> weighed_from(std::string_view text) { return value_of(text, kWeighedWords); }
std::optional<WindEnd> wind_end_from(std::string_view text) {
  return value_of(text, kWindEndWords);
}
std::optional<BreakPlace> break_place_from(std::string_view text) {
  return value_of(text, kBreakPlaceWords);
}

}  // namespace loopledger
