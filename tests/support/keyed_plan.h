// SPDX-License-Identifier: MIT
//
// An invented plan that has a table of every kind, as keys and values, so that a test can set, add
// or take out any one of them and read what comes of it.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

namespace loopledger::test {

class KeyedPlan {
 public:
  using Keys = std::map<std::string, std::string>;

  /// Sets a key of a table ("strips.NAME.pieces") to a piece of TOML.
  KeyedPlan& set(const std::string& table, const std::string& key, const std::string& value) {
    tables_[table][key] = value;
    return *this;
  }
  KeyedPlan& drop(const std::string& table, const std::string& key) {
    tables_[table].erase(key);
    return *this;
  }

  [[nodiscard]] std::string text() const {
    const Keys& top = tables_.at("");
    std::string out = lines(top);
    for (const char* name : {"bench", "rules.NAME", "strips.NAME", "rings.NAME", "lubricants.NAME",
                             "adhesives.NAME", "recipes.NAME"}) {
      const std::string table = name;
      if (top.count(table.substr(0, table.find('.'))) == 0) {
        out += "[" + table + "]\n" + lines(tables_.at(table));
        out += listed(table, "pieces") + listed(table, "steps");
      }
    }
    return top.count("motors") > 0 ? out : out + "[[motors]]\n" + lines(tables_.at("motors"));
  }

 private:
  static std::string lines(const Keys& keys) {
    std::string out;
    for (const auto& [key, value] : keys) {
      out += key + " = " + value + "\n";
    }
    return out;
  }

  /// A list of one table, unless the key was set otherwise.
  [[nodiscard]] std::string listed(const std::string& table, const std::string& key) const {
    const auto found = tables_.find(table + "." + key);
    if (found == tables_.end() || tables_.at(table).count(key) > 0) {
      return {};
    }
    std::string out;
    for (const auto& [name, value] : found->second) {
      out += (out.empty() ? "" : ", ") + name + " = " + value;
    }
    return key + " = [{ " + out + " }]\n";
  }

  std::map<std::string, Keys> tables_{
      {"", {{"format", "1"}}},
      {"bench", {{"scale_step", "\"1 mg\""}}},
      {"rules.NAME", {{"limit", "\"1.5 g\""}, {"counts", "[\"rubber\", \"lubricant\"]"}}},
      {"strips.NAME",
       {{"width", "\"2.4 mm\""},
        {"samples",
         "[[\"500 mm\", \"1.230 g\"], [\"750 mm\", \"1.845 g\"], [\"1 m\", \"2.460 g\"]]"},
        {"talc", "\"1 %\""}}},
      {"strips.NAME.pieces", {{"length", "\"6 m\""}}},
      {"rings.NAME", {{"mass", "\"7 mg\""}}},
      {"lubricants.NAME", {{"uptake", "\"1.3 % ± 0.4 %\""}, {"left", "\"0.5 %\""}}},
      {"adhesives.NAME", {{"mass", "\"1 mg\""}}},
      {"recipes.NAME", {}},
      {"recipes.NAME.steps", {{"stretch", "4.5"}, {"turns", "\"30 %\""}}},
      {"motors",
       {{"id", "\"TH\""},
        {"rule", "\"NAME\""},
        {"strip", "\"NAME\""},
        {"rings", "\"NAME\""},
        {"lubricant", "\"NAME\""},
        {"adhesive", "\"NAME\""},
        {"recipe", "\"NAME\""},
        {"hooks", "\"265 mm\""},
        {"mass", "\"limit\""}}},
  };
};

}  // namespace loopledger::test
