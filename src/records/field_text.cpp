// SPDX-License-Identifier: MIT
#include "records/field_text.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "base/quantity_text.h"
#include "base/text.h"
#include "records/format.h"
#include "records/toml_text.h"

namespace loopledger::records {
namespace {

Diagnostic out_of_range(std::string_view name, std::string_view bounds, std::string_view text) {
  return error("field-range", fmt::format("expected {} from {}, found \"{}\"", name, bounds,
                                          printable(shortened(text, 60))));
}

/// Takes over a quantity that was read, if it is within its bounds.
template <class Q>
Diagnostics take(std::optional<Q>& to, const Result<Q>& read, Q low, Q high, std::string_view name,
                 std::string_view bounds, std::string_view text) {
  if (!read) {
    Diagnostics problems = read.diagnostics();
    for (Diagnostic& problem : problems) {
      problem.message = fmt::format("{}: {}", name, problem.message);
    }
    return problems;
  }
  if (*read < low || *read > high) {
    return {out_of_range(name, bounds, text)};
  }
  to = *read;
  return {};
}

/// Takes over a word of a fixed few.
template <class E, std::size_t N>
Diagnostics take_word(std::optional<E>& to, std::optional<E> read,
                      const std::array<std::string_view, N>& words, std::string_view name,
                      std::string_view text) {
  if (read) {
    to = read;
    return {};
  }
  const std::string_view near = nearest(lower_ascii(trimmed(text)), words);
  return {error("field-word",
                fmt::format("{}: expected {}, found \"{}\"", name, either(words),
                            printable(shortened(text, 60))),
                near.empty() ? std::string() : fmt::format("did you mean \"{}\"?", near))};
}

/// "2:31" as minutes and seconds, "1:02:31" as hours too; empty when the text is neither.
std::optional<Duration> clock_time(std::string_view text) {
  std::string_view t = trimmed(text);
  const std::size_t first = t.find(':');
  if (first != std::string_view::npos && t.find(':', first + 1) != std::string_view::npos) {
    const auto hours = number_from(t.substr(0, first));
    const auto rest = clock_time(t.substr(first + 1));
    const bool is_clock = hours && *hours == std::floor(*hours) && *hours >= 0 && *hours < 1000 &&
                          rest && *rest < Duration::h(1);
    return is_clock ? std::optional(Duration::h(*hours) + *rest) : std::nullopt;
  }
  const std::size_t colon = first;
  if (colon == std::string_view::npos || colon == 0 || t.size() < colon + 3) {
    return std::nullopt;
  }
  const std::string_view minutes = t.substr(0, colon);
  const std::string_view seconds = t.substr(colon + 1);
  constexpr std::string_view kDigits = "0123456789";
  if (minutes.size() > 4 || seconds.size() > 6 ||
      minutes.find_first_not_of(kDigits) != std::string_view::npos ||
      seconds.find_first_not_of("0123456789.") != std::string_view::npos) {
    return std::nullopt;
  }
  const auto m = number_from(minutes);
  const auto s = number_from(seconds);
  return m && s && *s < 60 ? std::optional(Duration::s(*m * 60 + *s)) : std::nullopt;
}

/// "1200", "1200 turns", "1200T".
std::optional<double> turns_number(std::string_view text) {
  std::string t = lower_ascii(trimmed(text));
  for (const std::string_view unit : {"turns", "turn", "t"}) {
    if (t.ends_with(unit)) {
      t.resize(t.size() - unit.size());
      break;
    }
  }
  return number_from(trimmed(t));
}

constexpr double kMostTurns = 100'000;

template <class Q>
bool nearly(std::optional<Q> a, std::optional<Q> b) {
  constexpr double kSame = 1e-12;
  return a && b && std::fabs(a->in_si() - b->in_si()) <= kSame * std::fabs(b->in_si());
}

}  // namespace

Diagnostics read_field(std::optional<Stage>& to, std::string_view name, std::string_view text) {
  return take_word(to, stage_from(text),
                   std::array{word(Stage::as_cut), word(Stage::washed), word(Stage::tied),
                              word(Stage::finished)},
                   name, text);
}

Diagnostics read_field(std::optional<WindEnd>& to, std::string_view name, std::string_view text) {
  return take_word(to, wind_end_from(text),
                   std::array{word(WindEnd::broke), word(WindEnd::solid), word(WindEnd::stopped)},
                   name, text);
}

Diagnostics read_field(std::optional<BreakPlace>& to, std::string_view name,
                       std::string_view text) {
  return take_word(
      to, break_place_from(text),
      std::array{word(BreakPlace::knot), word(BreakPlace::hook), word(BreakPlace::middle)}, name,
      text);
}

Diagnostics read_field(std::optional<Mass>& to, std::string_view name, std::string_view text) {
  // So much that a reading without its decimal point is still one, to be asked back by name.
  return take(to, mass_from(text), Mass::g(0), Mass::kg(10), name, "0 g to 10 kg", text);
}

Diagnostics read_field(std::optional<Length>& to, std::string_view name, std::string_view text) {
  return take(to, length_from(text), Length::mm(1), Length::m(20), name, "1 mm to 20 m", text);
}

Diagnostics read_field(std::optional<Torque>& to, std::string_view name, std::string_view text) {
  return take(to, torque_from(text), Torque::mnm(0), Torque::mnm(1e5), name, "0 to 100 N.m", text);
}

Diagnostics read_field(std::optional<Duration>& to, std::string_view name, std::string_view text) {
  // So long that minutes typed as hours are still a time, to be asked back by name.
  const auto clock = clock_time(text);
  return take(to, clock ? Result<Duration>(*clock) : duration_from(text), Duration::s(0),
              Duration::h(100), name, "0 s to 100 h", text);
}

Diagnostics read_field(std::optional<Temperature>& to, std::string_view name,
                       std::string_view text) {
  return take(to, temperature_from(text), Temperature::deg_c(-60), Temperature::deg_c(80), name,
              "-60 degC to 80 degC", text);
}

Diagnostics read_field(std::optional<int>& to, std::string_view name, std::string_view text) {
  constexpr double kMost = 1000;
  const auto number = number_from(text);
  if (!number || *number < 1 || *number > kMost || *number != std::floor(*number)) {
    return {out_of_range(name, "1 to 1000, whole", text)};
  }
  to = static_cast<int>(*number);
  return {};
}

Diagnostics read_field(std::optional<Turns>& to, std::string_view name, std::string_view text) {
  const auto number = turns_number(text);
  if (!number || !(*number >= 0 && *number <= kMostTurns)) {
    return {out_of_range(name, "0 to 100000 turns", text)};
  }
  to = Turns::of(*number);
  return {};
}

Diagnostics read_field(std::vector<TurnsTorque>& to, std::string_view name, std::string_view text) {
  std::vector<TurnsTorque> pairs;
  for (std::string_view rest = text; !rest.empty();) {
    const std::size_t comma = std::min(rest.find(','), rest.size());
    const std::string_view one = rest.substr(0, comma);
    rest.remove_prefix(std::min(comma + 1, rest.size()));
    const std::size_t colon = one.find(':');
    if (pairs.size() == kMaxPairs) {
      return {error("field-pairs", fmt::format("{}: expected at most {} pairs", name, kMaxPairs),
                    "leave out every other one")};
    }
    if (colon == std::string_view::npos) {
      return {error("field-pairs",
                    fmt::format("{}: expected turns and torque as \"1000: 30 gf.cm\", found \"{}\"",
                                name, printable(shortened(one, 60))),
                    "several are separated by commas: \"1000: 30 gf.cm, 1200: 41 gf.cm\"")};
    }
    std::optional<Turns> turns;
    std::optional<Torque> torque;
    Diagnostics problems = read_field(turns, name, one.substr(0, colon));
    append(problems, read_field(torque, name, one.substr(colon + 1)));
    if (!problems.empty()) {
      return problems;
    }
    pairs.push_back({*turns, *torque, std::string(trimmed(one.substr(colon + 1)))});
  }
  to = std::move(pairs);
  return {};
}

Diagnostics read_field(std::string& to, std::string_view name, std::string_view text) {
  if (const auto bad = first_bad_utf8(text)) {
    return {error("field-text", fmt::format("{}: expected UTF-8 text, found an ill-formed byte at "
                                            "position {}",
                                            name, *bad + 1))};
  }
  if (code_point_count(text) > kMaxTextPoints) {
    return {error("field-text", fmt::format("{}: expected at most {} characters, found {}", name,
                                            kMaxTextPoints, code_point_count(text)))};
  }
  to = std::string(text);
  return {};
}

std::string write_field(std::optional<Stage> value) { return toml_string(word(*value)); }
std::string write_field(std::optional<WindEnd> value) { return toml_string(word(*value)); }
std::string write_field(std::optional<BreakPlace> value) { return toml_string(word(*value)); }
std::string write_field(std::optional<Mass> value) { return toml_string(exact(*value)); }
std::string write_field(std::optional<Length> value) { return toml_string(exact(*value)); }
std::string write_field(std::optional<Torque> value) { return toml_string(exact(*value)); }
std::string write_field(std::optional<Duration> value) { return toml_string(exact(*value)); }
std::string write_field(std::optional<Temperature> value) { return toml_string(exact(*value)); }
std::string write_field(std::optional<int> value) { return std::to_string(*value); }
std::string write_field(std::optional<Turns> value) { return shortest(value->count()); }
std::string write_field(const std::string& value) { return toml_string(value); }
std::string written_text(std::string_view typed) { return toml_string(typed); }

std::string write_field(const std::vector<TurnsTorque>& value) {
  std::string out = "[";
  for (const TurnsTorque& pair : value) {
    const auto again = torque_from(pair.typed);
    const bool as_typed = again.ok() && nearly(std::optional(*again), std::optional(pair.torque));
    out += fmt::format("{}[{}, {}]", out.size() > 1 ? ", " : "", shortest(pair.turns.count()),
                       toml_string(as_typed ? pair.typed : exact(pair.torque)));
  }
  return out + ']';
}

bool same_value(std::optional<Mass> a, std::optional<Mass> b) { return nearly(a, b); }
bool same_value(std::optional<Length> a, std::optional<Length> b) { return nearly(a, b); }
bool same_value(std::optional<Torque> a, std::optional<Torque> b) { return nearly(a, b); }
bool same_value(std::optional<Duration> a, std::optional<Duration> b) { return nearly(a, b); }
bool same_value(std::optional<Temperature> a, std::optional<Temperature> b) {
  return a && b && std::fabs(a->in_deg_c() - b->in_deg_c()) <= 1e-9;
}

}  // namespace loopledger::records
