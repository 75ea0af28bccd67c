// SPDX-License-Identifier: MIT
//
// One field's value <-> text, for each type that an Entry has. Used by records/fields.cpp only,
// which knows which field is where.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.h"
#include "base/quantity.h"
#include "base/terms.h"
#include "records/entry.h"

namespace loopledger::records {

// Reads `text` for the field `name`, bounds checked. Empty when done, else one error without a
// place.
Diagnostics read_field(std::optional<Stage>& to, std::string_view name, std::string_view text);
Diagnostics read_field(std::optional<WindEnd>& to, std::string_view name, std::string_view text);
Diagnostics read_field(std::optional<BreakPlace>& to, std::string_view name, std::string_view text);
Diagnostics read_field(std::optional<Mass>& to, std::string_view name, std::string_view text);
Diagnostics read_field(std::optional<Length>& to, std::string_view name, std::string_view text);
Diagnostics read_field(std::optional<Torque>& to, std::string_view name, std::string_view text);
Diagnostics read_field(std::optional<Duration>& to, std::string_view name, std::string_view text);
Diagnostics read_field(std::optional<Temperature>& to, std::string_view name,
                       std::string_view text);
Diagnostics read_field(std::optional<int>& to, std::string_view name, std::string_view text);
Diagnostics read_field(std::optional<Turns>& to, std::string_view name, std::string_view text);
Diagnostics read_field(std::vector<TurnsTorque>& to, std::string_view name, std::string_view text);
Diagnostics read_field(std::string& to, std::string_view name, std::string_view text);

/// The field as TOML. @pre is_set
std::string write_field(std::optional<Stage> value);
std::string write_field(std::optional<WindEnd> value);
std::string write_field(std::optional<BreakPlace> value);
std::string write_field(std::optional<Mass> value);
std::string write_field(std::optional<Length> value);
std::string write_field(std::optional<Torque> value);
std::string write_field(std::optional<Duration> value);
std::string write_field(std::optional<Temperature> value);
std::string write_field(std::optional<int> value);
std::string write_field(std::optional<Turns> value);
std::string write_field(const std::vector<TurnsTorque>& value);
std::string write_field(const std::string& value);
/// A quantity's typed text as TOML.
std::string written_text(std::string_view typed);

template <class T>
bool is_set(const std::optional<T>& value) {
  return value.has_value();
}
inline bool is_set(const std::vector<TurnsTorque>& value) { return !value.empty(); }
inline bool is_set(const std::string& value) { return !value.empty(); }

/// Fields whose typed text is worth keeping: those with a unit.
template <class T>
inline constexpr bool kIsQuantityField = false;
template <>
inline constexpr bool kIsQuantityField<std::optional<Mass>> = true;
template <>
inline constexpr bool kIsQuantityField<std::optional<Length>> = true;
template <>
inline constexpr bool kIsQuantityField<std::optional<Torque>> = true;
template <>
inline constexpr bool kIsQuantityField<std::optional<Duration>> = true;
template <>
inline constexpr bool kIsQuantityField<std::optional<Temperature>> = true;

// The same but for the last bits that a change of unit costs.
bool same_value(std::optional<Mass> a, std::optional<Mass> b);
bool same_value(std::optional<Length> a, std::optional<Length> b);
bool same_value(std::optional<Torque> a, std::optional<Torque> b);
bool same_value(std::optional<Duration> a, std::optional<Duration> b);
bool same_value(std::optional<Temperature> a, std::optional<Temperature> b);

}  // namespace loopledger::records
