// SPDX-License-Identifier: MIT
#include "records/read_planned.h"

#include <fmt/format.h>
#include <toml++/toml.h>

#include <algorithm>
#include <concepts>
#include <set>

#include "base/quantity_text.h"
#include "base/text.h"
#include "base/toml_text.h"
#include "records/format.h"
#include "records/id_text.h"
#include "records/planned_fields.h"
#include "records/source_text.h"

namespace loopledger::records {
namespace {

constexpr double kMostNumber = 1e9;  ///< and most of a quantity, in its SI unit
constexpr std::size_t kMaxSteps = 200;
constexpr const char* kHint =
    "if the figures were changed by hand, put them right; else move the file away and `print` anew";

// The reader of base/ for each type of quantity.
Result<Length> from_text(std::string_view t, const Length&) { return length_from(t); }
Result<Area> from_text(std::string_view t, const Area&) { return area_from(t); }
Result<Mass> from_text(std::string_view t, const Mass&) { return mass_from(t); }
Result<Density> from_text(std::string_view t, const Density&) { return density_from(t); }
Result<Pressure> from_text(std::string_view t, const Pressure&) { return pressure_from(t); }
Result<Torque> from_text(std::string_view t, const Torque&) { return torque_from(t); }
Result<Duration> from_text(std::string_view t, const Duration&) { return duration_from(t); }
Result<Share> from_text(std::string_view t, const Share&) { return share_from(t); }
Result<Uncertain<Mass>> from_text(std::string_view t, const Uncertain<Mass>&) {
  return uncertain_mass_from(t);
}
Result<Uncertain<Share>> from_text(std::string_view t, const Uncertain<Share>&) {
  return uncertain_share_from(t);
}
Result<Uncertain<LinearDensity>> from_text(std::string_view t, const Uncertain<LinearDensity>&) {
  return uncertain_linear_density_from(t);
}

template <class Q>
bool is_bounded(const Q& q) {
  return q.in_si() >= 0 && q.in_si() <= kMostNumber;
}
template <class Q>
bool is_bounded(const Uncertain<Q>& q) {
  return is_bounded(q.value) && is_bounded(q.u);
}

struct Source {
  std::string_view text;
  const std::string& file;
  Diagnostics problems;

  void add(const char* code, std::string message, const toml::source_region& region) {
    problems.push_back(
        error(code, std::move(message), kHint,
              {file, static_cast<int>(region.begin.line), static_cast<int>(region.begin.column)}));
  }
};

/// Takes the values of one table, by the walks of planned_fields.h.
class Taker {
 public:
  Taker(const toml::table& table, Source& source) : table_(table), source_(source) {}

  void operator()(const char* name, std::string& to) {
    if (const toml::node* const node = find(name)) {
      const auto text = node->value_exact<std::string>();
      if (!text || code_point_count(*text) > kMaxTextPoints) {
        expected(name, "a text", *node);
      } else {
        to = *text;
      }
    }
  }
  void operator()(const char* name, std::same_as<bool> auto& to) {
    need(name, to, "true or false", [](const toml::node& n) { return n.value_exact<bool>(); });
  }
  void operator()(const char* name, int& to) {
    need(name, to, "a whole number from 0 to 100000", [](const toml::node& n) {
      const auto v = n.value_exact<std::int64_t>();
      return v && *v >= 0 && *v <= 100'000 ? std::optional(static_cast<int>(*v)) : std::nullopt;
    });
  }
  void operator()(const char* name, double& to) {
    need(name, to, "a number from 0", &Taker::number);
  }
  void operator()(const char* name, Turns& to) {
    double count = 0;
    (*this)(name, count);
    to = Turns::of(count);
  }
  void operator()(const char* name, Date& to) {
    need(name, to, "a date", [](const toml::node& n) -> std::optional<Date> {
      const auto v = n.value<toml::date>();
      const Date date = v ? Date{v->year, v->month, v->day} : Date{};
      return v && is_valid(date) ? std::optional(date) : std::nullopt;
    });
  }
  void operator()(const char* name, Weighed& to) {
    need(name, to, "\"fresh\" or \"rested\"", [](const toml::node& n) {
      const auto v = n.value_exact<std::string>();
      return v ? weighed_from(*v) : std::nullopt;
    });
  }
  void operator()(const char* name, Counts& to);
  void operator()(const char* name, PlannedRule& to) {
    inner(name, [&to](Taker& t) { walk_rule(t, to); });
  }
  void operator()(const char* name, Window& to) {
    if (table_.contains(name)) {
      inner(name, [&to](Taker& t) { walk_window(t, to); });
    }
  }
  template <class Q>
  void operator()(const char* name, Estimate<Q>& to) {
    inner(name, [&to](Taker& t) { walk_estimate(t, to); });
  }
  void operator()(const char* name, std::vector<BreakInStep>& to);
  template <class T>
  void operator()(const char* name, std::optional<T>& to) {
    if (table_.contains(name)) {
      T value{};
      (*this)(name, value);
      to = value;
    }
    seen_.insert(name);
  }
  template <class Q>
  requires requires(Q q) { from_text(std::string_view(), q); }
  void operator()(const char* name, Q& to) {
    const toml::node* const node = needed(name);
    if (node == nullptr) {
      return;
    }
    const auto text = node->value_exact<std::string>();
    auto read = from_text(text ? *text : std::string(), to);
    if (!text) {
      expected(name, "a quantity in quotes", *node);
    } else if (!read) {
      source_.add("record-value", fmt::format("{}: {}", name, read.diagnostics().front().message),
                  node->source());
    } else if (!is_bounded(*read)) {
      expected(name, "a quantity from 0, of a size that a motor has", *node);
    } else {
      to = *read;
    }
  }

  /// What no walk asked for, as it stands.
  [[nodiscard]] std::vector<std::pair<std::string, std::string>> unknown() const;

 private:
  static std::optional<double> number(const toml::node& node) {
    const auto v = node.is_number() ? node.value<double>() : std::nullopt;
    return v && *v >= 0 && *v <= kMostNumber ? v : std::nullopt;
  }
  const toml::node* find(const char* name) {
    seen_.insert(name);
    return table_.get(name);
  }
  const toml::node* needed(const char* name) {
    const toml::node* const node = find(name);
    if (node == nullptr) {
      source_.add("record-missing", fmt::format("expected the key {}", name), table_.source());
    }
    return node;
  }
  void expected(const char* name, std::string_view what, const toml::node& node) {
    source_.add("record-value", fmt::format("{}: expected {}", name, what), node.source());
  }
  template <class T, class Read>
  void need(const char* name, T& to, std::string_view what, Read read) {
    if (const toml::node* const node = needed(name)) {
      if (const auto value = read(*node)) {
        to = *value;
      } else {
        expected(name, what, *node);
      }
    }
  }
  template <class Walk>
  void inner(const char* name, Walk walk) {
    if (const toml::node* const node = needed(name)) {
      if (const toml::table* const table = node->as_table()) {
        Taker taker(*table, source_);
        walk(taker);
      } else {
        expected(name, "{ … }", *node);
      }
    }
  }

  const toml::table& table_;
  Source& source_;
  std::set<std::string, std::less<>> seen_{"sum"};
};

void Taker::operator()(const char* name, Counts& to) {
  const toml::node* const node = needed(name);
  if (node == nullptr) {
    return;
  }
  Counts counts;
  counts.rubber = false;
  bool known = node->is_array();
  for (const toml::node& word : known ? *node->as_array() : toml::array()) {
    bool Counts::*const part = count_from(word.value_or(std::string()));
    known = known && part != nullptr;
    if (part != nullptr) {
      counts.*part = true;
    }
  }
  if (!known || !counts.rubber) {
    expected(name, "a list of rubber and maybe lubricant, rings, adhesive", *node);
  } else {
    to = counts;
  }
}

void Taker::operator()(const char* name, std::vector<BreakInStep>& to) {
  const toml::node* const node = find(name);
  if (node == nullptr) {
    return;
  }
  const toml::array* const rows = node->as_array();
  if (rows == nullptr || rows->size() > kMaxSteps) {
    expected(name, "a list of steps", *node);
    return;
  }
  for (const toml::node& row : *rows) {
    if (const toml::table* const table = row.as_table()) {
      BreakInStep step;
      Taker taker(*table, source_);
      walk_step(taker, step);
      to.push_back(step);
    } else {
      expected(name, "steps as { … }", row);
    }
  }
}

std::vector<std::pair<std::string, std::string>> Taker::unknown() const {
  std::vector<std::pair<std::string, std::string>> out;
  for (const auto& [key, node] : table_) {
    if (!seen_.contains(key.str())) {
      const toml::source_region& r = node.source();
      out.emplace_back(key.str(), source_text(source_.text, {r.begin.line, r.begin.column},
                                              {r.end.line, r.end.column}));
    }
  }
  return out;
}

void read_names(const toml::table& document, Record& record, Source& source) {
  const auto format = document["format"].value_exact<std::int64_t>();
  if (!format || !document["planned"].is_table()) {
    source.problems.push_back(
        error("record-foreign", "not a motor's record", {}, {source.file, 0, 0}));
    return;
  }
  if (*format != kFormat) {
    source.problems.push_back(
        error("record-format", fmt::format("expected format = {}, found {}", kFormat, *format),
              "a newer version of the program wrote this record", {source.file, 1, 1}));
    return;
  }
  const auto id = printed_id_from(document["id"].value_or(std::string()));
  const std::string check = document["check"].value_or(std::string());
  if (!id || check.size() != 1 || kIdAlphabet.find(check.front()) == std::string_view::npos) {
    source.problems.push_back(
        error("record-id", "expected an id and its check character", kHint, {source.file, 0, 0}));
    return;
  }
  record.id = *id;
  record.check = check.front();
}

void read_figures(const toml::table& planned, Record& record, Source& source) {
  if (planned.size() > kMaxHeadKeys) {
    source.add("record-size",
               fmt::format("expected at most {} figures as planned, found {}", kMaxHeadKeys,
                           planned.size()),
               planned.source());
    return;
  }
  Taker taker(planned, source);
  walk_planned(taker, record.planned);
  record.planned_unknown = taker.unknown();
}

constexpr std::string_view kPlannedHeader = "\n[planned]\n";

/// The text of the figures as planned, in a head that ends with its sum; else empty.
std::string_view figures_of(std::string_view head) {
  constexpr std::string_view kSum = "\nsum = \"";
  const std::size_t from = head.find(kPlannedHeader);
  const std::size_t to = head.rfind(kSum);
  if (from == std::string_view::npos || to == std::string_view::npos || to < from) {
    return {};
  }
  const std::string_view behind = head.substr(to + kSum.size());
  const bool ends = trimmed(behind.substr(0, behind.find('\n'))).size() == behind.find('"') + 1 &&
                    trimmed(behind.substr(std::min(behind.size(), behind.find('\n')))).empty();
  return ends ? head.substr(from, to - from) : std::string_view();
}

/// The head without the lines that say the figures.
std::string names_of(std::string_view head) {
  return std::string(head.substr(0, head.find(kPlannedHeader))) + std::string(kPlannedHeader);
}

}  // namespace

const PlannedSeen::Figures* PlannedSeen::find(std::string_view text) {
  const auto at = std::ranges::find(seen_, text, &Figures::text);
  if (text.empty() || at == seen_.end()) {
    return nullptr;
  }
  std::rotate(at, at + 1, seen_.end());
  return &seen_.back();
}

void PlannedSeen::add(Figures seen) {
  if (seen_.size() == kMost) {
    seen_.erase(seen_.begin());
  }
  seen_.push_back(std::move(seen));
}

Result<Record> read_head(std::string_view head, const std::string& file, PlannedSeen* seen) {
  if (head.size() > kMaxHeadBytes) {
    return error("record-size",
                 fmt::format("expected at most {} bytes before the entries, found {}",
                             kMaxHeadBytes, head.size()),
                 kHint, {file, 0, 0});
  }
  if (first_overlong_key(head)) {
    return error("record-size",
                 fmt::format("expected keys of at most {} parts, found a longer one", kMaxKeyParts),
                 kHint, {file, 0, 0});
  }
  Source source{head, file, {}};
  Record record;
  const std::string_view figures = seen != nullptr ? figures_of(head) : std::string_view();
  const PlannedSeen::Figures* const known = figures.empty() ? nullptr : seen->find(figures);
  try {
    const std::string names = known != nullptr ? names_of(head) : std::string();
    const toml::table document =
        toml::parse(known != nullptr ? std::string_view(names) : head, std::string_view{});
    read_names(document, record, source);
    if (known != nullptr) {
      record.planned = known->planned;
      record.planned_unknown = known->unknown;
    } else if (source.problems.empty()) {
      read_figures(*document["planned"].as_table(), record, source);
    }
  } catch (const toml::parse_error& e) {
    source.add(
        "record-head",
        fmt::format("the figures as planned can't be read: {}", plain_reason(e.description())),
        e.source());
  }
  if (!source.problems.empty()) {
    add_source_lines(source.problems, file, std::string(head));
    return source.problems;
  }
  if (known == nullptr && !figures.empty()) {
    seen->add({std::string(figures), record.planned, record.planned_unknown});
  }
  return record;
}

}  // namespace loopledger::records
