// SPDX-License-Identifier: MIT
#include "pdf/write_pdf.h"

#include <doctest/doctest.h>

#include "support/pdf_tools.h"

namespace {

using namespace loopledger;

page::Document with_text(page::Face face) {
  page::Document document;
  document.pages.emplace_back();
  document.pages[0].items.emplace_back(page::Text{.x = 20, .y = 20, .face = face, .utf8 = "Żółć"});
  return document;
}

TEST_CASE("a document without pages is refused") {
  const auto refused = pdf::write_pdf({}, testing::fonts());
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.diagnostics()[0].code == "pdf-empty");
}

TEST_CASE("a third font face is refused") {
  page::Document document = with_text(page::Face::sheet);
  for (const page::Face face : {page::Face::sheet_bold, page::Face::label}) {
    document.pages[0].items.emplace_back(page::Text{.x = 20, .y = 30, .face = face, .utf8 = "a"});
  }
  const auto refused = pdf::write_pdf(document, testing::fonts());
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.diagnostics()[0].code == "pdf-faces");
}

TEST_CASE("a text longer than the format takes is refused, not cut off silently") {
  page::Document document = with_text(page::Face::sheet);
  std::get<page::Text>(document.pages[0].items[0]).utf8 = std::string(70000, 'a');
  const auto refused = pdf::write_pdf(document, testing::fonts());
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.diagnostics()[0].code == "pdf-text");
}

TEST_CASE("a font file that is not there is an error, not a page without text") {
  const auto refused = pdf::write_pdf(with_text(page::Face::label), pdf::fonts_in("/nowhere"));
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.diagnostics()[0].code == "pdf-write");
  CHECK(refused.diagnostics()[0].message.find("draw page 1") != std::string::npos);
}

TEST_CASE("what the library refuses in the middle of a page is an error") {
  page::Document document = with_text(page::Face::label);
  std::get<page::Text>(document.pages[0].items[0]).size_pt = -1;
  const auto refused = pdf::write_pdf(document, testing::fonts());
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.diagnostics()[0].code == "pdf-write");
}

TEST_CASE("the same document twice is the same bytes") {
  const page::Document document = with_text(page::Face::sheet);
  const auto one = pdf::write_pdf(document, testing::fonts());
  const auto two = pdf::write_pdf(document, testing::fonts());
  REQUIRE(one.ok());
  CHECK(*one == *two);
  CHECK(one->find("CreationDate") == std::string::npos);
}

}  // namespace
