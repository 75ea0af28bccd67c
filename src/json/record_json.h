// SPDX-License-Identifier: MIT
//
// Records as JSON: plain numbers with the unit in the key, null where not known.
#pragma once

#include "json/json.h"
#include "motor/advice.h"
#include "records/entry.h"

namespace loopledger::json {

/// The figures as planned, with the keys that `check --json` has for a motor.
void add_planned(Json& to, const records::Planned& planned);
[[nodiscard]] Json planned_json(const records::Planned& planned);

/// `key, kind, …` with the fields that are set, then `edited` and `line`.
[[nodiscard]] Json entry_json(const records::Entry& entry);

[[nodiscard]] Json advice_json(const records::Record& record, const motor::Now& now,
                               const motor::Today& today);

/// The object of `show --json`; `diagnostics` are those of reading the record.
[[nodiscard]] Json record_json(const records::Record& record, const motor::Today& today,
                               const Diagnostics& diagnostics);

}  // namespace loopledger::json
