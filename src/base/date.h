// SPDX-License-Identifier: MIT
//
// Calendar dates and moments in UTC, as values that come in from outside: nothing here asks a
// clock.
#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace loopledger {

struct Date {
  int year = 0;
  int month = 0;
  int day = 0;
  // NOLINTNEXTLINE(modernize-use-nullptr): the 0 is the compiler's own
  friend auto operator<=>(const Date&, const Date&) = default;
};

/// Seconds since 1970-01-01T00:00:00Z.
struct Moment {
  std::int64_t seconds = 0;
  // NOLINTNEXTLINE(modernize-use-nullptr): the 0 is the compiler's own
  friend auto operator<=>(const Moment&, const Moment&) = default;
};

[[nodiscard]] bool is_valid(const Date& date);
[[nodiscard]] std::string iso(const Date& date);                          ///< 2026-01-31
[[nodiscard]] std::optional<Date> date_from_iso(std::string_view text);   ///< of 2026-01-31
[[nodiscard]] std::string compact(const Date& date);                      ///< 260131, as on tags
[[nodiscard]] std::optional<Date> date_from_compact(std::string_view t);  ///< of 260131: 20yy

[[nodiscard]] Date date_of(Moment moment);
[[nodiscard]] Moment midnight_utc(const Date& date);
[[nodiscard]] std::string stamp(Moment moment);  ///< 20260501T100000Z
[[nodiscard]] std::optional<Moment> moment_from_stamp(std::string_view text);
/// "2026-05-01", "2026-05-01 10:00", "2026-05-01T10:00:30Z": what a person types, taken as UTC.
[[nodiscard]] std::optional<Moment> moment_from_text(std::string_view text);
[[nodiscard]] std::string readable(Moment moment);  ///< 2026-05-01 10:00

}  // namespace loopledger
