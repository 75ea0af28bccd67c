// SPDX-License-Identifier: MIT
//
// The tables of a plan, one reader each. Bounds on sizes and counts stand here, beside the keys.
#pragma once

#include <string>
#include <vector>

#include "plan/plan.h"
#include "plan/read.h"
#include "plan/table_reader.h"

namespace loopledger::plan {

/// One table such as [strips.yellow], wherever it stands.
struct NamedTable {
  std::string name;
  const Tree* tree = nullptr;
  const Node* table = nullptr;
};

/// [bench]; called for the shelf files first and the plan last, so that the plan's keys win.
void read_bench(TableReader& reader, Bench& bench);
void check_bench(Bench& bench, const Place& place, Diagnostics& problems);

Strip read_strip(const NamedTable& from, Diagnostics& problems);
Rings read_rings(const NamedTable& from, Diagnostics& problems);
Lubricant read_lubricant(const NamedTable& from, Diagnostics& problems);
Adhesive read_adhesive(const NamedTable& from, Diagnostics& problems);
/// A rule's own keys win over those of the template that it takes.
Rule read_rule(const NamedTable& from, const Sources& sources, Diagnostics& problems);
Recipe read_recipe(const NamedTable& from, const Sources& sources, Diagnostics& problems);

/// One [[motors]] table; names are resolved against what `plan` already holds.
MotorGroup read_motors(const Tree& tree, const Node& table, const Plan& plan,
                       Diagnostics& problems);

}  // namespace loopledger::plan
