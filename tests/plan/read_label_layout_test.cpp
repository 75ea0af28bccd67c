// SPDX-License-Identifier: MIT
#include "plan/read_label_layout.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <set>

#include "support/templates.h"

namespace {

using namespace loopledger;
using Kind = plan::LabelPiece::Kind;

Result<plan::LabelLayout> layout_from(const std::string& text) {
  return plan::read_label_layout(text, "mine.toml", "mine");
}

TEST_CASE("a layout's line is read as parts of words, fields and blanks") {
  const auto layout = layout_from(
      "lines = [{ name = \"turns\", show = \"wind to ____ T · ________ {torque_unit}\", "
      "or = \"a_b\", capitals = \"2.8 mm\", bold = true, wrap = 2, rank = 3 }]");
  REQUIRE_MESSAGE(layout.ok(), render(layout.diagnostics()));
  REQUIRE(layout->lines.size() == 1);
  const plan::LabelLine& line = layout->lines[0];
  CHECK(line.name == "turns");
  CHECK(line.capitals.in_mm() == doctest::Approx(2.8));
  CHECK(line.bold);
  CHECK_FALSE(line.badge);
  CHECK(line.wrap == 2);
  CHECK(line.rank == 3);
  REQUIRE(line.parts.size() == 2);
  REQUIRE(line.parts[0].size() == 3);
  CHECK(line.parts[0][0].text == "wind to ");
  CHECK(line.parts[0][1].kind == Kind::blank);
  CHECK(line.parts[0][2].text == " T");
  REQUIRE(line.parts[1].size() == 3);
  CHECK(line.parts[1][0].kind == Kind::blank);
  CHECK(line.parts[1][2].kind == Kind::field);
  CHECK(line.parts[1][2].text == "torque_unit");
  REQUIRE(line.otherwise.size() == 1);
  REQUIRE(line.otherwise[0].size() == 1);
  CHECK(line.otherwise[0][0].text == "a_b");
}

TEST_CASE("a misspelt field, an open brace and a misspelt key are each named with a hint") {
  const auto layout = layout_from(
      "lines = [{ name = \"a\", show = \"{torqe}\" },\n"
      "  { name = \"b\", show = \"{owner\" },\n"
      "  { name = \"c\", show = \"{owner}\", bolt = true }]");
  CHECK_FALSE(layout.ok());
  const std::string text = render(layout.diagnostics());
  CHECK(text.find("mine.toml:1:") != std::string::npos);
  CHECK(text.find("a label has no field {torqe}") != std::string::npos);
  CHECK(text.find("did you mean {torque}?") != std::string::npos);
  CHECK(text.find("expected a '}' behind '{'") != std::string::npos);
  CHECK(text.find("did you mean `bold`?") != std::string::npos);
}

TEST_CASE("a layout without lines, a line without a name or text, is told") {
  CHECK(render(layout_from("text = \"x\"").diagnostics()).find("expected the key `lines`") !=
        std::string::npos);
  const std::string text = render(layout_from("lines = [{ bold = true }]").diagnostics());
  CHECK(text.find("expected the key `name`") != std::string::npos);
  CHECK(text.find("expected the key `show`") != std::string::npos);
  CHECK(render(layout_from("lines = [1]").diagnostics()).find("expected tables") !=
        std::string::npos);
}

TEST_CASE("all layouts of the templates read, and show every line that a bag needs") {
  int read = 0;
  for (const auto& file :
       std::filesystem::directory_iterator(LOOPLEDGER_SOURCE_DIR "/templates/layouts")) {
    const std::string name = file.path().stem().string();
    CAPTURE(name);
    const auto layout =
        plan::read_label_layout(test::template_text("layouts", name), name + ".toml", name);
    REQUIRE_MESSAGE(layout.ok(), render(layout.diagnostics()));
    ++read;
    std::set<std::string> fields;
    for (const plan::LabelLine& line : layout->lines) {
      for (const plan::LabelPart& part : line.parts) {
        for (const plan::LabelPiece& piece : part) {
          if (piece.kind == Kind::field) {
            fields.insert(piece.text);
          }
        }
      }
    }
    if (name == "remnant") {
      CHECK(fields.contains("piece"));
      CHECK(fields.contains("left"));
      continue;
    }
    for (const char* field : {"id", "for", "mass", "loop", "strands", "lot", "date"}) {
      CAPTURE(field);
      CHECK(fields.contains(field));
    }
  }
  CHECK(read == 3);
}

}  // namespace
