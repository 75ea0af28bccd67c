// SPDX-License-Identifier: MIT
//
// What a plan or a shelf file may say, for editors: JSON Schema, draft 07.
#pragma once

#include "json/json.h"
#include "json/schema_keys.h"

namespace loopledger::json {

[[nodiscard]] Json plan_schema(SchemaOf of);

}  // namespace loopledger::json
