// SPDX-License-Identifier: MIT
//
// Ledgers in memory for the tests of this folder: an invented club's night, and what is logged of
// its motors.
#pragma once

#include <doctest/doctest.h>

#include <string>
#include <utility>
#include <vector>

#include "records/fields.h"
#include "records/ledger.h"
#include "support/memory_world.h"

namespace loopledger::test {

/// TH-01 to TH-03 of ANNA's under a rule, of the lot "May"; QX-01 of BEN's, of a strip without a
/// lot.
inline constexpr std::string_view kClubNight = R"(format = 1
date = 2026-02-05
bench = { scale_step = "1 mg" }
rules.club = { limit = "1.5 g", counts = ["rubber"] }
strips.tan = { lot = "May", width = "2.4 mm", samples = [["1 m", "2 g"], ["1 m", "2 g"], ["1 m", "2 g"]] }
strips.amber = { width = "2.4 mm", samples = [["1 m", "2 g"], ["1 m", "2 g"], ["1 m", "2 g"]] }
[[motors]]
id = "TH"
count = 3
for = "Heron"
owner = "ANNA"
rule = "club"
strip = "tan"
mass = "limit"
[[motors]]
id = "QX"
owner = "BEN"
strip = "amber"
loop = "200 mm"
)";

using Given = std::vector<std::pair<std::string, std::string>>;

/// Logs an entry of that day of March 2026.
inline void logged(MemoryWorld& world, const MotorId& id, int day, records::Kind kind,
                   const Given& fields = {}) {
  records::Entry entry;
  entry.kind = kind;
  entry.key = records::make_key(midnight_utc({2026, 3, day}), world.get().random_four());
  for (const auto& given : fields) {
    const records::Field* const field = records::find_field(kind, given.first);
    REQUIRE_MESSAGE(field != nullptr, given.first);
    REQUIRE(records::set_field(entry, *field, given.second).empty());
  }
  const Diagnostics said = records::Ledger(world.disk, "records").add(id, entry);
  REQUIRE_MESSAGE(said.empty(), render(said));
}

/// The codes of diagnostics, "list-none record-form ".
inline std::string codes(const Diagnostics& said) {
  std::string out;
  for (const Diagnostic& one : said) {
    out += one.code + " ";
  }
  return out;
}

}  // namespace loopledger::test
