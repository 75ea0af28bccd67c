// SPDX-License-Identifier: MIT
//
// What a reader asks of one key: kept while a plan is read, when somebody wants to know
// (Tree::asked). So what is said about keys elsewhere, the schema and the manual, comes from the
// reader itself.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace loopledger::plan {

struct KnownKey {
  std::string table;  ///< as messages name it: [bench], strip "NAME"
  std::string key;
  /// "length", "mass", … as base/quantity_text.h names them, "number", "count", "truth",
  /// "text", "list"; empty: in a way of its own.
  std::string kind;
  bool uncertain = false;  ///< may carry a "±"
  bool bounded = false;    ///< the next five mean something
  double low = 0;          ///< SI
  double high = 0;         ///< SI
  bool above_low = false;  ///< low itself is not allowed
  std::string low_text;    ///< as messages write it
  std::string high_text;
  std::size_t max_length = 0;  ///< code points of a text, or of each text of a list
  std::size_t max_items = 0;   ///< of a list
};

using KnownKeys = std::vector<KnownKey>;

/// All that the reader of plans and shelf files asks for, table by table in its order. The tables
/// with names of one's own are called NAME.
[[nodiscard]] KnownKeys known_keys();

}  // namespace loopledger::plan
