// SPDX-License-Identifier: MIT
//
// Letters that are put together from parts of parts, seen on the rasterised page.
#include "pdf/glyph_parts.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <fstream>
#include <iterator>
#include <string>

#include "support/pdf_tools.h"

namespace {

using namespace loopledger;

/// Dark pixels of this text alone in a document.
long ink_of(const std::string& utf8, page::Face face) {
  const test::TempFolder folder;
  page::Document document;
  document.pages.emplace_back();
  document.pages[0].width = 100;
  document.pages[0].height = 60;
  document.pages[0].items.emplace_back(
      page::Text{.x = 10, .y = 45, .size_pt = 72, .face = face, .utf8 = utf8});
  const std::string pdf = test::written(document, folder, "letter.pdf");
  const std::string picture = test::picture_of(pdf, 1, {0, 0, 100, 60}, 72, folder, "letter");
  std::ifstream in(picture, std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(in), {}};
  REQUIRE(bytes.size() > 1000);
  return std::count_if(bytes.begin() + 20, bytes.end(),
                       [](char c) { return static_cast<std::uint8_t>(c) < 128; });
}

TEST_CASE("a letter with two marks is drawn with both of them, in every face") {
  for (const page::Face face :
       {page::Face::sheet, page::Face::sheet_bold, page::Face::label, page::Face::label_bold}) {
    CAPTURE(static_cast<int>(face));
    for (const auto& [none, one, two] :
         {std::array<std::string, 3>{"o", "ô", "ồ"}, std::array<std::string, 3>{"a", "â", "ẫ"},
          std::array<std::string, 3>{"E", "Ê", "Ế"}}) {
      const std::string letter = two;
      CAPTURE(letter);
      const long plain = ink_of(none, face);
      const long marked = ink_of(one, face);
      CHECK(marked > plain + 20);
      CHECK(ink_of(two, face) > marked + 10);
    }
  }
}

TEST_CASE("a font that can't be read has no parts") {
  CHECK(pdf::GlyphParts(pdf::FontFile{}).behind("ồ").empty());
}

}  // namespace
