// SPDX-License-Identifier: MIT
//
// Font files that are none, or not whole: told before anything is drawn with them.
#include "pdf/font_file.h"

#include <doctest/doctest.h>

#include <memory>

#include "pdf/write_pdf.h"
#include "support/pdf_tools.h"

namespace {

using namespace loopledger;

std::string sheet_font() { return *test::fonts().sheet.bytes; }

/// What the writer says of a font of these bytes, and whether the metrics took it; empty: nothing.
std::string code_for(const std::string& bytes, bool* measured = nullptr) {
  pdf::Fonts fonts = test::fonts();
  fonts.sheet = {"font.ttf", std::make_shared<const std::string>(bytes)};
  page::Document document;
  document.pages.emplace_back();
  document.pages[0].items.emplace_back(page::Text{.x = 20, .y = 20, .utf8 = "Żółć"});
  const auto made = pdf::write_pdf(document, fonts);
  const bool metrics = pdf::load_metrics(fonts).ok();
  if (measured != nullptr) {
    *measured = metrics;
  } else {
    CHECK(made.ok() == metrics);
  }
  return made.ok() ? "" : made.diagnostics()[0].code;
}

TEST_CASE("the program's own fonts are whole") {
  CHECK(code_for(sheet_font()) == "");
  for (const pdf::FontFile& font :
       {test::fonts().sheet_bold, test::fonts().label, test::fonts().label_bold}) {
    CHECK(pdf::font_problems(font).empty());
  }
}

TEST_CASE("a font cut off anywhere is an error") {
  const std::string whole = sheet_font();
  REQUIRE(whole.size() > 100000);
  for (const std::size_t size : {std::size_t{0}, std::size_t{3}, std::size_t{12}, std::size_t{100},
                                 std::size_t{1000}, whole.size() / 2, whole.size() - 10}) {
    CAPTURE(size);
    CHECK(code_for(whole.substr(0, size)) == "disk-font");
  }
}

TEST_CASE("a file that is no TrueType font, or has no outlines, is an error") {
  const std::string whole = sheet_font();
  CHECK(code_for("no font at all, but a letter of some length that goes on") == "disk-font");
  CHECK(code_for("OTTO" + whole.substr(4)) == "disk-font");
  for (const char* table : {"glyf", "cmap", "head", "hmtx"}) {
    std::string without = whole;
    without.replace(without.find(table), 4, "none");
    CHECK(code_for(without) == "disk-font");
  }
  std::string tables = whole;
  tables[4] = tables[5] = '\xff';
  CHECK(code_for(tables) == "disk-font");
}

TEST_CASE("what is wrong inside a table comes back from the library as an error") {
  std::string bytes = sheet_font();
  const std::size_t entry = bytes.find("cmap");
  const auto byte = [&](std::size_t i) {
    return static_cast<std::size_t>(static_cast<unsigned char>(bytes[entry + i]));
  };
  const std::size_t cmap = byte(8) << 24U | byte(9) << 16U | byte(10) << 8U | byte(11);
  bytes.replace(cmap, 64, std::string(64, '\x7f'));  // no table of characters that it knows
  bool measured = false;
  CHECK(code_for(bytes, &measured) == "pdf-write");
}

}  // namespace
