// SPDX-License-Identifier: MIT
//
// The keys of a plan or a shelf file as people and editors are told of them: kinds and bounds are
// the reader's own (plan/known_key.h), the words are json/schema_words.h's.
#pragma once

#include <string>
#include <vector>

#include "json/schema_words.h"
#include "plan/known_key.h"

namespace loopledger::json {

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

}  // namespace loopledger::json
