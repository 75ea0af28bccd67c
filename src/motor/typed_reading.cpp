// SPDX-License-Identifier: MIT
#include "motor/typed_reading.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/number_text.h"
#include "base/text.h"
#include "calc/break_in.h"
#include "calc/weigh.h"
#include "motor/typed_entry.h"
#include "motor/words.h"
#include "records/fields.h"

namespace loopledger::motor {
namespace {

using records::Entry;
using records::Kind;
using records::Planned;
using records::Record;

/// A number is what is wanted within this factor of what that should be. Common sense, no source.
constexpr double kNearWanted = 1.35;

Stage stage_of(Asked what) {
  return what == Asked::tied       ? Stage::tied
         : what == Asked::finished ? Stage::finished
                                   : Stage::washed;
}

bool asks_mass(Asked what) {
  return what == Asked::washed || what == Asked::tied || what == Asked::finished;
}

/// Of what comes on at a stage, the share from which a heavier reading is taken for that stage: one
/// ring of two forgotten is still more. Common sense, no source.
constexpr double kComesOn = 0.3;

/// Washed, and still to be snipped.
bool is_over_washed(const Planned& p, const motor::Now& now) {
  return now.read.washed &&
         calc::judge(p, Stage::washed, *now.read.washed).verdict == calc::Verdict::over;
}

/// The stage that a reading belongs to when nothing says so: what is wanted, else what was weighed
/// last; a first reading may still have talc on.
Stage inferred_stage(const Record& record, const motor::Now& now, const std::optional<Want>& want,
                     Mass reading) {
  const motor::Readings& read = now.read;
  const Planned& p = record.planned;
  if (want && asks_mass(want->what)) {
    const auto washed = motor::expected_reading(p, Stage::washed);
    const bool first = !read.as_cut && !read.washed && !read.tied && !read.finished;
    if (first && washed && p.windows.about) {
      const double to_washed = std::fabs((reading - *washed).in_mg());
      const double to_cut = std::fabs((reading - *p.windows.about).in_mg());
      return to_cut < to_washed ? Stage::as_cut : Stage::washed;
    }
    return stage_of(want->what);
  }
  // Not asked for: weighed again, or the next stage already. What it should read there is known
  // from the stage before; a trimmed motor can only have become lighter. Tails that outweigh what
  // comes on make the next stage the lighter one.
  const auto nearer_next = [&](Mass before, Mass comes_on) {
    if (comes_on > Mass{}) {
      return reading > before + kComesOn * comes_on;
    }
    return comes_on < Mass{} && reading < before + comes_on / 2;
  };
  if (read.finished) {
    return Stage::finished;
  }
  if (read.tied) {
    return nearer_next(*read.tied, p.uptake.value.as_ratio() * p.aim) ? Stage::finished
                                                                      : Stage::tied;
  }
  if (now.loop_is != LoopIs::planned) {
    return Stage::tied;
  }
  if (!read.washed || is_over_washed(p, now)) {
    return Stage::washed;
  }
  const Mass rubber = calc::rubber_in(p, Stage::washed, *read.washed);
  const Mass comes_on = calc::reading_of(p, Stage::tied, rubber) - *read.washed;
  return nearer_next(*read.washed, comes_on) ? Stage::tied : Stage::washed;
}

Entry weighed(Stage stage, Mass reading) {
  Entry e;
  e.kind = Kind::weighed;
  e.stage = stage;
  e.reading = reading;
  return e;
}

/// @param typed the length as it was typed; empty: a number in the leading unit
Entry measured(Length loop, const std::string& typed, const std::optional<Want>& want) {
  Entry e;
  const bool broken_in = want && (want->what == Asked::loop_after || want->what == Asked::break_in);
  e.kind = broken_in || !want ? Kind::break_in : Kind::tied;
  const char* const name = e.kind == Kind::break_in ? "loop_after" : "loop";
  if (typed.empty() || !records::set_field(e, *records::find_field(e.kind, name), typed).empty()) {
    (e.kind == Kind::break_in ? e.loop_after : e.loop) = loop;
  }
  return e;
}

Entry turned(const std::optional<Want>& want) {
  Entry e;
  e.kind = want && want->what == Asked::break_in ? Kind::break_in : Kind::wound;
  if (e.kind == Kind::break_in) {
    e.step = want->step;
  }
  return e;
}

/// How far a value is from what is expected, in factors of ten.
double decades(double value, double expected) {
  return value > 0 && expected > 0 ? std::fabs(std::log10(value / expected)) : 99;
}

/// Grams, a length or turns: what is wanted if the number is near to it, else whichever it is
/// nearest to. A slip of the decimal point is then still taken for the reading it was meant to be.
Understood from_number(const Record& record, const motor::Now& now, double number,
                       const std::optional<Want>& want, Units units) {
  const Planned& p = record.planned;
  const Mass mass = Mass::g(number);
  const Length length = units == Units::inch ? Length::in(number) : Length::mm(number);
  const bool whole = number == std::floor(number) && number >= 1;
  const double to_mass = decades(mass.in_si(), p.aim.in_si());
  const double to_loop = decades(length.in_si(), p.loop.in_si());
  const double to_turns = whole ? decades(number, p.turns_max.value.count()) : 99;
  const Asked wanted = want ? want->what : Asked::wound;
  const bool wants_loop = wanted == Asked::tied_loop || wanted == Asked::loop_after;
  const bool wants_turns = !asks_mass(wanted) && !wants_loop;
  const double near = std::log10(kNearWanted);
  const bool is_loop = wants_loop && to_loop <= near;
  // Break-in steps are a share of the largest turns, so turns are given more room.
  const bool is_turns = wants_turns && to_turns <= 0.7;
  const bool is_mass = asks_mass(wanted) && to_mass <= near;
  const double least = std::min({to_mass, to_loop, to_turns});
  if (is_mass || (!is_loop && !is_turns && to_mass == least)) {
    return {.entry = weighed(inferred_stage(record, now, want, mass), mass),
            .stage_inferred = true};
  }
  if (is_loop || (!is_turns && to_loop == least)) {
    return {.entry = measured(length, {}, want)};
  }
  Entry turns = turned(want);
  turns.turns = Turns::of(number);
  return {.entry = std::move(turns),
          .turns_are = wants_turns ? motor::TurnsAre::asked_for : motor::TurnsAre::guessed};
}

/// "41 gf.cm", "1.776 g", "302 mm", "1180", or turns and torque together.
Result<Understood> from_values(const Record& record, const motor::Now& now,
                               const std::vector<std::string>& words,
                               const std::optional<Want>& want, Units units) {
  const std::string all = fmt::format("{}", fmt::join(words, " "));
  if (const auto number = number_from(all)) {
    return from_number(record, now, *number, want, units);
  }
  if (const auto mass = mass_from(all)) {
    return Understood{.entry = weighed(inferred_stage(record, now, want, *mass), *mass),
                      .stage_inferred = true};
  }
  if (const auto length = length_from(all)) {
    return Understood{.entry = measured(*length, all, want)};
  }
  // Turns, torque, how it ended: what `log` takes for a winding.
  const Entry winding = turned(want);
  auto entry = entry_from_words(std::string(records::word(winding.kind)), words);
  if (!entry) {
    return error("bench-value", fmt::format("can't tell what \"{}\" is", shortened(all, 40)),
                 has_decimal_comma(all)
                     ? "decimals stand behind a point: 1.776"
                     : "a reading such as 1.776, a loop such as 302 mm, turns such as 1180, or a "
                       "kind of entry before its values");
  }
  if (!entry->step) {
    entry->step = winding.step;
  }
  return Understood{.entry = std::move(*entry)};
}

/// "loop 302", "loop 302 mm".
Result<Understood> from_loop(const std::vector<std::string>& rest, const std::optional<Want>& want,
                             Units units) {
  const std::string all = fmt::format("{}", fmt::join(rest, " "));
  if (const auto number = number_from(all)) {
    return Understood{
        .entry =
            measured(units == Units::inch ? Length::in(*number) : Length::mm(*number), {}, want)};
  }
  const auto length = length_from(all);
  if (!length) {
    return length.diagnostics();
  }
  return Understood{.entry = measured(*length, all, want)};
}

/// An entry whose words are kept as they stand.
bool is_text(const std::vector<std::string>& words) {
  const auto kind = words.empty() ? std::nullopt : records::kind_from(words[0]);
  return kind == Kind::note || kind == Kind::retired || kind == Kind::labelled ||
         kind == Kind::piece;
}

/// "as cut" is one word.
std::vector<std::string> with_stages_whole(const std::vector<std::string>& words) {
  std::vector<std::string> out;
  for (const std::string& word : words) {
    if (!out.empty() && lower_ascii(word) == "cut" && lower_ascii(out.back()) == "as") {
      out.back() = std::string(loopledger::word(Stage::as_cut));
    } else {
      out.push_back(word);
    }
  }
  return out;
}

/// "1.22 washed": a stage behind its reading.
bool ends_in_stage(const std::vector<std::string>& words) {
  return words.size() > 1 && stage_from(words.back()) &&
         (number_from(words[0]) || mass_from(words[0]));
}

std::vector<std::string> behind_first(const std::vector<std::string>& words) {
  return {words.begin() + 1, words.end()};
}

}  // namespace

std::optional<Want> next_want(const Record& record, const motor::Now& now) {
  const Planned& p = record.planned;
  const motor::Readings& read = now.read;
  if (now.state == motor::State::retired) {
    return std::nullopt;
  }
  const bool loop_known = now.loop_is != LoopIs::planned;
  const bool broken_in = now.loop_is == LoopIs::broken_in;
  const bool wound_already = now.windings > 0;
  if (!wound_already && !broken_in) {
    const bool is_washed = read.washed && !is_over_washed(p, now);
    if (!read.tied && !read.finished && !loop_known && !is_washed) {
      return Want{Asked::washed, 0};
    }
    if (!loop_known) {
      return Want{Asked::tied_loop, 0};
    }
    const bool changes = p.rings.value + p.adhesive_mass.value > Mass{} || p.tails > Length{};
    if (!read.tied && !read.finished && changes) {
      return Want{Asked::tied, 0};
    }
    if (!read.finished && !p.lubricant.empty()) {
      return Want{Asked::finished, 0};
    }
  }
  if (now.winding_step) {
    return Want{Asked::break_in, static_cast<int>(now.winding_step->index) + 1};
  }
  if (!p.break_in.empty() && !broken_in && !wound_already) {
    return Want{Asked::loop_after, 0};
  }
  return std::nullopt;
}

std::string short_question(const Want& want) {
  switch (want.what) {
    case Asked::washed:
    case Asked::tied:
    case Asked::finished:
      return std::string(word(stage_of(want.what))) + ", g";
    case Asked::tied_loop:
      return "loop as tied";
    case Asked::loop_after:
      return "loop after break-in";
    case Asked::break_in:
      return fmt::format("break-in step {}", want.step);
    case Asked::wound:
      break;
  }
  return "turns wound";
}

std::string question(const Want& want, const Record& record, const motor::Now& now, Units units) {
  const Planned& p = record.planned;
  const auto window = [&p](Stage stage) {
    const records::Window w = calc::scale_window(p, stage);
    return w.low && w.high ? fmt::format("{}, g ({}–{})", spoken(stage) + with_tails(stage, p),
                                         grams(*w.low, p.scale_step), grams(*w.high, p.scale_step))
                           : spoken(stage) + with_tails(stage, p) + ", g";
  };
  switch (want.what) {
    case Asked::washed:
    case Asked::tied:
    case Asked::finished:
      return window(stage_of(want.what));
    case Asked::tied_loop:
      return fmt::format("loop as tied ({})", shown(p.loop, units));
    case Asked::loop_after:
      return "loop after break-in";
    case Asked::break_in: {
      const auto& planned = p.break_in[static_cast<std::size_t>(want.step - 1)];
      const records::BreakInStep step =
          calc::step_now(p, planned, now.loop_as_tied, now.largest).step;
      const bool skips = now.step && static_cast<int>(now.step->index) + 1 < want.step;
      const std::string first =
          skips ? fmt::format("first step {}; then ", now.step->index + 1) : "";
      if (step.turns) {
        return fmt::format("{}break-in step {}, turns ({})", first, want.step,
                           shown_at_most(*step.turns));
      }
      return fmt::format("{}break-in step {}, turns and torque (to {}, never past {})", first,
                         want.step, shown(step.stop_torque.value_or(Torque{}), units),
                         shown_at_most(now.do_not_pass));
    }
    case Asked::wound:
      break;
  }
  return fmt::format("turns wound (to {})", shown_at_most(now.wind_to));
}

Result<Understood> understand(const Record& record, const motor::Now& now,
                              const std::vector<std::string>& typed, Units units,
                              const std::optional<double>& winder_ratio) {
  const auto turned =
      is_text(typed) ? Result<TurnedWords>({typed, false}) : cranks_as_turns(typed, winder_ratio);
  if (!turned) {
    return turned.diagnostics();
  }
  const std::vector<std::string> words = is_text(typed) ? typed : with_stages_whole(turned->words);
  if (words.empty()) {
    return error("bench-value", "expected a value, found none", "such as 1.776");
  }
  const auto want = next_want(record, now);
  const std::vector<std::string> rest = behind_first(words);
  // "tied" is a stage and a kind: with a loop it is the kind.
  const bool loop_named = std::ranges::any_of(
      rest, [](const std::string& word) { return lower_ascii(word).starts_with("loop"); });
  const bool loop_typed = lower_ascii(words[0]) == "tied" && !rest.empty() &&
                          length_from(fmt::format("{}", fmt::join(rest, " "))).ok();
  const bool stage = stage_from(words[0]).has_value() && !loop_named && !loop_typed;
  const auto typed_entry = [](Result<Entry> entry) {
    return entry ? Result<Understood>(Understood{.entry = std::move(*entry)})
                 : Result<Understood>(entry.diagnostics());
  };
  if (records::kind_from(words[0]) && !rest.empty() && !stage) {
    auto out = typed_entry(entry_from_words(words[0], rest));
    if (out) {
      out->in_cranks = turned->in_cranks;
    }
    return out;
  }
  if ((stage && !rest.empty()) || ends_in_stage(words)) {
    return typed_entry(entry_from_words("weighed", words));
  }
  if (lower_ascii(words[0]) == "loop" && !rest.empty()) {
    return from_loop(rest, want, units);
  }
  auto out = from_values(record, now, words, want, units);
  if (out) {
    out->in_cranks = turned->in_cranks;
  }
  return out;
}

std::optional<Mass> still_good_for(const Planned& p, Stage stage, Mass reading) {
  if (!p.rule) {
    return std::nullopt;
  }
  const calc::Counted counted = calc::counted(p, stage, reading);
  const Mass least = counted.mass + counted.errors.guard(p.confidence);
  return calc::ceil_to_step(least, least < Mass::g(1) ? Mass::mg(10) : Mass::mg(50));
}

}  // namespace loopledger::motor
