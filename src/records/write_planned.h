// SPDX-License-Identifier: MIT
//
// The [planned] table as lines of TOML, without its header and its sum.
#pragma once

#include <string>

#include "records/planned.h"

namespace loopledger::records {

[[nodiscard]] std::string planned_lines(const Planned& planned);

}  // namespace loopledger::records
