// SPDX-License-Identifier: MIT
#include "commands/match_choice.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <optional>

#include "base/text.h"

namespace loopledger::commands {
namespace {

using calc::MatchBy;

struct FigureOfMatch {
  const char* word;
  const char* missing;  ///< "without …"
  bool MatchBy::*asked;
  bool (*logged)(const MotorRow&);
};

constexpr std::array<FigureOfMatch, 3> kFigures{
    {{"mass", "a washed mass", &MatchBy::mass,
      [](const MotorRow& r) { return r.washed.has_value(); }},
     {"loop", "a loop", &MatchBy::loop,
      [](const MotorRow& r) { return r.loop_is != LoopIs::planned; }},
     {"torque", "a torque", &MatchBy::torque,
      [](const MotorRow& r) { return r.best && r.best->torque; }}}};

constexpr MatchBy kNone{false, false, false};

int how_many(MatchBy by) { return int{by.mass} + int{by.loop} + int{by.torque}; }

/// The figures asked for that were not logged.
MatchBy unlogged(const MotorRow& row, MatchBy by) {
  MatchBy out = kNone;
  for (const FigureOfMatch& f : kFigures) {
    out.*f.asked = by.*f.asked && !f.logged(row);
  }
  return out;
}

bool same(MatchBy a, MatchBy b) {
  return a.mass == b.mass && a.loop == b.loop && a.torque == b.torque;
}

/// All sets of figures, most figures first; of as many, the one without torque first: it comes
/// last in a motor's life.
std::vector<MatchBy> sets_of_figures() {
  std::vector<MatchBy> sets;
  for (unsigned bits = 1; bits < 8; ++bits) {
    sets.push_back({(bits & 1U) != 0, (bits & 2U) != 0, (bits & 4U) != 0});
  }
  std::ranges::stable_sort(sets, [](MatchBy a, MatchBy b) { return how_many(a) > how_many(b); });
  return sets;
}

void leave_out(std::vector<LeftOut>& list, const char* reason, MatchBy without, int motors) {
  if (motors == 0) {
    return;
  }
  const auto there = std::ranges::find_if(
      list, [&](const LeftOut& one) { return one.reason == reason && same(one.without, without); });
  if (there != list.end()) {
    there->motors += motors;
  } else {
    list.push_back({reason, without, motors});
  }
}

std::string why_left_out(const LeftOut& one) {
  if (one.reason == "unreadable") {
    return fmt::format("{} record{} can't be read", one.motors, one.motors == 1 ? "" : "s");
  }
  if (one.reason == "not_logged") {
    std::vector<std::string_view> words;
    for (const FigureOfMatch& f : kFigures) {
      if (one.without.*f.asked) {
        words.emplace_back(f.missing);
      }
    }
    return fmt::format("{} without {}", one.motors, either(words));
  }
  return fmt::format("{} {}", one.motors, one.reason == "retired" ? "retired" : "not tied yet");
}

/// Fewer of the figures asked for that leave at least so many motors, and most figures; empty:
/// none.
std::optional<std::pair<MatchBy, int>> with_fewer(const MatchChoice& choice, MatchBy by,
                                                  std::size_t motors) {
  for (const auto& [figures, left] : choice.would_be) {
    const bool fewer = how_many(figures) < how_many(by) && (!figures.mass || by.mass) &&
                       (!figures.loop || by.loop) && (!figures.torque || by.torque);
    if (fewer && static_cast<std::size_t>(left) >= motors) {
      return std::pair(figures, left);
    }
  }
  return std::nullopt;
}

/// What would help, in the order in which it would be tried.
std::string what_would_help(const MatchChoice& choice, std::size_t wanted, const RowFilter& only,
                            MatchBy by) {
  if (const auto fewer = with_fewer(choice, by, wanted)) {
    return fmt::format("--by {} would leave {} to choose from", by_text(fewer->first),
                       fewer->second);
  }
  const auto some_more = with_fewer(choice, by, std::max<std::size_t>(choice.rows.size() + 1, 2));
  std::string also = some_more ? fmt::format("--by {} would leave {}", by_text(some_more->first),
                                             some_more->second)
                               : std::string();
  if (choice.rows.size() >= 2) {
    return fmt::format("`loopledger match {}` is the most that can be had{}", choice.rows.size(),
                       also.empty() ? "" : "; " + also);
  }
  if (!also.empty()) {
    return also;
  }
  if (choice.looked_at == 0) {
    return only.text().empty() ? "`loopledger print PLAN` opens a record for each motor"
                               : "`loopledger list` shows which motors there are";
  }
  return "a motor can be chosen once it is tied, and weighed, measured and wound in its record: "
         "`loopledger log`";
}

}  // namespace

std::vector<std::string> figure_words() {
  return by_words({});  // all of them
}

MatchBy match_by(const std::vector<std::string>& words) {
  MatchBy by = kNone;
  for (const FigureOfMatch& f : kFigures) {
    by.*f.asked = std::ranges::find(words, f.word) != words.end();
  }
  return by;
}

std::vector<std::string> by_words(MatchBy by) {
  std::vector<std::string> words;
  for (const FigureOfMatch& f : kFigures) {
    if (by.*f.asked) {
      words.emplace_back(f.word);
    }
  }
  return words;
}

std::string by_text(MatchBy by) { return fmt::format("{}", fmt::join(by_words(by), ",")); }

MatchChoice match_choice(const std::vector<MotorRow>& rows, const RowFilter& only, MatchBy by,
                         int unreadable) {
  MatchChoice choice;
  for (const MatchBy set : sets_of_figures()) {
    choice.would_be.emplace_back(set, 0);
  }
  int retired = 0;
  int not_tied = 0;
  for (const MotorRow& row : rows) {
    if (!only.takes(row)) {
      continue;
    }
    ++choice.looked_at;
    if (row.state == motor::State::retired || row.state == motor::State::planned) {
      ++(row.state == motor::State::retired ? retired : not_tied);
      continue;
    }
    for (auto& [figures, motors] : choice.would_be) {
      motors += how_many(unlogged(row, figures)) == 0 ? 1 : 0;
    }
    if (const MatchBy without = unlogged(row, by); how_many(without) > 0) {
      leave_out(choice.left_out, "not_logged", without, 1);
    } else {
      choice.rows.push_back(row);
    }
  }
  std::ranges::stable_sort(choice.left_out, std::ranges::greater{}, &LeftOut::motors);
  leave_out(choice.left_out, "not_tied", kNone, not_tied);
  leave_out(choice.left_out, "retired", kNone, retired);
  leave_out(choice.left_out, "unreadable", kNone, unreadable);
  return choice;
}

std::string left_out_text(const std::vector<LeftOut>& left_out) {
  std::string out;
  for (const LeftOut& one : left_out) {
    out += (out.empty() ? "" : ", ") + why_left_out(one);
  }
  return out;
}

Diagnostic too_few(const MatchChoice& choice, int wanted, const RowFilter& only, MatchBy by,
                   const std::string& folder) {
  const std::string with = only.text().empty() ? "" : " with " + only.text();
  const std::string found =
      choice.rows.empty() ? "none" : fmt::format("only {}", choice.rows.size());
  const std::string out = left_out_text(choice.left_out);
  return error("none-enough",
               fmt::format("expected {} motors to choose from in {}{}, found {}{}", wanted, folder,
                           with, found, out.empty() ? "" : "; left out: " + out),
               what_would_help(choice, static_cast<std::size_t>(wanted), only, by));
}

}  // namespace loopledger::commands
