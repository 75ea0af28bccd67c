// SPDX-License-Identifier: MIT
//
// What a plan or a shelf file may say, for editors (JSON Schema, draft 07) and for the manual.
// Keys, kinds and bounds are the reader's own (plan/known_key.h), the words are
// terminal/schema_words.h's.
#pragma once

#include <string>
#include <vector>

#include "json/json.h"
#include "plan/known_key.h"
#include "terminal/schema_words.h"

namespace loopledger::terminal {

enum class SchemaOf { plan, shelf };

/// A key with what the reader takes there and what people are told of it.
struct SchemaKey {
  plan::KnownKey known;
  KeyWords words;
};

/// The keys of one table in the order of their words; a key without words comes last.
[[nodiscard]] std::vector<SchemaKey> schema_keys(const TableWords& table, SchemaOf of);

/// "mass", "share ±", "whole number", "text of at most 60 characters", "list of at most 20"
[[nodiscard]] std::string taken_text(const plan::KnownKey& known);
/// "0.1 mm to 100 mm", "over 0 g, up to 10 g"; empty without bounds.
[[nodiscard]] std::string bounds_text(const plan::KnownKey& known);

[[nodiscard]] json::Json plan_schema(SchemaOf of);

/// A heading and a table of keys for each table of a plan.
[[nodiscard]] std::string plan_keys_markdown();

}  // namespace loopledger::terminal
