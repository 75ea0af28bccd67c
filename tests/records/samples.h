// SPDX-License-Identifier: MIT
//
// A motor of an invented club, and one entry of each kind, for the tests of this folder.
#pragma once

#include <string>
#include <vector>

#include "records/entry.h"
#include "records/planned.h"

namespace loopledger::test {

/// Every field set to something that its type can't hold by chance.
[[nodiscard]] records::Planned full_planned();
/// Only what every plan gives.
[[nodiscard]] records::Planned small_planned();

/// An entry made as `log` makes it: fields set from text.
[[nodiscard]] records::Entry entry_of(const std::string& key, records::Kind kind,
                                      const std::vector<std::pair<std::string, std::string>>& f);

/// One entry of each kind, keys in order.
[[nodiscard]] std::vector<records::Entry> one_of_each();

/// A whole record, TH-01, with those entries.
[[nodiscard]] std::string sample_text();

}  // namespace loopledger::test
