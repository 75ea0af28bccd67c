// SPDX-License-Identifier: MIT
//
// Which kinds of entry there are, which fields each may carry, and how a field's value is read from
// what was typed and written to a record: one table for reading, writing, `log` and `show`. To add
// a field: a member in records/entry.h, a row in fields.cpp, its words in motor/words.cpp.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "base/date.h"
#include "base/result.h"
#include "records/entry.h"

namespace loopledger::records {

/// Where in an Entry a field lives; its type says how it is read and written.
using Member = std::variant<std::optional<Stage> Entry::*, std::optional<Mass> Entry::*,
                            std::optional<Length> Entry::*, std::optional<int> Entry::*,
                            std::optional<Turns> Entry::*, std::optional<Torque> Entry::*,
                            std::vector<TurnsTorque> Entry::*, std::optional<WindEnd> Entry::*,
                            std::optional<Temperature> Entry::*, std::optional<BreakPlace> Entry::*,
                            std::optional<Duration> Entry::*, std::string Entry::*>;

struct Field {
  std::string_view name;  ///< in files and on the command line; never reused
  Member member;
  bool needed = false;  ///< an entry of this kind says nothing without it
};

/// "wound", "break_in", …: the word in files. Empty for Kind::other: see Entry::kind_text.
[[nodiscard]] std::string_view word(Kind kind);
/// The word read back, in any case; "break in" and "break-in" too. Never Kind::other.
[[nodiscard]] std::optional<Kind> kind_from(std::string_view text);
[[nodiscard]] std::vector<std::string_view> kind_words();

/// The fields of a kind, in the order in which they are written.
[[nodiscard]] std::span<const Field> fields_of(Kind kind);
/// nullptr when the kind has no field of that name.
[[nodiscard]] const Field* find_field(Kind kind, std::string_view name);

/// Sets a field from text as typed, bounds checked; keeps the text of a quantity in `typed`.
/// Turns are a number, `pairs` are "1000: 30 gf.cm, 1200: 41 gf.cm", a time may be "2:31".
/// Empty when done, else errors without a place: quantity-…, field-range, field-word, field-text,
/// field-pairs.
[[nodiscard]] Diagnostics set_field(Entry& entry, const Field& field, std::string_view text);

/// Pairs of a TOML list, [[1000, "30 gf.cm"], …], as they are typed for set_field. Empty: there are
/// none, or a torque's text would read as more than one.
[[nodiscard]] std::optional<std::string> pairs_as_typed(
    const std::vector<std::pair<double, std::string>>& pairs);

/// The value as the record has it; empty when the field is not set.
[[nodiscard]] std::optional<std::string> toml_value(const Entry& entry, const Field& field);

/// An entry of this kind as it is typed: "wound turns=1200 torque=\"41 gf.cm\" end=stopped".
[[nodiscard]] std::string_view example_of(Kind kind);

/// Fields that an entry of this kind must have and has not.
[[nodiscard]] std::vector<std::string_view> missing_fields(const Entry& entry);

/// A key of a claimed time and four characters that come in from outside, random. @pre random is
/// four of a-z and 0-9
[[nodiscard]] std::string make_key(Moment at, std::string_view random);
/// The claimed time of a key; empty when it is not in the form of make_key.
[[nodiscard]] std::optional<Moment> moment_of_key(std::string_view key);

}  // namespace loopledger::records
