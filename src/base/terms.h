// SPDX-License-Identifier: MIT
//
// The few words of the trade that every stage shares, as types: the stages at which a motor is
// weighed, what a rule counts, how a winding ended. Text <-> word lives here so that a plan, a
// record and the command line read them alike.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace loopledger {

/// Where a motor is on its way over the scale, in order.
enum class Stage { as_cut, washed, tied, finished };
inline constexpr std::array kStages{Stage::as_cut, Stage::washed, Stage::tied, Stage::finished};

/// What of a motor a rule counts. Rubber always counts.
struct Counts {
  bool rubber = true;
  bool lubricant = false;
  bool rings = false;
  bool adhesive = false;
  friend bool operator==(const Counts&, const Counts&) = default;
};

/// Each part with its word, in the order in which they are written.
inline constexpr std::array<std::pair<std::string_view, bool Counts::*>, 4> kCountWords{
    {{"rubber", &Counts::rubber},
     {"lubricant", &Counts::lubricant},
     {"rings", &Counts::rings},
     {"adhesive", &Counts::adhesive}}};
/// The words of what counts: "rubber", "rings".
[[nodiscard]] std::vector<std::string_view> words(const Counts& counts);
/// The same as one text: "rubber, rings".
[[nodiscard]] std::string listed(const Counts& counts);
/// The part of a word, in any case; "ring" is "rings". Null when it is none.
[[nodiscard]] bool Counts::*count_from(std::string_view text);

/// When the rule weighs: with lubricant just rubbed in, or with what is left of it later.
enum class Weighed { fresh, rested };

/// How a winding ended. Only `broke` and `solid` tell the largest number of turns.
enum class WindEnd { broke, solid, stopped };

/// Where a motor broke.
enum class BreakPlace { knot, hook, middle };

/// What a loop length is the length of. As tied unless it says broken in.
enum class LoopIs { planned, tied, broken_in };

/// "as_cut", "washed", "tied", "finished": the words used in files and in JSON.
[[nodiscard]] std::string_view word(Stage stage);
[[nodiscard]] std::string_view word(Weighed weighed);
[[nodiscard]] std::string_view word(WindEnd end);
[[nodiscard]] std::string_view word(BreakPlace place);
[[nodiscard]] std::string_view word(LoopIs loop);
/// "as planned", "as tied", "broken in"
[[nodiscard]] std::string_view spoken(LoopIs loop);

/// Text as a word of files: "break_in" of " Break in" and "break-in".
[[nodiscard]] std::string as_word(std::string_view text);

/// The word read back, in any case; `as cut` and `as-cut` are `as_cut`. Empty when it is none.
[[nodiscard]] std::optional<Stage> stage_from(std::string_view text);
[[nodiscard]] std::optional<Weighed> weighed_from(std::string_view text);
[[nodiscard]] std::optional<WindEnd> wind_end_from(std::string_view text);
[[nodiscard]] std::optional<BreakPlace> break_place_from(std::string_view text);

}  // namespace loopledger
