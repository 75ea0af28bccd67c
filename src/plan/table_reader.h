// SPDX-License-Identifier: MIT
//
// Reads one table of a plan: typed values with bounds, unknown keys with the nearest known one.
// Every fault goes into the diagnostics with its place; reading goes on, so that one run finds
// them all.
#pragma once

#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/quantity_text.h"
#include "plan/plan.h"
#include "plan/tree.h"

namespace loopledger::plan {

inline constexpr std::size_t kMaxTextLength = 200;  ///< code points of a text value
inline constexpr std::size_t kMaxNameLength = 60;   ///< code points of a name

/// From `low` to `high`, both included; `above_low`: low itself is not allowed.
template <class Q>
struct Bounds {
  Q low{};
  Q high{};
  bool above_low = false;
};

/// How a type of value is read from text; the reader in base/quantity_text.h.
inline Result<Length> read_text(std::string_view t, const Length*) { return length_from(t); }
inline Result<Mass> read_text(std::string_view t, const Mass*) { return mass_from(t); }
inline Result<Density> read_text(std::string_view t, const Density*) { return density_from(t); }
inline Result<Share> read_text(std::string_view t, const Share*) { return share_from(t); }
inline Result<Duration> read_text(std::string_view t, const Duration*) { return duration_from(t); }
inline Result<Uncertain<Mass>> read_text(std::string_view t, const Uncertain<Mass>*) {
  return uncertain_mass_from(t);
}
inline Result<Uncertain<Share>> read_text(std::string_view t, const Uncertain<Share>*) {
  return uncertain_share_from(t);
}
inline Result<Uncertain<Pressure>> read_text(std::string_view t, const Uncertain<Pressure>*) {
  return uncertain_pressure_from(t);
}
inline Result<Uncertain<double>> read_text(std::string_view t, const Uncertain<double>*) {
  return uncertain_factor_from(t);
}

/// What unit_names() calls a type of quantity.
inline std::string_view kind_of(const Length*) { return "length"; }
inline std::string_view kind_of(const Mass*) { return "mass"; }
inline std::string_view kind_of(const Density*) { return "density"; }
inline std::string_view kind_of(const Share*) { return "share"; }
inline std::string_view kind_of(const Duration*) { return "time"; }
inline std::string_view kind_of(const Pressure*) { return "torque factor"; }
inline std::string_view kind_of(const double*) { return "number"; }

// How bounds are held against a value and written in a message.
template <class Q>
const Q& bounded_part(const Q& value) {
  return value;
}
template <class Q>
const Q& bounded_part(const Uncertain<Q>& value) {
  return value.value;
}
template <class Q>
std::string bound_text(const Q& value) {
  return exact(value);
}
std::string bound_text(Mass value);    ///< "1 mg", "10 g"
std::string bound_text(Length value);  ///< "0.05 mm", "20 m"
inline std::string bound_text(Duration value) { return shown(value); }
inline std::string bound_text(double value) { return shortest(value); }

template <class Q>
double bound_si(const Q& value) {
  return value.in_si();
}
inline double bound_si(double value) { return value; }

template <class B>
bool is_within(const B& value, const Bounds<B>& bounds) {
  return (bounds.above_low ? value > bounds.low : value >= bounds.low) && value <= bounds.high;
}

template <class T>
inline constexpr bool kIsUncertain = false;
template <class Q>
inline constexpr bool kIsUncertain<Uncertain<Q>> = true;

class TableReader {
 public:
  /// `what` names the table in messages: `strip "yellow"`, `[bench]`.
  TableReader(const Tree& tree, const Node& table, std::string what, Diagnostics& problems)
      : tree_(tree), table_(table), what_(std::move(what)), problems_(problems) {}

  /// The value of a key, or nothing. Asking makes the key a known one.
  const Node* find(std::string_view key);

  /// A quantity in quotes, or a bare number where the quantity has no unit.
  template <class T, class B>
  void read(std::string_view key, Placed<T>& to, const Bounds<B>& bounds) {
    note_quantity<T>(key, bounds);
    const Node* const node = find(key);
    if (node == nullptr) {
      return;
    }
    to.place = node->place;
    if (auto value = quantity<T>(*node, key, bounds)) {
      to.value = *value;
      to.given = true;
    }
  }
  template <class T>
  void read(std::string_view key, std::optional<T>& to, const Bounds<T>& bounds) {
    note_quantity<T>(key, bounds);
    if (const Node* const node = find(key)) {
      to = quantity<T>(*node, key, bounds);
    }
  }
  void read(std::string_view key, Placed<double>& to, const Bounds<double>& bounds);
  void read(std::string_view key, Placed<int>& to, const Bounds<int>& bounds);
  void read(std::string_view key, Placed<bool>& to);
  void read(std::string_view key, Placed<std::string>& to, std::size_t max = kMaxTextLength);
  void read(std::string_view key, std::string& to, std::size_t max = kMaxTextLength);

  /// The items of a list, or none. More than `max_items` is a fault.
  std::vector<const Node*> list(std::string_view key, std::size_t max_items);

  /// Two lengths in a list, across and down, or a fault with the example as its hint. Empty when
  /// they are not both there and right.
  std::optional<std::pair<Length, Length>> two_lengths(std::string_view key,
                                                       const Bounds<Length>& bounds,
                                                       const std::string& example);

  /// One quantity of this type out of a node, or a fault. What is behind a "±" is at most the value
  /// itself, or `bounds.high` where the value may be 0.
  template <class T, class B>
  std::optional<T> quantity(const Node& node, std::string_view key, const Bounds<B>& bounds);

  /// Text of a node, or a fault.
  std::optional<std::string> text_of(const Node& node, std::string_view key, std::size_t max);

  /// Reports the keys that nobody asked for. Call it last.
  void finish();

  /// Whether this is the file's own table, above all others.
  [[nodiscard]] bool is_top() const;
  void missing(std::string_view key, std::string hint);
  void problem(std::string code, std::string message, std::string hint, const Place& place);
  [[nodiscard]] const Place& place() const { return table_.place; }
  [[nodiscard]] const Tree& tree() const { return tree_; }
  [[nodiscard]] const Node& table() const { return table_; }
  [[nodiscard]] Diagnostics& problems() { return problems_; }

 private:
  /// Where to note what is asked of a key; null when nobody listens. The same key is one entry.
  KnownKey* note(std::string_view key);
  template <class T, class B>
  void note_quantity(std::string_view key, const Bounds<B>& bounds);
  void note_text(std::string_view key, std::size_t max);
  std::optional<std::string> quantity_text(const Node& node, std::string_view key);
  void take_over(const Diagnostics& from, const Node& node, std::string_view key);
  void out_of_bounds(const Node& node, std::string_view key, const std::string& low,
                     const std::string& high, bool above_low);
  void too_uncertain(const Node& node, std::string_view key, const std::string& most);
  void wrong_type(const Node& node, std::string_view key, std::string_view wanted,
                  std::string hint);

  const Tree& tree_;
  const Node& table_;
  std::string what_;
  Diagnostics& problems_;
  std::vector<std::string_view> known_;
};

template <class T, class B>
void TableReader::note_quantity(std::string_view key, const Bounds<B>& bounds) {
  if (KnownKey* const known = note(key)) {
    known->kind = kind_of(static_cast<const B*>(nullptr));
    known->uncertain = kIsUncertain<T>;
    known->bounded = true;
    known->low = bound_si(bounds.low);
    known->high = bound_si(bounds.high);
    known->above_low = bounds.above_low;
    known->low_text = bound_text(bounds.low);
    known->high_text = bound_text(bounds.high);
  }
}

template <class T, class B>
std::optional<T> TableReader::quantity(const Node& node, std::string_view key,
                                       const Bounds<B>& bounds) {
  note_quantity<T>(key, bounds);
  const auto text = quantity_text(node, key);
  if (!text) {
    return std::nullopt;
  }
  auto result = read_text(*text, static_cast<const T*>(nullptr));
  take_over(result.diagnostics(), node, key);
  if (!result) {
    return std::nullopt;
  }
  if constexpr (kIsUncertain<T>) {
    const B most = bounds.low > B{} || bounds.above_low ? result->value : bounds.high;
    if (result->u > most) {
      too_uncertain(node, key, bound_text(most));
      return std::nullopt;
    }
  }
  if (!is_within(bounded_part(*result), bounds)) {
    out_of_bounds(node, key, bound_text(bounds.low), bound_text(bounds.high), bounds.above_low);
    return std::nullopt;
  }
  return *result;
}

}  // namespace loopledger::plan
