// SPDX-License-Identifier: MIT
//
// A TOML text as a plain tree with the place of every key and value. The rest of the room reads
// this tree; only tree.cpp knows the TOML library.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.h"
#include "base/result.h"
#include "plan/known_key.h"

namespace loopledger::plan {

inline constexpr std::size_t kMaxTomlBytes = 4u
                                             << 20;  ///< some thousand motors; costs up to 500 MB

struct Node;

struct Member {
  std::string key;
  Place key_place;
  std::size_t node = 0;  ///< index into Tree::nodes
};

struct Node {
  enum class Type { text, whole, number, truth, date, array, table, other };
  Type type = Type::other;
  Place place;
  std::string text;
  std::int64_t whole = 0;
  double number = 0;  ///< of whole numbers too
  bool truth = false;
  Date date;
  std::vector<std::size_t> items;  ///< of an array
  std::vector<Member> members;     ///< of a table, in the file's order
};

/// All nodes of one file; the root is node 0.
struct Tree {
  std::string file;
  std::vector<Node> nodes;
  KnownKeys* asked = nullptr;  ///< where the reader notes what it asks for, when someone listens
  [[nodiscard]] const Node& root() const { return nodes.front(); }
  [[nodiscard]] const Node& at(std::size_t i) const { return nodes[i]; }
};

/// "a table", "text", "a whole number": what was found, in words.
[[nodiscard]] std::string_view type_name(Node::Type type);

/// Errors: `toml-utf8`, `toml-size`, `toml-empty`, `toml-syntax` (the first one; TOML can't be
/// read on behind it).
[[nodiscard]] Result<Tree> parse_tree(std::string_view text, const std::string& file);

}  // namespace loopledger::plan
