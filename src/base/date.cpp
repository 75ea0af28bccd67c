// SPDX-License-Identifier: MIT
#include "base/date.h"

#include <fmt/format.h>

#include "base/text.h"

namespace loopledger {
namespace {

constexpr std::int64_t kSecondsPerDay = 86400;

bool leap(int year) { return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0; }

int days_in(int year, int month) {
  constexpr int kDays[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  return month == 2 && leap(year) ? 29 : kDays[month - 1];
}

/// Days from 1970-01-01 in the proleptic Gregorian calendar, counted in eras of 400 years that
/// begin on 1 March, so that the leap day is the last day of a year.
std::int64_t days_from_epoch(const Date& d) {
  const std::int64_t y = d.month <= 2 ? d.year - 1 : d.year;
  const std::int64_t era = (y >= 0 ? y : y - 399) / 400;
  const std::int64_t year_of_era = y - era * 400;
  const std::int64_t day_of_year = (153 * ((d.month + 9) % 12) + 2) / 5 + d.day - 1;
  const std::int64_t day_of_era =
      year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;
  return era * 146097 + day_of_era - 719468;
}

std::optional<int> digits(std::string_view text, std::size_t at, std::size_t count) {
  if (at + count > text.size()) {
    return std::nullopt;
  }
  int value = 0;
  for (const char c : text.substr(at, count)) {
    if (c < '0' || c > '9') {
      return std::nullopt;
    }
    value = value * 10 + (c - '0');
  }
  return value;
}

std::optional<Date> checked(std::optional<int> y, std::optional<int> m, std::optional<int> d) {
  if (!y || !m || !d) {
    return std::nullopt;
  }
  const Date date{*y, *m, *d};
  return is_valid(date) ? std::optional(date) : std::nullopt;
}

std::optional<Moment> at_time(const std::optional<Date>& date, std::optional<int> h,
                              std::optional<int> m, std::optional<int> s) {
  if (!date || !h || !m || !s || *h > 23 || *m > 59 || *s > 60) {
    return std::nullopt;
  }
  return Moment{midnight_utc(*date).seconds + std::int64_t{*h} * 3600 + std::int64_t{*m} * 60 + *s};
}

}  // namespace

bool is_valid(const Date& d) {
  return d.year >= 1900 && d.year <= 9999 && d.month >= 1 && d.month <= 12 && d.day >= 1 &&
         d.day <= days_in(d.year, d.month);
}

std::string iso(const Date& d) { return fmt::format("{:04}-{:02}-{:02}", d.year, d.month, d.day); }

std::optional<Date> date_from_iso(std::string_view t) {
  if (t.size() != 10 || t[4] != '-' || t[7] != '-') {
    return std::nullopt;
  }
  return checked(digits(t, 0, 4), digits(t, 5, 2), digits(t, 8, 2));
}

std::string compact(const Date& d) {
  return fmt::format("{:02}{:02}{:02}", d.year % 100, d.month, d.day);
}

std::optional<Date> date_from_compact(std::string_view t) {
  if (t.size() != 6) {
    return std::nullopt;
  }
  const auto year = digits(t, 0, 2);
  return checked(year ? std::optional(2000 + *year) : std::nullopt, digits(t, 2, 2),
                 digits(t, 4, 2));
}

Moment midnight_utc(const Date& date) { return {days_from_epoch(date) * kSecondsPerDay}; }

Date date_of(Moment moment) {
  std::int64_t days = moment.seconds / kSecondsPerDay;
  if (moment.seconds % kSecondsPerDay < 0) {
    --days;
  }
  days += 719468;
  const std::int64_t era = (days >= 0 ? days : days - 146096) / 146097;
  const std::int64_t day_of_era = days - era * 146097;
  const std::int64_t year_of_era =
      (day_of_era - day_of_era / 1460 + day_of_era / 36524 - day_of_era / 146096) / 365;
  const std::int64_t day_of_year =
      day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
  const std::int64_t month = (5 * day_of_year + 2) / 153;
  Date date;
  date.day = static_cast<int>(day_of_year - (153 * month + 2) / 5 + 1);
  date.month = static_cast<int>(month < 10 ? month + 3 : month - 9);
  date.year = static_cast<int>(year_of_era + era * 400 + (date.month <= 2 ? 1 : 0));
  return date;
}

std::string stamp(Moment moment) {
  const Date d = date_of(moment);
  const std::int64_t rest = moment.seconds - midnight_utc(d).seconds;
  return fmt::format("{:04}{:02}{:02}T{:02}{:02}{:02}Z", d.year, d.month, d.day, rest / 3600,
                     rest / 60 % 60, rest % 60);
}

std::optional<Moment> moment_from_stamp(std::string_view t) {
  if (t.size() != 16 || t[8] != 'T' || t[15] != 'Z') {
    return std::nullopt;
  }
  return at_time(checked(digits(t, 0, 4), digits(t, 4, 2), digits(t, 6, 2)), digits(t, 9, 2),
                 digits(t, 11, 2), digits(t, 13, 2));
}

std::optional<Moment> moment_from_text(std::string_view text) {
  std::string_view t = trimmed(text);
  if (const auto m = moment_from_stamp(t)) {
    return m;
  }
  if (t.ends_with('Z')) {
    t.remove_suffix(1);
  }
  const auto date = date_from_iso(t.substr(0, 10));
  if (t.size() == 10) {
    return at_time(date, 0, 0, 0);
  }
  const bool minutes = t.size() == 16 && t[13] == ':';
  const bool seconds = t.size() == 19 && t[13] == ':' && t[16] == ':';
  if ((!minutes && !seconds) || (t[10] != ' ' && t[10] != 'T')) {
    return std::nullopt;
  }
  return at_time(date, digits(t, 11, 2), digits(t, 14, 2), seconds ? digits(t, 17, 2) : 0);
}

std::string readable(Moment moment) {
  const Date d = date_of(moment);
  const std::int64_t rest = moment.seconds - midnight_utc(d).seconds;
  return fmt::format("{} {:02}:{:02}", iso(d), rest / 3600, rest / 60 % 60);
}

}  // namespace loopledger
