// SPDX-License-Identifier: MIT
#include "plan/read.h"

#include <fmt/format.h>

#include <algorithm>
#include <deque>
#include <iterator>
#include <map>
#include <optional>
#include <string>
#include <tuple>

#include "base/text.h"
#include "plan/known_key.h"
#include "plan/sections.h"
#include "plan/table_reader.h"
#include "plan/tree.h"

namespace loopledger::plan {
namespace {

constexpr std::size_t kMaxShelves = 20;
constexpr std::size_t kMaxNamedTables = 1000;
constexpr std::size_t kManyFaults = 1000;  ///< with so many, no further table is read

/// A file that has been read: its tree, and its text for quoting lines.
struct File {
  Tree tree;
  std::string text;
  bool is_plan = false;
};

class PlanReader {
 public:
  /// `asked`: where to note what is asked for, or null.
  PlanReader(const Sources& sources, Diagnostics& problems, KnownKeys* asked = nullptr)
      : sources_(sources), problems_(problems), asked_(asked) {}

  Plan read(File plan_file) {
    plan_.file = plan_file.tree.file;
    plan_file.is_plan = true;
    plan_file.tree.asked = asked_;
    files_.push_back(std::move(plan_file));
    load_shelves();
    if (has_errors(problems_)) {
      // What a shelf that can't be read would have given is not missing as well.
      add_source_lines(problems_, files_.front().tree.file, files_.front().text);
      return std::move(plan_);
    }
    // Shelf files first: what the plan says itself is read last and wins.
    for (std::size_t i = files_.size(); i-- > 0;) {
      read_top(files_[i]);
    }
    for (auto& [name, problem] : in_two_shelves_) {
      problems_.push_back(std::move(problem));
    }
    check_bench(plan_.bench, {plan_.file, 0, 0}, problems_);
    read_named_tables();
    read_all_motors();
    for (const File& file : files_) {
      add_source_lines(problems_, file.tree.file, file.text);
    }
    return std::move(plan_);
  }

 private:
  void load_shelves() {
    const File& plan_file = files_.front();
    TableReader reader(plan_file.tree, plan_file.tree.root(), "the plan", problems_);
    for (const Node* node : reader.list("take", kMaxShelves)) {
      const auto path = reader.text_of(*node, "take", kMaxTextLength);
      if (path) {
        load_shelf(*path, node->place);
      }
    }
  }

  void load_shelf(const std::string& path, const Place& asked) {
    auto loaded = sources_.shelf(path);
    for (Diagnostic d : loaded.diagnostics()) {
      d.place = asked;
      problems_.push_back(std::move(d));
    }
    if (!loaded) {
      return;
    }
    auto tree = parse_tree(loaded->text, loaded->file);
    append(problems_, tree.diagnostics());
    if (tree) {
      tree->asked = asked_;
      files_.push_back({std::move(*tree), std::move(loaded->text), false});
    }
  }

  void read_top(const File& file) {
    TableReader reader(file.tree, file.tree.root(), file.is_plan ? "the plan" : "the shelf file",
                       problems_);
    read_format(reader, file.is_plan);
    read_settings(reader);
    if (const Node* const bench = section(reader, "bench")) {
      TableReader inner(file.tree, *bench, "[bench]", problems_);
      read_bench(inner, plan_.bench);
    }
    for (const std::string_view name :
         {"rules", "strips", "rings", "lubricants", "adhesives", "recipes"}) {
      collect(reader, name, file);
    }
    if (file.is_plan) {
      read_plan_only(reader);
    }
    reader.finish();
  }

  void read_format(TableReader& reader, bool is_plan) {
    Placed<int> format;
    reader.read("format", format, Bounds<int>{1, 1});
    if (is_plan && format.place.line == 0) {
      reader.problem("plan-format", "expected `format = 1` at the top, found none",
                     "write format = 1 as the plan's first line", {plan_.file, 1, 1});
    }
  }

  void read_settings(TableReader& reader) {
    reader.read("paper", plan_.paper);
    reader.read("labels", plan_.labels);
    reader.read("slip", plan_.slip);
    reader.read("records", plan_.records);
    Placed<std::string> units;
    reader.read("units", units, kMaxNameLength);
    if (units.given && units.value != "metric" && units.value != "inch") {
      reader.problem(
          "plan-value",
          fmt::format("units: expected \"metric\" or \"inch\", found \"{}\"", units.value),
          "which of the two leads on paper; a plan may use both in its values", units.place);
    } else if (units.given) {
      plan_.units = units.value == "inch" ? Units::inch : Units::metric;
      plan_.units_given = true;
    }
    read_link(reader);
  }

  void read_link(TableReader& reader) {
    Placed<std::string> link;
    reader.read("link", link);
    if (!link.given) {
      return;
    }
    const bool address = link.value.starts_with("https://") || link.value.starts_with("http://");
    const bool plain = std::ranges::all_of(link.value, [](char c) { return c > ' ' && c < 127; });
    if (!address || !plain || link.value.find("{id}") == std::string::npos) {
      reader.problem("plan-value",
                     "link: expected a web address with {id} where the motor's id goes",
                     "such as \"https://example.org/m/{id}\"", link.place);
      return;
    }
    plan_.link = link;
  }

  void read_plan_only(TableReader& reader) {
    reader.read("title", plan_.title);
    reader.find("take");
    reader.find("motors");
    if (const Node* const node = reader.find("date")) {
      plan_.date.place = node->place;
      std::optional<Date> date;
      if (node->type == Node::Type::date) {
        date = node->date;
      } else if (node->type == Node::Type::text) {
        date = date_from_iso(trimmed(node->text));
      }
      if (date && is_valid(*date)) {
        plan_.date.value = *date;
        plan_.date.given = true;
      } else {
        reader.problem("plan-value", "date: expected a date such as 2026-01-31",
                       "year, month and day, without quotes", node->place);
      }
    }
  }

  const Node* section(TableReader& reader, std::string_view name) {
    const Node* const node = reader.find(name);
    if (node != nullptr && node->type != Node::Type::table) {
      reader.problem("plan-type",
                     fmt::format("{}: expected a table, found {}", name, type_name(node->type)),
                     fmt::format("write [{}] on a line of its own", name), node->place);
      return nullptr;
    }
    return node;
  }

  void collect(TableReader& reader, std::string_view kind, const File& file) {
    const Node* const node = section(reader, kind);
    if (node == nullptr) {
      return;
    }
    auto& tables = named_[std::string(kind)];
    for (const Member& member : node->members) {
      const Node& table = file.tree.at(member.node);
      if (table.type != Node::Type::table) {
        reader.problem("plan-type",
                       fmt::format("{}: expected a table [{}.NAME], found the key `{}`", kind, kind,
                                   shortened(member.key, 60)),
                       fmt::format("write [{}.NAME] on a line of its own, NAME being yours", kind),
                       member.key_place);
        continue;
      }
      add_named(tables, {member.key, &file.tree, &table}, file.is_plan, kind, member.key_place);
    }
  }

  void add_named(std::vector<NamedTable>& tables, const NamedTable& table, bool from_plan,
                 std::string_view kind, const Place& place) {
    if (code_point_count(table.name) > kMaxNameLength || printable(table.name) != table.name ||
        trimmed(table.name).empty()) {
      problems_.push_back(error(
          "plan-bounds",
          fmt::format("{}: expected a name of 1 to {} plain characters", kind, kMaxNameLength), {},
          place));
      return;
    }
    const auto same = std::ranges::find(tables, table.name, &NamedTable::name);
    const std::pair key{std::string(kind), table.name};
    if (same == tables.end()) {
      tables.push_back(table);
      if (tables.size() == kMaxNamedTables + 1) {
        problems_.push_back(error(
            "plan-bounds", fmt::format("{}: expected at most {} tables", kind, kMaxNamedTables),
            "take out those that no motor uses", place));
      }
    } else if (from_plan) {
      *same = table;
      in_two_shelves_.erase(key);
    } else {
      in_two_shelves_.insert_or_assign(
          key, error("plan-twice", fmt::format("{} \"{}\" is in two shelf files", kind, table.name),
                     "take it out of one, or write it in the plan", place));
    }
  }

  /// Faults without an end: the rest is not read, and that is said once.
  bool too_many_faults(const Place& place) {
    if (problems_.size() < kManyFaults) {
      return false;
    }
    problems_.push_back(error(
        "plan-bounds", fmt::format("more than {} faults; what follows is not read", kManyFaults),
        "put these right first", place));
    return true;
  }

  /// Each table of a kind, until there are too many faults.
  template <class Read>
  void for_each_named(const std::string& kind, const Read& read) {
    for (const NamedTable& table : named_[kind]) {
      if (problems_.size() < kManyFaults) {
        read(table);
      }
    }
  }

  void read_named_tables() {
    using Table = const NamedTable&;
    for_each_named("rules",
                   [&](Table t) { plan_.rules.push_back(read_rule(t, sources_, problems_)); });
    for_each_named("strips", [&](Table t) { plan_.strips.push_back(read_strip(t, problems_)); });
    for_each_named("rings", [&](Table t) { plan_.rings.push_back(read_rings(t, problems_)); });
    for_each_named("lubricants",
                   [&](Table t) { plan_.lubricants.push_back(read_lubricant(t, problems_)); });
    for_each_named("adhesives",
                   [&](Table t) { plan_.adhesives.push_back(read_adhesive(t, problems_)); });
    for_each_named("recipes",
                   [&](Table t) { plan_.recipes.push_back(read_recipe(t, sources_, problems_)); });
    if (plan_.strips.empty()) {
      problems_.push_back(
          error("plan-missing", "expected a strip to cut from, found none",
                "add a table [strips.NAME] with samples = [[\"500 mm\", \"1.214 g\"]]",
                {plan_.file, 0, 0}));
    }
  }

  void read_all_motors() {
    const File& file = files_.front();
    TableReader reader(file.tree, file.tree.root(), "the plan", problems_);
    if (const Node* const node = reader.find("motors");
        node != nullptr && node->type == Node::Type::table) {
      reader.problem("plan-type", "motors: expected [[motors]], found [motors]",
                     "two brackets on each side: a plan may have several groups of motors",
                     node->place);
      return;
    }
    const std::vector<const Node*> tables = reader.list("motors", kMaxMotors);
    int total = 0;
    for (const Node* node : tables) {
      if (too_many_faults(node->place)) {
        return;
      }
      if (node->type != Node::Type::table) {
        reader.problem("plan-type", "motors: expected [[motors]] tables", {}, node->place);
        continue;
      }
      plan_.motors.push_back(read_motors(file.tree, *node, plan_, problems_));
      total += plan_.motors.back().count.value;
      check_ids_once(plan_.motors.size() - 1);
    }
    if (total > kMaxMotors) {
      reader.problem(
          "plan-bounds",
          fmt::format("the plan has {} motors, at most {} fit one plan", total, kMaxMotors),
          "split the plan", tables.front()->place);
    }
    if (tables.empty() && reader.find("motors") == nullptr) {
      problems_.push_back(
          error("plan-missing", "expected at least one [[motors]] table, found none",
                "add [[motors]] with id, count and mass or loop", {plan_.file, 0, 0}));
    }
  }

  /// The first group that has a number of the newest one; its own numbers are noted.
  std::optional<std::size_t> first_to_share(std::size_t newest) {
    const MotorGroup& group = plan_.motors[newest];
    auto& taken = taken_[group.stem.value];
    const int end = group.first.value + group.count.value;
    std::optional<std::size_t> first;
    int from = group.first.value;
    auto at = taken.upper_bound(from);
    if (at != taken.begin() && std::prev(at)->second.end > from) {
      --at;
    }
    while (from < end) {
      const int gap_end = at == taken.end() ? end : std::min(end, at->first);
      if (from < gap_end) {
        taken.emplace_hint(at, from, Run{gap_end, newest});
      }
      if (gap_end == end) {
        break;
      }
      first = std::min(first.value_or(newest), at->second.group);
      from = at->second.end;
      ++at;
    }
    return first;
  }

  void check_ids_once(std::size_t newest) {
    const MotorGroup& group = plan_.motors[newest];
    const auto first = first_to_share(newest);
    if (!group.stem.given || !first) {
      return;
    }
    const MotorGroup& other = plan_.motors[*first];
    const int number = std::max(group.first.value, other.first.value);
    problems_.push_back(
        error("plan-twice",
              fmt::format("{} is planned twice; the first time in line {}",
                          printed(MotorId{group.stem.value, number}), other.place.line),
              fmt::format("first = {}, or another id", other.first.value + other.count.value),
              group.first.given ? group.first.place : group.stem.place));
  }

  /// Numbers that follow each other, up to before `end`, and the first group that has them.
  struct Run {
    int end = 0;
    std::size_t group = 0;
  };

  const Sources& sources_;
  Diagnostics& problems_;
  KnownKeys* asked_;
  Plan plan_;
  std::deque<File> files_;  ///< the plan first; trees are pointed into, so they must stay put
  std::map<std::string, std::vector<NamedTable>> named_;
  /// By kind and name: no fault once the plan itself has such a table.
  std::map<std::pair<std::string, std::string>, Diagnostic> in_two_shelves_;
  std::map<std::string, std::map<int, Run>> taken_;  ///< by stem, and the first number of a run
};

}  // namespace

namespace {

/// People go through a file from top to bottom; files come in the order in which they were met.
void sort_by_place(Diagnostics& problems) {
  std::vector<std::string> files;
  for (const Diagnostic& d : problems) {
    if (std::ranges::find(files, d.place.file) == files.end()) {
      files.push_back(d.place.file);
    }
  }
  const auto rank = [&files](const Diagnostic& d) {
    return std::tuple(std::ranges::find(files, d.place.file) - files.begin(), d.place.line,
                      d.place.column);
  };
  std::ranges::stable_sort(problems, {}, rank);
}

}  // namespace

Result<Plan> read_plan(std::string_view text, const std::string& file, const Sources& sources) {
  auto tree = parse_tree(text, file);
  if (!tree) {
    return tree.diagnostics();
  }
  Diagnostics problems;
  Plan plan = PlanReader(sources, problems).read({std::move(*tree), std::string(text), true});
  sort_by_place(problems);
  if (has_errors(problems)) {
    return problems;
  }
  return {std::move(plan), std::move(problems)};
}

KnownKeys known_keys() {
  // One table of each kind; keys that are read in a way of their own only when they are there.
  constexpr std::string_view kPlan =
      "format = 1\ntake = [\"SHELF\"]\nbench = {}\nrules.NAME = { counts = [\"rubber\"] }\n"
      "strips.NAME = { samples = [[\"1 m\", \"1 g\"]], pieces = [{}] }\n"
      "rings.NAME = {}\nlubricants.NAME = {}\nadhesives.NAME = {}\n"
      "recipes.NAME = { steps = [{}] }\nmotors = [{ mass = \"1 g\" }]\n";
  Sources sources;
  sources.shelf = [](const std::string&) { return Loaded{"SHELF", "format = 1\n"}; };
  sources.from_templates = [](const std::string&, const std::string&) { return Loaded{}; };
  auto tree = parse_tree(kPlan, "PLAN");
  KnownKeys keys;
  if (tree) {
    Diagnostics faults;  // of a plan that says next to nothing
    (void)PlanReader(sources, faults, &keys).read({std::move(*tree), std::string(kPlan), true});
  }
  return keys;
}

}  // namespace loopledger::plan
