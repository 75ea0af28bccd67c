// SPDX-License-Identifier: MIT
//
// What a person is told of each key of a plan: meaning, default, example. What a key takes and
// within which bounds is the reader's to say (plan/known_key.h); json/schema_keys.h puts the two
// together.
#pragma once

#include <span>
#include <string_view>

namespace loopledger::json {

struct TableWords {
  std::string_view path;    ///< "strips.NAME"; "": the file itself
  std::string_view reader;  ///< what plan::KnownKey calls it
  std::string_view title;
  std::string_view text;
};

struct KeyWords {
  std::string_view path;
  std::string_view key;
  std::string_view fallback;   ///< what holds without the key, as TOML; "": see `otherwise`
  std::string_view otherwise;  ///< the same in words; "needed" where the key has to be there
  std::string_view example;    ///< as TOML
  std::string_view text;
};

[[nodiscard]] std::span<const TableWords> table_words();
[[nodiscard]] std::span<const KeyWords> key_words();

}  // namespace loopledger::json
