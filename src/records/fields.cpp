// SPDX-License-Identifier: MIT
#include "records/fields.h"

#include <fmt/format.h>

#include <array>
#include <cassert>
#include <utility>

#include "base/quantity_text.h"
#include "base/text.h"
#include "records/field_text.h"

namespace loopledger::records {
namespace {

// Kinds and field names are in people's files: never reuse one for something else.
constexpr std::array<std::pair<Kind, std::string_view>, 11> kKinds{{{Kind::planned, "planned"},
                                                                    {Kind::weighed, "weighed"},
                                                                    {Kind::tied, "tied"},
                                                                    {Kind::break_in, "break_in"},
                                                                    {Kind::wound, "wound"},
                                                                    {Kind::broke, "broke"},
                                                                    {Kind::flown, "flown"},
                                                                    {Kind::labelled, "labelled"},
                                                                    {Kind::piece, "piece"},
                                                                    {Kind::note, "note"},
                                                                    {Kind::retired, "retired"}}};

constexpr Field kNote{"note", &Entry::text};
constexpr Field kCorrects{"corrects", &Entry::corrects};
constexpr Field kTurns{"turns", &Entry::turns};
constexpr Field kTorque{"torque", &Entry::torque};
constexpr Field kTemperature{"temperature", &Entry::temperature};
constexpr Field kTag{"tag", &Entry::tag, true};

constexpr std::array kPlannedFields{kNote, kCorrects};
constexpr std::array kWeighedFields{Field{"stage", &Entry::stage, true},
                                    Field{"reading", &Entry::reading, true}, kNote, kCorrects};
constexpr std::array kTiedFields{Field{"loop", &Entry::loop}, Field{"reading", &Entry::reading},
                                 kNote, kCorrects};
constexpr std::array kBreakInFields{Field{"step", &Entry::step},
                                    kTurns,
                                    kTorque,
                                    Field{"loop_before", &Entry::loop_before},
                                    Field{"loop_after", &Entry::loop_after},
                                    kTemperature,
                                    kNote,
                                    kCorrects};
constexpr std::array kWoundFields{Field{"turns", &Entry::turns, true},
                                  kTorque,
                                  Field{"pairs", &Entry::pairs},
                                  Field{"end", &Entry::end},
                                  Field{"backed_off_to", &Entry::backed_off},
                                  kTemperature,
                                  kNote,
                                  kCorrects};
constexpr std::array kBrokeFields{kTurns, kTorque, Field{"where", &Entry::where}, kNote, kCorrects};
constexpr std::array kFlownFields{Field{"time", &Entry::flight_time},
                                  Field{"turns_left", &Entry::turns_left}, kTemperature, kNote,
                                  kCorrects};
constexpr std::array kTagFields{kTag, kNote, kCorrects};
constexpr std::array kNoteFields{Field{"text", &Entry::text, true}, kCorrects};
constexpr std::array kRetiredFields{Field{"why", &Entry::text}, kCorrects};

/// Fits the typed text of a quantity to what a record may hold; empty: write the value instead.
std::string kept_text(std::string_view text) {
  constexpr std::size_t kLongest = 40;
  const std::string_view t = trimmed(text);
  return t.size() <= kLongest && printable(t) == t ? std::string(t) : std::string();
}

void keep_typed(Entry& entry, std::string_view name, std::string_view text) {
  std::erase_if(entry.typed, [name](const auto& kept) { return kept.first == name; });
  if (std::string kept = kept_text(text); !kept.empty()) {
    entry.typed.emplace_back(name, std::move(kept));
  }
}

/// The text that was typed, if it still says what the value says.
template <class T>
std::optional<std::string> still_right(const Entry& entry, std::string_view name, const T& value) {
  for (const auto& [field, text] : entry.typed) {
    T again;
    if (field == name && read_field(again, name, text).empty() && same_value(again, value)) {
      return text;
    }
  }
  return std::nullopt;
}

}  // namespace

std::string_view word(Kind kind) {
  for (const auto& [k, w] : kKinds) {
    if (k == kind) {
      return w;
    }
  }
  return {};
}

std::optional<Kind> kind_from(std::string_view text) {
  const std::string key = as_word(text);
  for (const auto& [k, w] : kKinds) {
    if (w == key) {
      return k;
    }
  }
  return std::nullopt;
}

std::vector<std::string_view> kind_words() {
  std::vector<std::string_view> words;
  words.reserve(kKinds.size());
  for (const auto& [k, w] : kKinds) {
    words.push_back(w);
  }
  return words;
}

std::span<const Field> fields_of(Kind kind) {
  switch (kind) {
    case Kind::planned:
      return kPlannedFields;
    case Kind::weighed:
      return kWeighedFields;
    case Kind::tied:
      return kTiedFields;
    case Kind::break_in:
      return kBreakInFields;
    case Kind::wound:
      return kWoundFields;
    case Kind::broke:
      return kBrokeFields;
    case Kind::flown:
      return kFlownFields;
    case Kind::labelled:
    case Kind::piece:
      return kTagFields;
    case Kind::note:
      return kNoteFields;
    case Kind::retired:
      return kRetiredFields;
    case Kind::other:
      break;
  }
  return {};
}

const Field* find_field(Kind kind, std::string_view name) {
  for (const Field& field : fields_of(kind)) {
    if (field.name == name) {
      return &field;
    }
  }
  return nullptr;
}

std::string_view example_of(Kind kind) {
  switch (kind) {
    case Kind::weighed:
      return "weighed washed 1.774";
    case Kind::tied:
      return "tied loop=\"303 mm\" reading=\"1.511 g\"";
    case Kind::break_in:
      return "break_in step=1 loop_before=\"303 mm\" loop_after=\"312 mm\"";
    case Kind::wound:
      return "wound turns=1200 torque=\"41 gf.cm\" end=stopped";
    case Kind::broke:
      return "broke turns=1310 where=knot";
    case Kind::flown:
      return "flown time=7:31 turns_left=210";
    case Kind::labelled:
    case Kind::piece:
      return "piece tag=a";
    case Kind::note:
      return "note ran smoothly";
    case Kind::retired:
      return "retired perished";
    case Kind::planned:
    case Kind::other:
      break;
  }
  return "planned";
}

Diagnostics set_field(Entry& entry, const Field& field, std::string_view text) {
  return std::visit(
      [&](auto member) -> Diagnostics {
        auto value = std::decay_t<decltype(entry.*member)>{};
        Diagnostics problems = read_field(value, field.name, text);
        if (problems.empty()) {
          entry.*member = std::move(value);
          keep_typed(entry, field.name, text);
        }
        return problems;
      },
      field.member);
}

std::optional<std::string> pairs_as_typed(
    const std::vector<std::pair<double, std::string>>& pairs) {
  std::string out;
  for (const auto& [turns, torque] : pairs) {
    if (torque.find_first_of(",:") != std::string::npos) {
      return std::nullopt;
    }
    out += fmt::format("{}{}: {}", out.empty() ? "" : ", ", shortest(turns), torque);
  }
  return out.empty() ? std::nullopt : std::optional(out);
}

std::optional<std::string> toml_value(const Entry& entry, const Field& field) {
  return std::visit(
      [&](auto member) -> std::optional<std::string> {
        const auto& value = entry.*member;
        if (!is_set(value)) {
          return std::nullopt;
        }
        if constexpr (kIsQuantityField<std::decay_t<decltype(value)>>) {
          if (const auto text = still_right(entry, field.name, value)) {
            return written_text(*text);
          }
        }
        return write_field(value);
      },
      field.member);
}

std::vector<std::string_view> missing_fields(const Entry& entry) {
  std::vector<std::string_view> missing;
  for (const Field& field : fields_of(entry.kind)) {
    if (field.needed && !toml_value(entry, field)) {
      missing.push_back(field.name);
    }
  }
  return missing;
}

std::string make_key(Moment at, std::string_view random) {
  assert(moment_of_key(stamp(at) + '-' + std::string(random)));
  return fmt::format("{}-{}", stamp(at), random);
}

std::optional<Moment> moment_of_key(std::string_view key) {
  constexpr std::size_t kStamp = 16;
  constexpr std::size_t kKey = kStamp + 5;
  if (key.size() != kKey || key[kStamp] != '-') {
    return std::nullopt;
  }
  for (const char c : key.substr(kStamp + 1)) {
    if ((c < 'a' || c > 'z') && (c < '0' || c > '9')) {
      return std::nullopt;
    }
  }
  return moment_from_stamp(key.substr(0, kStamp));
}

}  // namespace loopledger::records
