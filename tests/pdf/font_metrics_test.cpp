// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>
#include <hpdf.h>

#include <array>

#include "pdf/fonts.h"
#include "support/own_fonts.h"
#include "support/pdf_tools.h"

namespace {

using namespace loopledger;

constexpr std::array kFaces{page::Face::sheet, page::Face::sheet_bold, page::Face::label,
                            page::Face::label_bold};

TEST_CASE("widths are those that the PDF library draws, in every face and language") {
  HPDF_Doc pdf = HPDF_New(nullptr, nullptr);
  HPDF_UseUTFEncodings(pdf);
  for (const page::Face face : kFaces) {
    const char* name = HPDF_LoadTTFontFromFile(pdf, test::fonts().of(face).name.c_str(), HPDF_TRUE);
    REQUIRE(name != nullptr);
    HPDF_Font font = HPDF_GetFont(pdf, name, "UTF-8");
    for (const std::string text :
         {"TH-01-J", "1.468–1.471 g", "Żaneta Źdźbłowicz-Łączyńska", "Řehoř Žluťoučký-Křepelka",
          "Ευανθία Ψαροκαπνίδου", "Щавель Ёжиков-Журавлёв", "½ × 2.38 mm · 8 % ± …", "(\\)", ""}) {
      const std::string copy = text;
      std::vector<HPDF_BYTE> bytes(copy.begin(), copy.end());
      const HPDF_TextWidth drawn =
          HPDF_Font_TextWidth(font, bytes.data(), static_cast<HPDF_UINT>(bytes.size()));
      CAPTURE(copy);
      CHECK(test::metrics().width_mm(copy, face, 72) ==
            doctest::Approx(drawn.width * 25.4 / 1000).epsilon(1e-9));
    }
  }
  HPDF_Free(pdf);
}

TEST_CASE("the sheets' and labels' languages are all in the fonts") {
  for (const page::Face face : kFaces) {
    for (const char32_t c : U"ĄąĘęŁłŻżŹźŚśŘřŠšŽžŤťůŬÄßØþİğΑΩάώПЯЁёїґ±×–…·½°%§") {
      CAPTURE(static_cast<unsigned>(c));
      CHECK((c == 0 || test::metrics().has(c, face)));
    }
  }
}

TEST_CASE("what could only be drawn wrongly counts as absent") {
  CHECK_FALSE(test::metrics().has(U'\u0634', page::Face::sheet));      // joins its neighbours
  CHECK_FALSE(test::metrics().has(U'\u05D0', page::Face::sheet));      // runs from the right
  CHECK_FALSE(test::metrics().has(U'\U0001F600', page::Face::sheet));  // beyond U+FFFF
  CHECK_FALSE(test::metrics().has(U'\u4E00', page::Face::label));      // not in the face
}

TEST_CASE("a font that is not there is an error that names it") {
  const auto none = pdf::load_metrics(test::fonts_in("/nowhere"));
  REQUIRE_FALSE(none.ok());
  CHECK(none.diagnostics()[0].code == "disk-font");
  CHECK(none.diagnostics()[0].message.find("/nowhere/DejaVuSansCondensed.ttf") !=
        std::string::npos);
}

}  // namespace
