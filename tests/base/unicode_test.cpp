// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <string>

#include "base/text.h"

using namespace loopledger;

TEST_CASE("well-formed UTF-8 of every length is accepted") {
  CHECK_FALSE(first_bad_utf8("").has_value());
  CHECK_FALSE(first_bad_utf8("plain").has_value());
  CHECK_FALSE(first_bad_utf8("zażółć ½ 日本 🪁").has_value());
  CHECK_FALSE(first_bad_utf8("\xf4\x8f\xbf\xbf").has_value());  // U+10FFFF, the last one
}

TEST_CASE("ill-formed UTF-8 is found at its first byte") {
  CHECK(first_bad_utf8("ab\x80") == 2);            // a lone continuation
  CHECK(first_bad_utf8("a\xc0\xaf") == 1);         // overlong "/"
  CHECK(first_bad_utf8("\xe0\x80\xaf") == 0);      // overlong "/" in three bytes
  CHECK(first_bad_utf8("\xf0\x82\x82\xac") == 0);  // overlong euro sign
  CHECK(first_bad_utf8("ab\xed\xa0\x80") == 2);    // a surrogate
  CHECK(first_bad_utf8("\xf4\x90\x80\x80") == 0);  // above U+10FFFF
  CHECK(first_bad_utf8("a\xe2\x82") == 1);         // cut off
  CHECK(first_bad_utf8("a\xff") == 1);
}

TEST_CASE("code points go there and back") {
  const std::string text = "aż€🪁";
  CHECK(code_point_count(text) == 4);
  CHECK(code_points(text)[3] == U'🪁');
  CHECK(to_utf8(code_points(text)) == text);
  CHECK(to_utf8(code_points("a\xff"
                            "b")) == "a\uFFFDb");
}

TEST_CASE("terminal width counts marks as nothing and wide characters as two") {
  CHECK(terminal_width("") == 0);
  CHECK(terminal_width("TH-01") == 5);
  CHECK(terminal_width("zażółć") == 6);
  CHECK(terminal_width("e\u0301") == 1);
  CHECK(terminal_width("日本") == 4);
  CHECK(terminal_width("🪁") == 2);
}

TEST_CASE("controls never pass, letters of every language do") {
  CHECK(printable("plain zażółć 日本 ½") == "plain zażółć 日本 ½");
  CHECK(printable("a\x1b[31mred") == "a\\x1b[31mred");
  CHECK(printable("a\nb\tc\r") == "a\\x0ab\\x09c\\x0d");
  CHECK(printable(std::string_view("a\0b", 3)) == "a\\x00b");
  CHECK(printable("\x7f") == "\\x7f");
  CHECK(printable("\u0085\u009b") == "\\x85\\x9b");  // C1: next line, control sequence
  CHECK(printable("a\u202Eb") == "a\\u202eb");       // right-to-left override
  CHECK(printable("\u2066x\u2069") == "\\u2066x\\u2069");
  CHECK(printable("\u200F\u061C") == "\\u200f\\u061c");
  CHECK(printable("a\xff") == "a\\xff");
  CHECK(printable("\xed\xa0\x80") == "\\xed\\xa0\\x80");
}

TEST_CASE("no single code point leaves a control in what is printable") {
  for (char32_t point = 0; point < 0x3000; ++point) {
    const std::string shown = printable(to_utf8(std::span(&point, 1)));
    for (const char32_t p : code_points(shown)) {
      const bool control = p < 0x20 || (p >= 0x7F && p < 0xA0) || (p >= 0x202A && p <= 0x202E) ||
                           (p >= 0x2066 && p <= 0x2069);
      REQUIRE_FALSE(control);
    }
  }
}

TEST_CASE("text that is too wide is cut at a whole character and says so") {
  CHECK(shortened("TH-01", 5) == "TH-01");
  CHECK(shortened("TH-012", 5) == "TH-0…");
  CHECK(shortened("日本語", 4) == "日…");
  CHECK(shortened("日本語", 5) == "日本…");
  CHECK(terminal_width(shortened("zażółć gęślą jaźń", 10)) == 10);
  CHECK(shortened("e\u0301e\u0301", 2) == "e\u0301e\u0301");
  // A letter under a heap of marks is as narrow as without them, and as long as a page.
  std::string heap = "e";
  for (int i = 0; i < 10'000; ++i) {
    heap += "\u0301";
  }
  CHECK(shortened(heap, 10).size() < 100);
  CHECK(shortened(heap, 10).ends_with("…"));
  CHECK(shortened(heap + "x", 1) == "…");
}
