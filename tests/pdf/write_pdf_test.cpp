// SPDX-License-Identifier: MIT
#include "pdf/write_pdf.h"

#include <doctest/doctest.h>

#include <cmath>

#include "pdf/own_mark.h"
#include "support/own_fonts.h"
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
  const auto refused = pdf::write_pdf({}, test::fonts());
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.diagnostics()[0].code == "pdf-empty");
}

TEST_CASE("a third font face is refused") {
  page::Document document = with_text(page::Face::sheet);
  for (const page::Face face : {page::Face::sheet_bold, page::Face::label}) {
    document.pages[0].items.emplace_back(page::Text{.x = 20, .y = 30, .face = face, .utf8 = "a"});
  }
  const auto refused = pdf::write_pdf(document, test::fonts());
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.diagnostics()[0].code == "pdf-faces");
}

TEST_CASE("a text longer than the format takes is refused, not cut off silently") {
  page::Document document = with_text(page::Face::sheet);
  std::get<page::Text>(document.pages[0].items[0]).utf8 = std::string(70000, 'a');
  const auto refused = pdf::write_pdf(document, test::fonts());
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.diagnostics()[0].code == "pdf-text");
}

TEST_CASE("a font file that is not there is an error, not a page without text") {
  const auto refused = pdf::write_pdf(with_text(page::Face::label), test::fonts_in("/nowhere"));
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.diagnostics()[0].code == "disk-font");
  CHECK(refused.diagnostics()[0].message.find("/nowhere/RobotoCondensed-Regular.ttf") !=
        std::string::npos);
}

TEST_CASE("what the library refuses in the middle of a page is an error") {
  page::Document document = with_text(page::Face::label);
  std::get<page::Text>(document.pages[0].items[0]).size_pt = -1;
  const auto refused = pdf::write_pdf(document, test::fonts());
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.diagnostics()[0].code == "pdf-write");
}

/// The code of what a document with this one text is refused for; empty when it is written.
std::string refused_for(const std::string& utf8) {
  page::Document document = with_text(page::Face::sheet);
  std::get<page::Text>(document.pages[0].items[0]).utf8 = utf8;
  const auto made = pdf::write_pdf(document, test::fonts());
  return made.ok() ? std::string() : made.diagnostics()[0].code;
}

TEST_CASE("a text that the library would cut or blank without a word is refused") {
  CHECK(refused_for("plain") == "");
  CHECK(refused_for(std::string("a\0b", 3)) == "pdf-text");
  CHECK(refused_for("a\tb") == "pdf-text");
  CHECK(refused_for("a\xff") == "pdf-text");
  CHECK(refused_for("a😀") == "pdf-text");
}

TEST_CASE("a place that is no number, or far off every page, is refused") {
  for (const double bad : {std::nan(""), HUGE_VAL, -1e6}) {
    for (const page::Item& item :
         {page::Item(page::Line{.x2 = bad}), page::Item(page::Box{.h = bad}),
          page::Item(page::Text{.y = bad, .utf8 = "a"}),
          page::Item(page::Qr{.x = bad, .symbol = {}, .text = ""})}) {
      page::Document document = with_text(page::Face::sheet);
      document.pages[0].items.push_back(item);
      const auto refused = pdf::write_pdf(document, test::fonts());
      REQUIRE_FALSE(refused.ok());
      CHECK(refused.diagnostics()[0].code == "pdf-place");
    }
  }
}

TEST_CASE("a bookmark of a page that is not there is refused") {
  page::Document document = with_text(page::Face::sheet);
  document.outline.push_back({.title = "Anna", .page = 1});
  const auto refused = pdf::write_pdf(document, test::fonts());
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.diagnostics()[0].code == "pdf-outline");
}

TEST_CASE("a page of a size that no PDF can have is an error") {
  page::Document document = with_text(page::Face::sheet);
  document.pages[0].width = 0.5;
  const auto refused = pdf::write_pdf(document, test::fonts());
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.diagnostics()[0].code == "pdf-write");
}

TEST_CASE("the mark is the file's own size: with more, less or other bytes it is another's file") {
  const auto made = pdf::write_pdf(with_text(page::Face::sheet), test::fonts());
  REQUIRE(made.ok());
  const auto head = std::string_view(*made).substr(0, pdf::kMarkWithin);
  CHECK(pdf::has_mark(head, made->size()));
  CHECK_FALSE(pdf::has_mark(head, made->size() + 1));
  CHECK_FALSE(pdf::has_mark(head.substr(1), made->size()));
  CHECK_FALSE(pdf::has_mark("", 0));
  std::string unmarked = "%PDF-1.6 and no place for a mark";
  CHECK_FALSE(pdf::put_mark(unmarked));
}

TEST_CASE("a document of very many pages bears the mark where it is looked for") {
  page::Document document;
  document.pages.resize(1001);
  const auto many = pdf::write_pdf(document, test::fonts());
  document.pages.resize(1000);
  const auto flat = pdf::write_pdf(document, test::fonts());
  for (const auto* made : {&many, &flat}) {
    REQUIRE(made->ok());
    CHECK(pdf::has_mark(std::string_view(**made).substr(0, pdf::kMarkWithin), (*made)->size()));
  }
}

TEST_CASE("the same document twice is the same bytes") {
  const page::Document document = with_text(page::Face::sheet);
  const auto one = pdf::write_pdf(document, test::fonts());
  const auto two = pdf::write_pdf(document, test::fonts());
  REQUIRE(one.ok());
  CHECK(*one == *two);
  CHECK(one->find("CreationDate") == std::string::npos);
}

}  // namespace
