// SPDX-License-Identifier: MIT
#include "plan/tree.h"

#include <doctest/doctest.h>

#include <string>

using namespace loopledger;
using plan::parse_tree;

namespace {

Diagnostic only_fault(std::string_view text) {
  const auto tree = parse_tree(text, "p.toml");
  REQUIRE_FALSE(tree.ok());
  REQUIRE(tree.diagnostics().size() == 1);
  return tree.diagnostics().front();
}

}  // namespace

TEST_CASE("keys come in the order of the file, with the place of key and value") {
  const auto tree = parse_tree("b = 1\na = \"x\"\n", "p.toml");
  REQUIRE(tree.ok());
  const auto& members = tree->root().members;
  REQUIRE(members.size() == 2);
  CHECK(members[0].key == "b");
  CHECK(members[1].key == "a");
  CHECK(members[1].key_place.line == 2);
  CHECK(tree->at(members[1].node).place.column == 5);
}

TEST_CASE("an empty or blank file says how to get a plan") {
  for (const char* text : {"", " \n\t\n"}) {
    CHECK(render(only_fault(text)) ==
          "p.toml: error: the file is empty [toml-empty]\n"
          "  hint: `loopledger new PLAN` writes one to start from\n");
  }
}

TEST_CASE("a byte that is not UTF-8 is shown with its place") {
  const Diagnostic d = only_fault("a = 1\nb = \"x\xff\"\n");
  CHECK(d.code == "toml-utf8");
  CHECK(d.place.line == 2);
  CHECK(d.place.column == 7);
  CHECK(d.message == "expected UTF-8 text, found the byte 0xff");
}

TEST_CASE("a syntax fault quotes its line and says that quantities stand in quotes") {
  const Diagnostic d = only_fault("width = 1/8\n");
  CHECK(d.code == "toml-syntax");
  CHECK(d.place.line == 1);
  CHECK(d.source_line == "width = 1/8");
  CHECK(d.hint == "text and quantities stand in double quotes, as in mass = \"1.5 g\"");
}

TEST_CASE("a table's name with a blank says where its quotes belong") {
  const Diagnostic d = only_fault("format = 1\n[strips.red tan]\n");
  CHECK(d.place.line == 2);
  CHECK(d.hint ==
        "a table's name of more than letters, digits, - and _ stands in quotes: [strips.\"red "
        "tan\"]");
}

TEST_CASE("a key given twice, a form feed, and deep nesting are clean errors") {
  CHECK(only_fault("a = 1\na = 2\n").place.line == 2);
  CHECK(only_fault("\f!\n").code == "toml-syntax");
  CHECK(only_fault("a = " + std::string(100000, '[')).code == "toml-syntax");
}

TEST_CASE("a key of a hundred thousand parts is refused, and long keys in each other are read") {
  std::string key = "b = 1\na";
  for (int i = 0; i < 100000; ++i) {
    key += ".a";
  }
  const Diagnostic d = only_fault(key + " = 1\n");
  CHECK(d.code == "toml-size");
  CHECK(d.message == "expected keys of at most 8 parts, found a longer one");
  CHECK(d.place.line == 2);
  CHECK(d.place.column == 16);
  CHECK(d.source_line.size() < 1000);
  // As deep as both bounds let it be.
  std::string nested = "a";
  for (int i = 0; i < 250; ++i) {
    nested += ".a.a.a.a.a.a.a = { a";
  }
  nested += " = 1" + std::string(250, '}');
  CHECK(parse_tree(nested, "p.toml").ok());
}

TEST_CASE("a file over the limit is refused without being parsed") {
  CHECK(only_fault(std::string(plan::kMaxTomlBytes + 1, '#')).code == "toml-size");
}
