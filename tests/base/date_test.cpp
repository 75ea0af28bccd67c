// SPDX-License-Identifier: MIT
#include "base/date.h"

#include <doctest/doctest.h>

using namespace loopledger;

TEST_CASE("a date is read and written in both forms") {
  const Date date{2026, 1, 31};
  CHECK(iso(date) == "2026-01-31");
  CHECK(compact(date) == "260131");
  CHECK(date_from_iso("2026-01-31") == date);
  CHECK(date_from_compact("260131") == date);
}

TEST_CASE("a date that does not exist is none") {
  CHECK(is_valid({2024, 2, 29}));
  CHECK(is_valid({2000, 2, 29}));
  CHECK_FALSE(is_valid({1900, 2, 29}));
  CHECK_FALSE(is_valid({2026, 2, 29}));
  CHECK_FALSE(is_valid({2026, 13, 1}));
  CHECK_FALSE(is_valid({2026, 0, 1}));
  CHECK_FALSE(is_valid({2026, 4, 31}));
  CHECK_FALSE(is_valid({2026, 4, 0}));
  for (const char* bad : {"", "2026-1-31", "2026-02-29", "2026/01/31", "26-01-31", "2026-01-31 ",
                          "2026-01-3x", "-026-01-31"}) {
    CAPTURE(bad);
    CHECK_FALSE(date_from_iso(bad).has_value());
  }
  for (const char* bad : {"", "26013", "2601311", "260229", "26O131", "-60131"}) {
    CAPTURE(bad);
    CHECK_FALSE(date_from_compact(bad).has_value());
  }
}

TEST_CASE("moments count seconds from 1970 through every leap year") {
  CHECK(midnight_utc({1970, 1, 1}).seconds == 0);
  CHECK(midnight_utc({2000, 3, 1}).seconds == 951868800);
  CHECK(midnight_utc({2026, 5, 1}).seconds == 1777593600);
  CHECK(date_of(Moment{-1}) == Date{1969, 12, 31});
}

TEST_CASE("every day from 1900 to 2100 follows the one before it and reads back") {
  Date expected{1900, 1, 1};
  Moment moment = midnight_utc(expected);
  int days = 0;
  while (expected.year <= 2100) {
    const Date found = date_of(moment);
    REQUIRE(found == expected);
    REQUIRE(date_of(Moment{moment.seconds + 86399}) == expected);
    REQUIRE(date_from_iso(iso(found)) == found);
    ++expected.day;
    if (!is_valid(expected)) {
      expected = {expected.year, expected.month + 1, 1};
    }
    if (expected.month == 13) {
      expected = {expected.year + 1, 1, 1};
    }
    moment.seconds += 86400;
    ++days;
  }
  CHECK(days == 201 * 365 + 49);  // 49 leap days: every fourth year from 1904 to 2100 less 2100
}

TEST_CASE("a stamp is exact to the second and sorts by time") {
  const Moment moment{midnight_utc({2026, 5, 1}).seconds + 10 * 3600 + 5 * 60 + 9};
  CHECK(stamp(moment) == "20260501T100509Z");
  CHECK(moment_from_stamp("20260501T100509Z") == moment);
  CHECK(readable(moment) == "2026-05-01 10:05");
  CHECK(stamp(moment) < stamp(Moment{moment.seconds + 1}));
  for (const char* bad : {"", "20260501T100509", "20260501 100509Z", "20260501T250509Z",
                          "20260532T100509Z", "20260501T106009Z", "2026050!T100509Z"}) {
    CAPTURE(bad);
    CHECK_FALSE(moment_from_stamp(bad).has_value());
  }
}

TEST_CASE("a time is read as people type it, in UTC") {
  const std::int64_t day = midnight_utc({2026, 5, 1}).seconds;
  CHECK(moment_from_text("2026-05-01") == Moment{day});
  CHECK(moment_from_text("2026-05-01 10:00") == Moment{day + 36000});
  CHECK(moment_from_text(" 2026-05-01T10:00:30Z ") == Moment{day + 36030});
  CHECK(moment_from_text("2026-05-01T10:00:30") == Moment{day + 36030});
  CHECK(moment_from_text("20260501T100030Z") == Moment{day + 36030});
  for (const char* bad : {"", "yesterday", "2026-05-01 10", "2026-05-01 24:00", "2026-05-01 10:60",
                          "2026-05-01x10:00", "10:00", "2026-05-01 10:00:30.5"}) {
    CAPTURE(bad);
    CHECK_FALSE(moment_from_text(bad).has_value());
  }
}
