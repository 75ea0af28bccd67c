// SPDX-License-Identifier: MIT
#include "base/letters.h"

#include <doctest/doctest.h>

#include "base/text.h"

namespace {

using namespace loopledger;

std::string put_together(const std::string& text) {
  return to_utf8(composed(std::span<const char32_t>(code_points(text))));
}

TEST_CASE("letters and the marks behind them become single characters, in every script covered") {
  CHECK(put_together("Z\u030Cofie Ne\u030Cmcova\u0301") == "Žofie Němcová");
  CHECK(put_together("\u0395\u03B9\u0301\u03B1 \u03B9\u0308\u0301") == "Εία ΐ");
  CHECK(put_together("\u0418\u0306 \u0435\u0308 \u0406\u0308") == "Й ё Ї");
  // Two marks, in the standard's order: the one below first.
  CHECK(put_together("Vie\u0323\u0302t U\u031B\u0301") == "Việt Ứ");
}

TEST_CASE("what is one character already, or has none, stays as it is") {
  CHECK(put_together("Žofie Ñ ё ΐ") == "Žofie Ñ ё ΐ");
  CHECK(put_together("x\u0331") == "x\u0331");
  CHECK(put_together("\u0301x") == "\u0301x");
  CHECK(put_together("") == "");
}

TEST_CASE("a letter is found under its mark") {
  CHECK(without_mark(U'Ǎ') == U'A');
  CHECK(without_mark(U'ё') == U'е');
  CHECK(without_mark(U'ł') == 0);  // a letter of its own
  CHECK(without_mark(U'A') == 0);
}

TEST_CASE("scripts and signs are told apart") {
  for (const char32_t c : U"שםשلا") {
    CHECK((c == 0 || runs_from_right(c)));
  }
  for (const char32_t c : U"नयกဝ") {
    CHECK((c == 0 || joins_neighbours(c)));
  }
  for (const char32_t c : U"aÿŁώЖ½…€") {
    CAPTURE(static_cast<unsigned>(c));
    CHECK_FALSE(runs_from_right(c));
    CHECK_FALSE(joins_neighbours(c));
    CHECK_FALSE(is_mark(c));
    CHECK_FALSE(is_invisible(c));
    CHECK((c == 0 || !is_control_code(c)));
  }
  for (const char32_t c : {U'\u00AD', U'\u200B', U'\u200D', U'\u202E', U'\u2066', U'\uFE0F'}) {
    CHECK(is_invisible(c));
  }
  CHECK_FALSE(is_invisible(U'\u00A0'));
  for (const char32_t c : {U'\t', U'\n', U'\x1b', U'\x85', U'\u2028'}) {
    CHECK(is_control_code(c));
  }
}

}  // namespace
