// SPDX-License-Identifier: MIT
#include "page/print_text.h"

#include <doctest/doctest.h>

#include "support/plain_metrics.h"

namespace {

using namespace loopledger;

/// Faces that lack what a test says, and the snowman.
class Lacking final : public page::FontMetrics {
 public:
  explicit Lacking(std::u32string lacking) : lacking_(std::move(lacking)) {}
  [[nodiscard]] double width_mm(const std::string& utf8, page::Face face,
                                double size_pt) const override {
    return test::kPlainMetrics.width_mm(utf8, face, size_pt);
  }
  [[nodiscard]] bool has(char32_t c, page::Face face) const override {
    return test::kPlainMetrics.has(c, face) && lacking_.find(c) == std::u32string::npos;
  }

 private:
  std::u32string lacking_;
};

struct Shown {
  std::string text;
  std::string said;  ///< "code: message", one a line
};

Shown shown(const std::string& utf8, const std::u32string& lacking = {}) {
  const page::PrintText made = page::print_text(utf8, page::Face::sheet, Lacking(lacking));
  Shown result{made.utf8, {}};
  for (const page::Replaced& replaced : made.replaced) {
    result.said += std::string(replaced.code) + ": " + replaced.message + "\n";
  }
  return result;
}

TEST_CASE("text of the fonts' languages stays as it is, and nothing is said") {
  for (const char* text : {"", "plain", "Žaneta Źdźbłowicz", "Řehoř Křepelka",
                           "Ευανθία Ψαροκαπνίδου", "Щавель Ёжиков", "½ × 2.38 mm ± 3\u00a0%"}) {
    CHECK(shown(text).text == text);
    CHECK(shown(text).said == "");
  }
}

TEST_CASE("a letter and the mark behind it are printed as one character") {
  CHECK(shown("Rene\u0301 Z\u030Cofie").text == "René Žofie");
  CHECK(shown("Rene\u0301 Z\u030Cofie").said == "");
}

TEST_CASE("a mark that is in no single character with its letter is left out, and told") {
  const Shown made = shown("x\u0331 x\u0331 E\u0323\u0301");
  CHECK(made.text == "x x Ẹ");
  CHECK(made.said ==
        "page-glyph: the fonts can't set “◌\u0331” (U+0331) on “x”, “x” is printed without it\n"
        "page-glyph: the fonts can't set “◌\u0301” (U+0301) on “Ẹ”, “Ẹ” is printed without it\n");
  CHECK(shown("\u0301").text == "");
}

TEST_CASE("a character that the face lacks is a question mark, and all of them are named") {
  const Shown one = shown("Lumi ☃");
  CHECK(one.text == "Lumi ?");
  CHECK(one.said == "page-glyph: the fonts can't show “☃” (U+2603), “?” is printed instead\n");
  const Shown two = shown("☃☃ 日本", U"日本");
  CHECK(two.text == "?? ??");
  CHECK(two.said ==
        "page-glyph: the fonts can't show “☃” (U+2603), “日” (U+65E5), “本” (U+672C), “?” is "
        "printed instead of each\n");
}

TEST_CASE("a letter with a mark that the face lacks is printed as the letter") {
  const Shown made = shown("Ǻsa Ǎ", U"ǺÅǍ");
  CHECK(made.text == "Asa A");
  CHECK(made.said ==
        "page-glyph: the fonts can't show “Ǻ” (U+01FA), “A” is printed instead\n"
        "page-glyph: the fonts can't show “Ǎ” (U+01CD), “A” is printed instead\n");
}

TEST_CASE("emoji are one question mark each, whatever is joined to them") {
  const Shown made = shown("go 😀👍🏽 👩\u200D🚀 ❤\uFE0F", U"❤");
  CHECK(made.text == "go ?? ?? ?");
  CHECK(made.said ==
        "page-glyph: the fonts can't show “😀” (U+1F600), “👍” (U+1F44D), “👩” (U+1F469), “🚀” "
        "(U+1F680), “❤” (U+2764), “?” is printed instead of each\n");
}

TEST_CASE("text from right to left is said not to be laid out, never put in a wrong order") {
  const Shown made = shown("Motor שלום עולם 12 mm");
  CHECK(made.text == "Motor ???? ???? 12 mm");
  CHECK(made.said ==
        "page-script: “שלום עולם” runs from right to left, which can't be laid out, “?” is "
        "printed for each letter\n");
  CHECK(shown("مرحبا").text == "?????");
}

TEST_CASE("letters that join or stack are said not to be laid out") {
  const Shown made = shown("नाव, שם");
  CHECK(made.text == "???, ??");
  CHECK(made.said ==
        "page-script: “नाव” has letters that join or stack, which can't be laid out, “?” is "
        "printed for each letter\n"
        "page-script: “שם” runs from right to left, which can't be laid out, “?” is printed for "
        "each letter\n");
}

TEST_CASE("what has no shape is named by its number alone") {
  CHECK(shown("\uE000\uFFFF", U"\uE000\uFFFF").said ==
        "page-glyph: the fonts can't show U+E000, U+FFFF, “?” is printed instead of each\n");
}

TEST_CASE("soft hyphens, joiners and orders of writing leave no trace, controls leave a space") {
  CHECK(shown("Gum\u00ADmi\u200B\u2060 a\u200Cb\u202Ec\u2066").text == "Gummi abc");
  CHECK(shown("a\tb\nc\x1b[2Jd\u0085e\u2028f").text == "a b c [2Jd e f");
  CHECK(shown("a\tb\u00AD").said == "");
}

TEST_CASE(
    "no-break spaces stay, and rare spaces and hyphens become ordinary where the face lacks them") {
  CHECK(shown("5\u00a0g").text == "5\u00a0g");
  CHECK(shown("5\u202fg 6\u2007g a\u2003b c\u2011d", U"\u202f\u2007\u2003\u2011").text ==
        "5\u00a0g 6\u00a0g a b c-d");
  CHECK(shown("5\u202fg\u2003", U"\u202f\u2003").said == "");
}

}  // namespace
