// SPDX-License-Identifier: MIT
#include "json/plan_schema.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/motor_id.h"
#include "base/quantity_pattern.h"
#include "base/quantity_text.h"
#include "base/text.h"
#include "plan/table_reader.h"
#include "plan/tree.h"

namespace loopledger::json {
namespace {

constexpr const char* kDraft = "http://json-schema.org/draft-07/schema#";

Json to_definition(const std::string& name) {
  return Json::object().set("$ref", "#/definitions/" + name);
}

Json one_of_words(std::initializer_list<const char*> words) {
  Json all = Json::array();
  for (const char* word : words) {
    all.push(word);
  }
  return all;
}

/// "Fresh" passes like "fresh".
std::string in_any_case(std::string_view word) {
  std::string out;
  for (const char c : word) {
    out += fmt::format("[{}{}]", c, upper_ascii(std::string_view(&c, 1)));
  }
  return out;
}

/// One of the words as the reader takes them: in any case, with blanks around.
Json words_in_any_case(std::initializer_list<const char*> words) {
  std::string pattern;
  for (const char* word : words) {
    pattern += (pattern.empty() ? "" : "|") + in_any_case(word);
  }
  return Json::array()
      .push(Json::object().set("enum", one_of_words(words)))
      .push(Json::object()
                .set("type", "string")
                .set("pattern",
                     fmt::format("^[ \\t\\r\\n\\f\\v]*({})[ \\t\\r\\n\\f\\v]*$", pattern)));
}

/// What no text may hold, as the inside of a class of characters: what `printable` escapes.
const std::string& control_characters() {
  static const std::string kControls = [] {
    std::string out;
    char32_t from = 0;
    bool open = false;
    for (char32_t c = 0; c < 0xD800; ++c) {
      const std::string text = to_utf8(std::span(&c, 1));
      const bool control = printable(text) != text;
      if (control && !open) {
        from = c;
      } else if (!control && open) {
        out += fmt::format("\\u{:04X}-\\u{:04X}", static_cast<unsigned>(from),
                           static_cast<unsigned>(c - 1));
      }
      open = control;
    }
    return out;
  }();
  return kControls;
}

Json text_json(Json to, std::size_t max_length) {
  return to.set("type", "string")
      .set("maxLength", max_length)
      .set("pattern", fmt::format("^[^{}]*$", control_characters()));
}

std::string definition_name(const plan::KnownKey& known) {
  std::string name = known.kind + (known.uncertain ? "_uncertain" : "");
  std::ranges::replace(name, ' ', '_');
  return name;
}

Json number_bounds(Json to, const plan::KnownKey& known) {
  to.set(known.above_low ? "exclusiveMinimum" : "minimum", known.low);
  return to.set("maximum", known.high);
}

/// A quantity in quotes; a bare number too where it has no unit.
Json quantity_json(Json to, const plan::KnownKey& known) {
  const Json text = to_definition(definition_name(known));
  if (!may_be_bare(known.kind)) {
    return to.set("allOf", Json::array().push(text));
  }
  const Json number = number_bounds(Json::object().set("type", "number"), known);
  return to.set("anyOf", Json::array().push(number).push(text));
}

Json list_json(Json to, const plan::KnownKey& known, Json items) {
  return to.set("type", "array").set("maxItems", known.max_items).set("items", std::move(items));
}

Json tables_json(Json to, const std::string& name) {
  Json names = Json::object();
  names.set("maxLength", plan::kMaxNameLength);
  names.set("pattern", fmt::format("^[^{0}]*[^{0} ][^{0}]*$", control_characters()));
  return to.set("type", "object")
      .set("propertyNames", std::move(names))
      .set("additionalProperties", to_definition(name));
}

/// [["500 mm", "1.214 g"]]
Json samples_json(Json to, const plan::KnownKey& known) {
  Json pair = Json::object();
  pair.set("type", "array")
      .set("items", Json::array().push(to_definition("length")).push(to_definition("mass")))
      .set("minItems", 2)
      .set("maxItems", 2);
  return list_json(std::move(to), known, std::move(pair));
}

Json counts_json(Json to, const plan::KnownKey& known) {
  Json word = Json::object();
  word.set("anyOf", words_in_any_case({"rubber", "lubricant", "rings", "adhesive", "ring"}));
  Json rubber = Json::object();
  rubber.set("anyOf", words_in_any_case({"rubber"}));
  return list_json(std::move(to), known, std::move(word)).set("contains", std::move(rubber));
}

/// "limit", or a mass.
Json motor_mass_json(Json to) {
  Json ways = words_in_any_case({"limit"});
  return to.set("anyOf", ways.push(to_definition("mass")));
}

/// The keys that are read in a way of their own, by table and key.
using OwnWay = Json (*)(Json to, const plan::KnownKey& known);
const std::map<std::string, OwnWay>& own_ways() {
  using plan::KnownKey;
  static const std::map<std::string, OwnWay> kWays{
      {"/bench",
       [](Json to, const KnownKey&) {
         return to.set("allOf", Json::array().push(to_definition("bench")));
       }},
      {"/rules", [](Json to, const KnownKey&) { return tables_json(std::move(to), "rules"); }},
      {"/strips", [](Json to, const KnownKey&) { return tables_json(std::move(to), "strips"); }},
      {"/rings", [](Json to, const KnownKey&) { return tables_json(std::move(to), "rings"); }},
      {"/lubricants",
       [](Json to, const KnownKey&) { return tables_json(std::move(to), "lubricants"); }},
      {"/adhesives",
       [](Json to, const KnownKey&) { return tables_json(std::move(to), "adhesives"); }},
      {"/recipes", [](Json to, const KnownKey&) { return tables_json(std::move(to), "recipes"); }},
      {"/motors",
       [](Json to, const KnownKey& k) {
         return list_json(std::move(to), k, to_definition("motors"));
       }},
      {"/take",
       [](Json to, const KnownKey& k) {
         return list_json(std::move(to), k, text_json(Json::object(), k.max_length));
       }},
      {"/date",
       [](Json to, const KnownKey&) {
         return to.set("type", "string")
             .set("pattern", "^[ \\t\\r\\n\\f\\v]*[0-9]{4}-[0-9]{2}-[0-9]{2}[ \\t\\r\\n\\f\\v]*$");
       }},
      {"/units",
       [](Json to, const KnownKey&) {
         return to.set("enum", one_of_words({"metric", "inch"}));
       }},
      {"/link",
       [](Json to, const KnownKey& k) {
         return to.set("type", "string")
             .set("maxLength", k.max_length)
             .set("pattern", "^https?://[!-~]*\\{id\\}[!-~]*$");
       }},
      {"rules.NAME/counts",
       [](Json to, const KnownKey& k) { return counts_json(std::move(to), k); }},
      {"rules.NAME/weighed",
       [](Json to, const KnownKey&) {
         return to.set("anyOf", words_in_any_case({"fresh", "rested"}));
       }},
      {"strips.NAME/samples",
       [](Json to, const KnownKey& k) { return samples_json(std::move(to), k); }},
      {"strips.NAME/pieces",
       [](Json to, const KnownKey& k) {
         return list_json(std::move(to), k, to_definition("pieces"));
       }},
      {"recipes.NAME/steps",
       [](Json to, const KnownKey& k) {
         return list_json(std::move(to), k, to_definition("steps"));
       }},
      {"motors/mass", [](Json to, const KnownKey&) { return motor_mass_json(std::move(to)); }},
      {"motors/id",
       [](Json to, const KnownKey&) {
         return to.set("type", "string")
             .set("pattern", fmt::format("^[A-Za-z0-9]{{1,{}}}$", kStemMaxLength));
       }},
      {"motors/strands",
       [](Json to, const KnownKey& k) {
         return number_bounds(to.set("type", "integer").set("multipleOf", 2), k);
       }},
  };
  return kWays;
}

Json from_node(const plan::Tree& tree, const plan::Node& node) {
  using Type = plan::Node::Type;
  switch (node.type) {
    case Type::text:
      return node.text;
    case Type::whole:
      return static_cast<int>(node.whole);
    case Type::number:
      return node.number;
    case Type::truth:
      return node.truth;
    case Type::date:
      return iso(node.date);
    case Type::array: {
      Json all = Json::array();
      for (const std::size_t item : node.items) {
        all.push(from_node(tree, tree.at(item)));
      }
      return all;
    }
    case Type::table: {
      Json all = Json::object();
      for (const plan::Member& member : node.members) {
        all.set(member.key, from_node(tree, tree.at(member.node)));
      }
      return all;
    }
    default:
      return {};
  }
}

/// The value that a piece of TOML says.
Json json_of_toml(std::string_view value) {
  const auto tree = plan::parse_tree(fmt::format("x = {}", value), "schema");
  return tree ? from_node(*tree, tree->at(tree->root().members.front().node)) : Json();
}

std::string description(const SchemaKey& key) {
  const std::string bounds = bounds_text(key.known);
  std::string takes = taken_text(key.known);
  takes.front() = upper_ascii(takes.substr(0, 1)).front();
  const std::string_view without =
      key.words.otherwise.empty() ? key.words.fallback : key.words.otherwise;
  return fmt::format("{} {}{}{}. {}.", key.words.text, takes, bounds.empty() ? "" : ", ", bounds,
                     without == "needed" ? "Needed" : fmt::format("Default: {}", without));
}

Json key_json(const TableWords& table, const SchemaKey& key) {
  Json out = Json::object();
  out.set("description", description(key));
  if (!key.words.fallback.empty()) {
    out.set("default", json_of_toml(key.words.fallback));
  }
  if (!key.words.example.empty()) {
    out.set("examples", Json::array().push(json_of_toml(key.words.example)));
  }
  const auto own = own_ways().find(fmt::format("{}/{}", table.path, key.known.key));
  if (own != own_ways().end()) {
    return own->second(std::move(out), key.known);
  }
  if (key.known.kind == "count") {
    return number_bounds(out.set("type", "integer"), key.known);
  }
  if (key.known.kind == "truth") {
    return out.set("type", "boolean");
  }
  return key.known.kind == "text" ? text_json(std::move(out), key.known.max_length)
                                  : quantity_json(std::move(out), key.known);
}

Json needs(std::initializer_list<const char*> keys) {
  return Json::object().set("required", one_of_words(keys));
}

Json not_empty(std::initializer_list<const char*> keys, const char* list) {
  Json some = Json::object();
  some.set("minItems", 1);
  Json properties = Json::object();
  properties.set(list, std::move(some));
  return needs(keys).set("properties", std::move(properties));
}

/// What has to be there beside the keys that always have to.
void add_choices(Json& out, std::string_view path, SchemaOf of) {
  if (path.empty() && of == SchemaOf::plan) {
    Json bench = Json::object().set("bench", needs({"scale_step"}));
    bench.set("strips", Json::object().set("minProperties", 1));
    Json whole = needs({"bench", "strips"}).set("properties", std::move(bench));
    out.set("anyOf", Json::array().push(needs({"take"})).push(std::move(whole)));
  } else if (path == "rules.NAME") {
    out.set("anyOf", Json::array().push(needs({"take"})).push(needs({"limit", "counts"})));
  } else if (path == "recipes.NAME") {
    out.set("anyOf", Json::array().push(needs({"take"})).push(not_empty({"steps"}, "steps")));
  } else if (path == "strips.NAME") {
    out.set(
        "anyOf",
        Json::array().push(not_empty({"samples"}, "samples")).push(needs({"width", "thickness"})));
  } else if (path == "strips.NAME.pieces") {
    out.set("anyOf", Json::array().push(needs({"length"})).push(needs({"mass"})));
  } else if (path == "recipes.NAME.steps") {
    Json ways = Json::array();
    for (const char* key : {"stretch", "turns", "torque", "note", "hold", "rest"}) {
      ways.push(needs({key}));
    }
    out.set("anyOf", std::move(ways));
  }
}

void fill_table(Json& out, const TableWords& table, SchemaOf of) {
  Json properties = Json::object();
  Json required = Json::array();
  bool any = false;
  for (const SchemaKey& key : schema_keys(table, of)) {
    properties.set(key.known.key, key_json(table, key));
    // The step of the scale, and the format, may be the shelf's or left to the plan.
    const bool always = table.path != "bench" && of == SchemaOf::plan;
    if (key.words.otherwise == "needed" &&
        (always || !(table.path.empty() || table.path == "bench"))) {
      required.push(key.known.key);
      any = true;
    }
  }
  out.set("type", "object").set("properties", std::move(properties));
  if (any) {
    out.set("required", std::move(required));
  }
  add_choices(out, table.path, of);
  out.set("additionalProperties", false);
}

/// "pieces" of "strips.NAME.pieces", "rules" of "rules.NAME"
std::string definition_of(const TableWords& table) {
  std::string_view path = table.path;
  if (path.ends_with(".NAME")) {
    path.remove_suffix(5);
  }
  return std::string(path.substr(path.rfind('.') + 1));
}

Json definitions(SchemaOf of) {
  Json out = Json::object();
  std::map<std::string, Json> quantities;
  for (const plan::KnownKey& known : plan::known_keys()) {
    if (known.bounded && known.kind != "count") {
      Json one = Json::object();
      one.set("type", "string").set("maxLength", kMaxQuantityText);
      one.set("pattern", known.kind == "number" && !known.uncertain
                             ? number_pattern()
                             : quantity_pattern(known.kind, known.uncertain));
      quantities.insert_or_assign(definition_name(known), std::move(one));
    }
  }
  for (auto& [name, json] : quantities) {
    out.set(name, std::move(json));
  }
  for (const TableWords& table : table_words()) {
    if (!table.path.empty() && (of == SchemaOf::plan || table.path != "motors")) {
      Json one = Json::object();
      one.set("title", table.title).set("description", table.text);
      fill_table(one, table, of);
      out.set(definition_of(table), std::move(one));
    }
  }
  return out;
}

}  // namespace

Json plan_schema(SchemaOf of) {
  const TableWords& top = table_words().front();
  Json out = Json::object();
  out.set("$schema", kDraft);
  out.set("title", of == SchemaOf::plan ? Json(top.title) : Json("Shelf"));
  out.set("description", of == SchemaOf::plan
                             ? Json(top.text)
                             : Json("What recurs from night to night; plans take it."));
  fill_table(out, top, of);
  out.set("definitions", definitions(of));
  return out;
}

}  // namespace loopledger::json
