// SPDX-License-Identifier: MIT
//
// Slips of the ruler.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.h"
#include "calc/weigh.h"
#include "motor/doubts_rules.h"

namespace loopledger::motor {
namespace {

using records::Entry;
using records::Kind;
using records::Planned;

/// What a loop may be, and what says so.
struct LoopRange {
  Length low;
  Length high;
  Length expected;
  std::string source;  ///< "the mass says", "as planned it is"
};

/// A new knot of rubber that was worked: cut shorter, never longer.
LoopRange of_loop_before(const AskedEntry& a) {
  const Length before = std::max(a.now.loop, a.now.loop_as_tied);
  const Length more = loop_tolerance(a.p(), a.now.rubber.value_or(a.p().aim));
  return {before * kLeastNewKnot, before + more, before, "before this knot it was"};
}

LoopRange of_mass_or_plan(const AskedEntry& a) {
  const Planned& p = a.p();
  Readings read = a.now.read;
  std::optional<Mass> rubber = a.now.rubber;
  Stage stage = read.finished ? Stage::finished : read.tied ? Stage::tied : Stage::washed;
  if (a.entry.reading && a.entry.kind == Kind::tied) {  // tied and weighed in one line
    rubber = calc::rubber_in(p, Stage::tied, *a.entry.reading);
    read.tied = a.entry.reading;
    stage = Stage::tied;
  }
  const bool off_scale = rubber && (*rubber > p.aim * kMassNear || *rubber < p.aim / kMassNear);
  const bool own = a.entry.reading.has_value();
  if (!rubber || *rubber <= Mass{} || p.linear_density.value <= LinearDensity{} ||
      (own && off_scale)) {
    return {p.loop * (1 - kPlannedLoopNear), p.loop * (1 + kPlannedLoopNear), p.loop,
            "as planned it is"};
  }
  const Length expected = loop_of_mass(p, *rubber);
  const Length tolerance = loop_tolerance(p, *rubber);
  // Washed strip over its window is snipped before it is tied, to the planned loop at the least.
  const bool snipped = stage == Stage::washed && read.washed &&
                       calc::judge(p, stage, *read.washed).verdict == calc::Verdict::over;
  const Length least = snipped ? std::min(expected, p.loop) : expected;
  return {least - tolerance, expected + tolerance, expected, "the mass says"};
}

LoopRange of_loop_as_tied(const AskedEntry& a, std::optional<Length> before) {
  const Planned& p = a.p();
  if (a.now.tied_measured || before) {
    const Length tied = a.now.tied_measured ? a.now.loop_as_tied : *before;
    return {tied - p.ruler_step, tied * (1 + kMostGrowth), tied, "as tied it is"};
  }
  const LoopRange r = of_mass_or_plan(a);
  return {r.low, r.high * (1 + kMostGrowth), r.expected, r.source};
}

bool fits(const LoopRange& range, Length loop) {
  return loop.in_si() >= range.low.in_si() - 1e-9 && loop.in_si() <= range.high.in_si() + 1e-9;
}

/// The same number in another unit; empty: none fits. Only a number that was typed can be meant.
std::string in_another_unit(const LoopRange& range, std::string_view typed, Length loop) {
  const auto first = typed.find_first_not_of("0123456789.");
  const std::string number(trimmed(typed.substr(0, first)));
  const auto value = number_from(number);
  if (!value) {
    return {};
  }
  const std::array<std::pair<const char*, Length>, 4> units{{{"mm", Length::mm(*value)},
                                                             {"cm", Length::mm(*value * 10)},
                                                             {"in", Length::in(*value)},
                                                             {"m", Length::m(*value)}}};
  for (const auto& [unit, meant] : units) {
    if (fits(range, meant) && std::fabs((meant - loop).in_si()) > 1e-9) {
      return fmt::format("{} {}", number, unit);
    }
  }
  return {};
}

/// The typed number with two of its digits swapped, where that fits; of several the nearest.
std::string with_digits_swapped(const LoopRange& range, const std::string& typed) {
  std::string best;
  double off = 0;
  for (std::size_t i = 0; i < typed.size(); ++i) {
    for (std::size_t j = i + 1; j < typed.size(); ++j) {
      if (!is_digit(typed[i]) || !is_digit(typed[j]) || typed[i] == typed[j]) {
        continue;
      }
      std::string other = typed;
      std::swap(other[i], other[j]);
      const auto length = length_from(other);
      if (length && fits(range, *length)) {
        const double by = std::fabs((*length - range.expected).in_si());
        if (best.empty() || by < off) {
          best = other;
          off = by;
        }
      }
    }
  }
  return best;
}

void ask_loop(const AskedEntry& a, const char* field, const char* what, Length loop,
              const LoopRange& range) {
  if (fits(range, loop)) {
    return;
  }
  const std::string typed = typed_or(a.entry, field, shown(loop, a.context.units));
  const std::string about = shown(range.expected, a.context.units);
  std::string says = fmt::format("does not fit: {} about {}", range.source, about);
  if (range.source.starts_with("as planned")) {
    says = fmt::format("is far from the planned {}", about);
  } else if (!range.source.starts_with("the mass")) {
    says = fmt::format("does not fit: {} {}", range.source, about);
  }
  const std::string whole = fmt::format("{} of {}", what, typed);
  if (const std::string unit = in_another_unit(range, typed, loop); !unit.empty()) {
    a.add(Slip::unit, whole, says + fmt::format(", looks like {}", unit), unit, unit);
  } else if (const std::string other = with_digits_swapped(range, typed); !other.empty()) {
    a.add(Slip::digits, whole, says + ", two digits swapped", other, other);
  } else {
    a.add(Slip::loop, whole, says);
  }
}

}  // namespace

void ask_loops(const AskedEntry& a) {
  const Entry& e = a.entry;
  if (e.kind == Kind::tied && e.loop) {
    const bool worked = a.now.state >= State::broken_in;
    ask_loop(a, "loop", "a loop", *e.loop, worked ? of_loop_before(a) : of_mass_or_plan(a));
  }
  if (e.kind == Kind::tied && !e.loop && a.now.state >= State::broken_in) {
    const Mass rubber = e.reading ? calc::rubber_in(a.p(), Stage::tied, *e.reading) : Mass{};
    const std::string about =
        rubber > Mass{} ? "loop=" + shown(loop_of_mass(a.p(), rubber), a.context.units) : "";
    a.add(Slip::loop, "a new knot",
          "needs its loop (loop=… mm), or its turns are those of the planned one", about, about);
  }
  if (e.kind == Kind::break_in && e.loop_before) {
    ask_loop(a, "loop_before", "a loop before break-in", *e.loop_before,
             of_loop_as_tied(a, std::nullopt));
  }
  if (e.kind == Kind::break_in && e.loop_after) {
    ask_loop(a, "loop_after", "a loop after break-in", *e.loop_after,
             of_loop_as_tied(a, e.loop_before));
  }
}

}  // namespace loopledger::motor
