// SPDX-License-Identifier: MIT
//
// Result<T>: a value, or the reasons why there is none. It may carry warnings and notes beside a
// value. (std::expected is not in C++20, and holds one error where a stage here reports several.)
#pragma once

#include <cassert>
#include <optional>
#include <utility>

#include "base/diagnostic.h"

namespace loopledger {

template <class T>
class [[nodiscard]] Result {
 public:
  // NOLINTNEXTLINE(google-explicit-constructor): `return value;` and `return diagnostic;` read best
  Result(T value, Diagnostics diagnostics = {})
      : value_(std::move(value)), diagnostics_(std::move(diagnostics)) {}
  // NOLINTNEXTLINE(google-explicit-constructor)
  Result(Diagnostic problem) : diagnostics_{std::move(problem)} {}
  // NOLINTNEXTLINE(google-explicit-constructor)
  Result(Diagnostics problems) : diagnostics_(std::move(problems)) {}

  [[nodiscard]] bool ok() const { return value_.has_value(); }
  explicit operator bool() const { return ok(); }

  /// @pre ok()
  [[nodiscard]] T& value() & {
    assert(ok());
    return *value_;
  }
  [[nodiscard]] const T& value() const& {
    assert(ok());
    return *value_;
  }
  /// By value, so that what a temporary held outlives it: `for (x : read(text).value())`.
  [[nodiscard]] T value() && {
    assert(ok());
    return *std::move(value_);
  }
  [[nodiscard]] T* operator->() { return &value(); }
  [[nodiscard]] const T* operator->() const { return &value(); }
  [[nodiscard]] T& operator*() & { return value(); }
  [[nodiscard]] const T& operator*() const& { return value(); }

  [[nodiscard]] const Diagnostics& diagnostics() const& { return diagnostics_; }
  [[nodiscard]] Diagnostics& diagnostics() & { return diagnostics_; }
  [[nodiscard]] Diagnostics diagnostics() && { return std::move(diagnostics_); }

 private:
  std::optional<T> value_;
  Diagnostics diagnostics_;
};

}  // namespace loopledger
