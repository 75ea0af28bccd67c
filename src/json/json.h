// SPDX-License-Identifier: MIT
//
// JSON as the commands print it under --json: values are built as a tree, in the order in which
// they are added, and written as UTF-8 text. Numbers are written so that they read back to the
// same double; a number that is not finite is null, as is everything that is not known. Control
// characters of every kind are written as \u escapes, so that output never drives a terminal.
//
// Only writing: the program reads no JSON.
#pragma once

#include <concepts>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/diagnostic.h"

namespace loopledger::json {

class Json {
 public:
  /// null
  Json() = default;
  // Implicit on purpose: `object.set("loop_mm", 303.5)` reads best.
  // NOLINTBEGIN(google-explicit-constructor)
  Json(std::string_view text);  ///< an ill-formed byte becomes U+FFFD
  Json(const std::string& text) : Json(std::string_view(text)) {}
  Json(const char* text) : Json(std::string_view(text)) {}
  template <std::same_as<bool> B>
  Json(B value) : scalar_(value ? "true" : "false") {}
  Json(double value);
  Json(int value) : scalar_(std::to_string(value)) {}
  Json(std::size_t value) : scalar_(std::to_string(value)) {}
  template <class T>
  Json(const std::optional<T>& value) {
    if (value) {
      *this = Json(*value);
    }
  }
  // NOLINTEND(google-explicit-constructor)

  [[nodiscard]] static Json object();
  [[nodiscard]] static Json array();

  /// Adds a member. @pre made by object()
  Json& set(std::string_view key, Json value);
  /// Adds an element. @pre made by array()
  Json& push(Json value);
  /// Removes the member of that name, if there. @pre made by object()
  Json& drop(std::string_view key);

  /// The text, ending in a newline; what fits on a line of 100 columns is on one line.
  [[nodiscard]] std::string text() const;
  /// The text on one line, without a line end.
  [[nodiscard]] std::string compact() const;

 private:
  enum class Form { scalar, object, array };
  void write(std::string& to, int indent) const;

  Form form_ = Form::scalar;
  std::string scalar_ = "null";                        ///< as written
  std::vector<std::pair<std::string, Json>> members_;  ///< of an array: without names
};

/// `diagnostics[] {file, line, column, severity, code, message, hint}`; line and column are null
/// where there is no place.
[[nodiscard]] Json to_json(const Diagnostics& diagnostics);

/// What --json says when there is nothing else to say: an object of `format` and `diagnostics`.
[[nodiscard]] Json nothing_but(const Diagnostics& diagnostics);

}  // namespace loopledger::json
