// SPDX-License-Identifier: MIT
//
// The schema that editors check plans by, against the reader that has the last word. To accept
// changed words or bounds in templates: LOOPLEDGER_UPDATE_GOLDEN=1 and look at the difference.
#include "json/plan_schema.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "base/quantity_pattern.h"
#include "base/quantity_text.h"
#include "support/cli_run.h"
#include "support/keyed_plan.h"
#include "support/templates.h"

using namespace loopledger;
using json::key_words;
using json::schema_keys;
using json::SchemaOf;
using json::table_words;
using test::has;
using test::KeyedPlan;
using test::run;

namespace {

const std::string kTop = LOOPLEDGER_SOURCE_DIR;

std::string file_text(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

/// Puts the program's own tables into the manual, from the first heading of a table on.
std::string with_tables(std::string manual, const std::string& tables) {
  const std::size_t from = manual.find("### ");
  const std::size_t to = manual.find("\n## ", from);
  REQUIRE(to != std::string::npos);
  return manual.replace(from, to - from, tables);
}

void accept_changes(const std::string& plan, const std::string& shelf, const std::string& tables) {
  const std::string manual = kTop + "/templates/manual/plan.md";
  const std::string text = with_tables(file_text(manual), tables);
  std::ofstream(kTop + "/templates/schema/plan.schema.json", std::ios::binary) << plan;
  std::ofstream(kTop + "/templates/schema/shelf.schema.json", std::ios::binary) << shelf;
  std::ofstream(manual, std::ios::binary) << text;
}

/// What the reader says to a plan; shelves are empty ones, templates those of the tree.
Diagnostics reads(const std::string& text) {
  plan::Sources sources = test::template_sources();
  sources.shelf = [](const std::string& path) -> Result<plan::Loaded> {
    return plan::Loaded{path, "format = 1\n"};
  };
  return plan::read_plan(text, "night.toml", sources).diagnostics();
}

/// A file each in one folder, checked against a schema in one go: "valid" or "refused …" each.
std::vector<std::string> by_schema(const std::string& schema,
                                   const std::vector<std::string>& texts) {
  const test::TempFolder folder;
  std::string command = "'" LOOPLEDGER_PYTHON "' '" + kTop + "/tests/support/schema_check.py' " +
                        folder.write("schema.json", schema);
  for (std::size_t i = 0; i < texts.size(); ++i) {
    command += " " + folder.write(std::to_string(i) + ".toml", texts[i]);
  }
  REQUIRE(std::system((command + " > " + folder.path("said")).c_str()) == 0);
  std::istringstream lines(folder.read("said"));
  std::vector<std::string> verdicts;
  for (std::string line; std::getline(lines, line);) {
    verdicts.push_back(line);
  }
  REQUIRE(verdicts.size() == texts.size());
  return verdicts;
}

std::string schema_text() { return run({"schema"}).out; }

/// All keys of a plan with their words.
std::vector<json::SchemaKey> all_keys() {
  std::vector<json::SchemaKey> keys;
  for (const json::TableWords& table : table_words()) {
    for (json::SchemaKey& key : schema_keys(table, SchemaOf::plan)) {
      keys.push_back(std::move(key));
    }
  }
  return keys;
}

bool is_table(const json::SchemaKey& key) {
  return key.words.path.empty() &&
         (key.known.key == "motors" || (key.known.kind.empty() && key.known.key != "date"));
}

/// Names a table that the invented plan calls otherwise.
bool is_reference(const json::SchemaKey& key) {
  static const std::set<std::string> kNames{"rule",      "strip",    "rings",
                                            "lubricant", "adhesive", "recipe"};
  return key.words.path == "motors" && kNames.contains(key.known.key);
}

std::string plan_with(const json::SchemaKey& key, const std::string& value) {
  return KeyedPlan().set(std::string(key.words.path), key.known.key, value).text();
}

/// A value of the key in its kind's SI unit, as a plan holds it.
std::string written(const plan::KnownKey& known, double si) {
  static const std::map<std::string, std::string> kUnits{{"length", " m\""},
                                                         {"mass", " kg\""},
                                                         {"density", " kg/m3\""},
                                                         {"time", " s\""},
                                                         {"torque factor", " Pa\""}};
  const auto unit = kUnits.find(known.kind);
  return unit == kUnits.end() ? shortest(si) : "\"" + shortest(si) + unit->second;
}

bool is_out_of_bounds(const Diagnostics& said, const std::string& key) {
  return std::ranges::any_of(said, [&](const Diagnostic& d) {
    return d.code == "plan-bounds" && d.message.starts_with(key + ": expected");
  });
}

/// A value, and whether it lies within the bounds.
std::vector<std::pair<double, bool>> about_the_bounds(const plan::KnownKey& known) {
  const bool whole = known.kind == "count";
  const auto near = [whole](double value, double towards) {
    return whole        ? value + (towards > value ? 1 : -1)
           : value == 0 ? (towards > 0 ? 1e-9 : -1e-9)
                        : std::nextafter(value, towards);
  };
  std::vector<std::pair<double, bool>> values{{known.low, !known.above_low},
                                              {known.high, true},
                                              {near(known.low, known.low - 1), false},
                                              {near(known.high, known.high + 1), false}};
  if (known.low < known.high) {
    const double inside = known.low + (known.high - known.low) / 2;
    values.emplace_back(whole ? std::floor(inside) : inside, true);
  }
  if (known.above_low) {
    values.emplace_back(near(known.low, known.high), true);
  }
  return values;
}

}  // namespace

TEST_CASE("every key that the reader asks for has its words, and there are words for no other") {
  std::set<std::pair<std::string, std::string>> told;
  for (const json::KeyWords& words : key_words()) {
    told.emplace(words.path, words.key);
    CHECK_MESSAGE((words.fallback.empty() != words.otherwise.empty()), words.key);
    CHECK_MESSAGE((!words.example.empty() && words.text.ends_with('.')), words.key);
  }
  CHECK(told.size() == key_words().size());
  std::set<std::string> tables;
  for (const json::TableWords& table : table_words()) {
    tables.emplace(table.reader);
    for (const json::SchemaKey& key : schema_keys(table, SchemaOf::plan)) {
      CHECK_MESSAGE(told.erase({std::string(table.path), key.known.key}) == 1,
                    key.known.table << ": `" << key.known.key << "` has no words in schema_words");
    }
  }
  for (const auto& [table, key] : told) {
    FAIL_CHECK("the reader does not ask for `" << key << "` in [" << table << "]");
  }
  for (const plan::KnownKey& known : plan::known_keys()) {
    CHECK_MESSAGE((tables.contains(known.table) || known.table == "the shelf file"), known.table);
  }
}

TEST_CASE("the schemas and the manual's tables in templates are the program's own") {
  const std::string shelf = run({"schema", "--shelf"}).out;
  const std::string tables = run({"schema", "--markdown"}).out;
  if (std::getenv("LOOPLEDGER_UPDATE_GOLDEN") != nullptr) {
    accept_changes(schema_text(), shelf, tables);
  }
  CHECK(file_text(kTop + "/templates/schema/plan.schema.json") == schema_text());
  CHECK(file_text(kTop + "/templates/schema/shelf.schema.json") == shelf);
  CHECK(has(file_text(kTop + "/templates/manual/plan.md"), tables + "\n## "));
  CHECK(run({"schema", "--shelf", "--markdown"}).code == 2);
}

TEST_CASE("the reader takes what lies within the bounds that are told, and nothing past them") {
  int bounded = 0;
  for (const json::SchemaKey& key : all_keys()) {
    if (!key.known.bounded) {
      continue;
    }
    ++bounded;
    for (const auto& [value, within] : about_the_bounds(key.known)) {
      const std::string typed = written(key.known, value);
      const std::string text = plan_with(key, typed);
      CAPTURE(key.known.table);
      CAPTURE(key.known.key);
      CAPTURE(typed);
      CHECK(is_out_of_bounds(reads(text), key.known.key) == !within);
    }
    const bool text = key.known.kind != "count";
    for (const std::string& bound : {key.known.low_text, key.known.high_text}) {
      if (text && (bound != key.known.low_text || !key.known.above_low)) {
        CAPTURE(key.known.key);
        CAPTURE(bound);
        CHECK_FALSE(has_errors(reads(plan_with(key, "\"" + bound + "\""))));
      }
    }
  }
  CHECK(bounded > 40);
}

TEST_CASE("each example of the schema is taken by the reader, and each default changes nothing") {
  const auto figures = [](const std::string& text) {
    return run({"check", "-", "--json"}, text).out;
  };
  static const std::set<std::string> kNotInFigures{"paper", "slip", "units", "records"};
  for (const json::SchemaKey& key : all_keys()) {
    CAPTURE(key.known.table);
    CAPTURE(key.known.key);
    const std::string table(key.words.path);
    if (!is_table(key) && !is_reference(key)) {
      const Diagnostics said = reads(plan_with(key, std::string(key.words.example)));
      CHECK_MESSAGE(!has_errors(said), render(said));
    }
    if (key.words.fallback.empty() || kNotInFigures.contains(key.known.key)) {
      continue;
    }
    const std::string without = figures(KeyedPlan().drop(table, key.known.key).text());
    CHECK(figures(plan_with(key, std::string(key.words.fallback))) == without);
    if (key.words.example != key.words.fallback) {
      CHECK(figures(plan_with(key, std::string(key.words.example))) != without);
    }
  }
}

TEST_CASE("the defaults that stand in no figure are the plan's own") {
  const auto plan = plan::read_plan(KeyedPlan().text(), "night.toml", test::template_sources());
  REQUIRE(plan);
  const auto fallback = [](std::string_view key) {
    const auto found = std::ranges::find_if(
        key_words(), [&](const auto& w) { return w.path.empty() && w.key == key; });
    return std::string(found->fallback);
  };
  CHECK(fallback("paper") == "\"" + plan->paper.value + "\"");
  CHECK(fallback("slip") == "\"" + plan->slip.value + "\"");
  CHECK(fallback("records") == "\"" + plan->records.value + "\"");
  CHECK((fallback("units") == "\"metric\"" && plan->units == Units::metric));
}

TEST_CASE("what the schema and the reader say of values in and out of bounds agrees") {
  std::vector<std::string> texts;
  std::vector<bool> taken;
  for (const json::SchemaKey& key : all_keys()) {
    if (!key.known.bounded) {
      continue;
    }
    const bool bare = key.known.kind == "count" || may_be_bare(key.known.kind);
    for (const auto& [value, within] : about_the_bounds(key.known)) {
      const bool odd = key.known.key == "strands" && std::fmod(value, 2) != 0;
      if (within || bare) {  // the bounds of a text are not an expression's to tell
        texts.push_back(plan_with(key, written(key.known, value)));
        taken.push_back(within && !odd);
      }
    }
  }
  const std::vector<std::string> verdicts = by_schema(schema_text(), texts);
  for (std::size_t i = 0; i < texts.size(); ++i) {
    CHECK_MESSAGE((verdicts[i] == "valid") == taken[i], verdicts[i] << "\n" << texts[i]);
  }
}

TEST_CASE("plans and shelves that the program takes are valid by their schema") {
  std::vector<std::string> plans{KeyedPlan().text()};
  const test::TempFolder folder;
  REQUIRE(run({"new", folder.path("new.toml")}).code == 0);
  plans.push_back(folder.read("new.toml"));
  std::vector<std::string> shelves;
  for (const auto& entry : std::filesystem::directory_iterator(kTop + "/examples")) {
    if (entry.path().extension() == ".toml") {
      (entry.path().stem() == "shelf" ? shelves : plans)
          .push_back(file_text(entry.path().string()));
    }
  }
  for (const char* kind : {"rules", "recipes"}) {
    for (const auto& entry : std::filesystem::directory_iterator(kTop + "/templates/" + kind)) {
      shelves.push_back(
          fmt::format("[{}.NAME]\ntake = \"{}\"\n", kind, entry.path().stem().string()) +
          file_text(entry.path().string()));
    }
  }
  for (const json::SchemaKey& key : all_keys()) {
    plans.push_back(plan_with(key, std::string(key.words.example)));
  }
  CHECK(plans.size() > 60);
  CHECK(shelves.size() > 10);
  const auto check = [](const std::string& schema, const std::vector<std::string>& texts) {
    const std::vector<std::string> verdicts = by_schema(schema, texts);
    for (std::size_t i = 0; i < texts.size(); ++i) {
      CHECK_MESSAGE(verdicts[i] == "valid", verdicts[i] << "\n" << texts[i]);
    }
  };
  check(schema_text(), plans);
  check(run({"schema", "--shelf"}).out, shelves);
}

namespace {

/// One fault each: of every key by its kind, then those of whole tables.
std::vector<std::string> faulty_plans() {
  std::vector<std::string> faulty;
  const auto add = [&faulty](const char* table, const char* key, const char* value) {
    faulty.push_back(KeyedPlan().set(table, key, value).text());
  };
  for (const json::SchemaKey& key : all_keys()) {
    faulty.push_back(plan_with(key, key.known.kind == "truth" ? "1" : "true"));
    if (key.known.max_length > 0 && key.known.max_items == 0) {
      faulty.push_back(plan_with(key, "\"" + std::string(key.known.max_length + 1, 'x') + "\""));
      faulty.push_back(plan_with(key, "\"a\\u202Eb\""));
    }
    if (key.known.kind == "list") {
      faulty.push_back(plan_with(key, "[1, 2]"));
    }
    if (key.known.bounded) {
      faulty.push_back(plan_with(key, "\"5 furlongs\""));
      faulty.push_back(plan_with(key, "\"1,5 g\""));
    }
    if (key.known.bounded && key.known.kind != "count" && !key.known.uncertain) {
      faulty.push_back(plan_with(key, "\"0.5 ± 0.1 mm\""));
    }
    if (key.words.otherwise == "needed" && key.known.key != "motors") {
      faulty.push_back(KeyedPlan().drop(std::string(key.words.path), key.known.key).text());
    }
  }
  for (const json::TableWords& table : table_words()) {
    faulty.push_back(KeyedPlan().set(std::string(table.path), "widht", "1").text());
  }
  add("", "format", "2");
  add("", "units", "\"imperial\"");
  add("", "link", "\"https://example.org/m\"");
  add("", "link", "\"example.org/{id}\"");
  add("", "date", "\"tomorrow\"");
  add("", "strips", "{}");
  add("", "strips", "{ \" \" = { samples = [[\"500 mm\", \"1.290 g\"]] } }");
  add("", "bench", "{ ruler_step = \"1 mm\" }");
  add("rules.NAME", "counts", "[\"lubricant\"]");
  add("rules.NAME", "counts", "[\"rubber\", \"hooks\"]");
  add("rules.NAME", "counts", "[]");
  add("rules.NAME", "weighed", "\"dry\"");
  add("strips.NAME", "samples", "[]");
  add("strips.NAME", "samples", "[[\"500 mm\"]]");
  add("strips.NAME", "samples", "[[\"500 mm\", \"1 g\", \"2 g\"]]");
  add("strips.NAME", "samples", "[\"500 mm\", \"1 g\"]");
  add("strips.NAME", "pieces", "[{ tag = \"a\" }]");
  add("recipes.NAME", "steps", "[]");
  add("recipes.NAME", "steps", "[{ repeat = 2 }]");
  add("motors", "id", "\"T-1\"");
  add("motors", "id", "\"TOOLONGID\"");
  add("motors", "strands", "3");
  add("motors", "mass", "\"most\"");
  add("motors", "loop", "300");
  const std::string whole = KeyedPlan().text();
  faulty.push_back(whole.substr(0, whole.find("[[motors]]")));
  faulty.push_back(KeyedPlan().drop("rules.NAME", "limit").text());
  faulty.push_back(KeyedPlan().drop("rules.NAME", "counts").text());
  faulty.push_back(KeyedPlan().drop("strips.NAME", "samples").text());
  return faulty;
}

}  // namespace

TEST_CASE("what the reader refuses the schema refuses too, as far as a schema can tell") {
  const std::vector<std::string> faulty = faulty_plans();
  CHECK(faulty.size() > 250);
  const std::vector<std::string> verdicts = by_schema(schema_text(), faulty);
  for (std::size_t i = 0; i < faulty.size(); ++i) {
    CHECK_MESSAGE(has_errors(reads(faulty[i])), "the reader takes it:\n" << faulty[i]);
    CHECK_MESSAGE(verdicts[i] != "valid", "the schema takes it:\n" << faulty[i]);
  }
}

TEST_CASE("every definition that the schema points to is there") {
  const std::string schema = schema_text();
  const std::size_t all = schema.find("\n  \"definitions\": {");
  REQUIRE(all != std::string::npos);
  const std::string mark = "\"#/definitions/";
  int found = 0;
  for (std::size_t at = schema.find(mark); at != std::string::npos;
       at = schema.find(mark, at + 1)) {
    const std::size_t from = at + mark.size();
    const std::string name = schema.substr(from, schema.find('"', from) - from);
    CHECK_MESSAGE(schema.find("\n    \"" + name + "\": {", all) != std::string::npos, name);
    ++found;
  }
  CHECK(found > 20);
}

TEST_CASE("a shelf's schema asks for nothing that is the plan's") {
  const std::vector<std::string> verdicts =
      by_schema(run({"schema", "--shelf"}).out,
                {"paper = \"a4\"\n", "bench = { ruler_step = \"1 mm\" }\n", "title = \"x\"\n",
                 "take = [\"other.toml\"]\n", "[[motors]]\nid = \"TH\"\n"});
  CHECK(verdicts[0] == "valid");
  CHECK(verdicts[1] == "valid");
  for (std::size_t i = 2; i < verdicts.size(); ++i) {
    CHECK(verdicts[i].starts_with("refused"));
  }
}
