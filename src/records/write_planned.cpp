// SPDX-License-Identifier: MIT
#include "records/write_planned.h"

#include <fmt/format.h>

#include <concepts>
#include <utility>
#include <vector>

#include "base/quantity_text.h"
#include "records/planned_fields.h"
#include "records/toml_text.h"

namespace loopledger::records {
namespace {

/// Collects names and values as TOML text; what is not there is left out.
class Collector {
 public:
  void operator()(const char* name, const std::string& value) {
    if (!value.empty()) {
      add(name, toml_string(value));
    }
  }
  void operator()(const char* name, std::same_as<bool> auto value) {
    add(name, value ? "true" : "false");
  }
  void operator()(const char* name, int value) { add(name, std::to_string(value)); }
  void operator()(const char* name, double value) { add(name, number(value)); }
  void operator()(const char* name, Turns value) { add(name, number(value.count())); }
  void operator()(const char* name, const Date& value) { add(name, iso(value)); }
  void operator()(const char* name, Weighed value) { add(name, toml_string(word(value))); }
  void operator()(const char* name, const Counts& counts);
  void operator()(const char* name, const PlannedRule& rule);
  void operator()(const char* name, const Window& window);
  void operator()(const char* name, const std::vector<BreakInStep>& steps);
  template <class Q>
  void operator()(const char* name, const Estimate<Q>& value) {
    Collector inner;
    walk_estimate(inner, value);
    add(name, inner.inline_table());
  }
  template <class T>
  void operator()(const char* name, const std::optional<T>& value) {
    if (value) {
      (*this)(name, *value);
    }
  }
  template <class Q>
  requires requires(Q q) { exact(q); }
  void operator()(const char* name, const Q& value) { add(name, toml_string(exact(value))); }

  [[nodiscard]] std::string lines() const {
    std::string out;
    for (const auto& [name, value] : items_) {
      out += fmt::format("{} = {}\n", name, value);
    }
    return out;
  }
  [[nodiscard]] std::string inline_table() const {
    std::string out = "{";
    for (const auto& [name, value] : items_) {
      out += fmt::format("{} {} = {}", out.size() > 1 ? "," : "", name, value);
    }
    return out + (items_.empty() ? "}" : " }");
  }

 private:
  /// A float stays one on reading either way, so whole numbers need no point.
  static std::string number(double value) { return shortest(value); }
  void add(const char* name, std::string value) { items_.emplace_back(name, std::move(value)); }
  std::vector<std::pair<std::string, std::string>> items_;
};

void Collector::operator()(const char* name, const Counts& counts) {
  std::vector<std::string> texts;
  for (const std::string_view one : words(counts)) {
    texts.push_back(toml_string(one));
  }
  add(name, fmt::format("[{}]", fmt::join(texts, ", ")));
}

void Collector::operator()(const char* name, const PlannedRule& rule) {
  Collector inner;
  walk_rule(inner, rule);
  add(name, inner.inline_table());
}

void Collector::operator()(const char* name, const Window& window) {
  if (window != Window{}) {
    Collector inner;
    walk_window(inner, window);
    add(name, inner.inline_table());
  }
}

void Collector::operator()(const char* name, const std::vector<BreakInStep>& steps) {
  if (steps.empty()) {
    return;
  }
  std::string rows;
  for (const BreakInStep& step : steps) {
    Collector inner;
    walk_step(inner, step);
    rows += fmt::format("  {},\n", inner.inline_table());
  }
  add(name, fmt::format("[\n{}]", rows));
}

}  // namespace

std::string planned_lines(const Planned& planned) {
  Collector all;
  walk_planned(all, planned);
  return all.lines();
}

}  // namespace loopledger::records
