// SPDX-License-Identifier: MIT
//
// A motor of an invented night and its record, written an entry a day. The night's strip is
// 2.58 g/m, two strands of it: a loop of L mm is estimated to break near 4.67 L turns; "wind to" is
// 0.80 and "do not pass" 0.855 of it. Source of the formula: [turns].
#pragma once

#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "calc/work_out.h"
#include "motor/now.h"
#include "records/fields.h"
#include "support/plan_text.h"

namespace loopledger::test {

using motor::Mark;
using motor::Now;
using motor::now_of;
using records::Entry;
using records::Kind;
using records::Record;

using Fields = std::vector<std::pair<std::string, std::string>>;

inline constexpr std::string_view kNight = R"(format = 1
bench = { scale_step = "1 mg" }
rules.club = { limit = "1.5 g", counts = ["rubber", "lubricant"] }
strips.tan = { width = "2.5 mm", samples = [["500 mm", "1.290 g"]] }
[[motors]]
id = "AB"
rule = "club"
mass = "limit"
)";

/// A motor of that night and what is logged of it, an entry a day.
class Motor {
 public:
  explicit Motor(std::string_view plan = kNight) {
    const auto read = test::read(plan);
    REQUIRE_MESSAGE(read.ok(), said(read.diagnostics()));
    const auto batch = calc::work_out(*read);
    REQUIRE_MESSAGE(batch.ok(), said(batch.diagnostics()));
    record_.id = {"AB", 1};
    record_.planned = batch->motors.front().planned;
  }

  /// @return its key
  std::string log(Kind kind, const Fields& fields = {}) { return log_on(++day_, kind, fields); }
  /// On that day of February 2026.
  std::string log_on(int day, Kind kind, const Fields& fields = {}) {
    Entry e;
    e.kind = kind;
    e.key = records::make_key(midnight_utc({2026, 2, day}),
                              "aa" + std::to_string(10 + record_.entries.size()));
    for (const auto& given : fields) {
      const records::Field* const field = records::find_field(kind, given.first);
      REQUIRE_MESSAGE(field != nullptr, given.first);
      REQUIRE(records::set_field(e, *field, given.second).empty());
    }
    record_.entries.push_back(e);
    return e.key;
  }
  void take_back(const std::string& key) { log(Kind::note, {{"text", "no"}, {"corrects", key}}); }

  [[nodiscard]] Record& record() { return record_; }
  [[nodiscard]] Entry& last() { return record_.entries.back(); }
  [[nodiscard]] Now now() const { return now_of(record_); }

 private:
  Record record_;
  int day_ = 0;
};

/// To the nearest turn.
inline void check_turns(const Now& now, double wind_to, double do_not_pass) {
  CHECK(std::round(now.wind_to.count()) == wind_to);
  CHECK(std::round(now.do_not_pass.count()) == do_not_pass);
}

inline int marks(const Now& now, Mark mark) {
  int count = 0;
  for (const motor::Marked& m : now.marked) {
    count += m.mark == mark ? 1 : 0;
  }
  return count;
}

}  // namespace loopledger::test
