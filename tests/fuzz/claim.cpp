// SPDX-License-Identifier: MIT
#include "fuzz/claim.h"

#include "base/text.h"

namespace loopledger::fuzz {
namespace {

constexpr std::size_t kMostFaults = 100;       ///< beside one for each two bytes of the input
constexpr std::size_t kMostMessage = 2000;     ///< bytes
constexpr std::size_t kMostSourceLine = 4096;  ///< bytes

/// Written apart from base/unicode.cpp: C0, C1, and what changes the direction of text or ends a
/// line (The Unicode Standard, Bidi_Control and Zl, Zp).
bool drives_a_terminal(char32_t c) {
  return c < U' ' || (c >= U'\x7f' && c < U'\xa0') || c == U'\u061c' || c == U'\u200e' ||
         c == U'\u200f' || (c >= U'\u2028' && c <= U'\u202e') || (c >= U'\u2066' && c <= U'\u2069');
}

}  // namespace

void claim(bool holds, std::string_view what, std::string_view about) {
  if (!holds) {
    throw Broken(std::string(what) + (about.empty() ? "" : ": ") + printable(about.substr(0, 400)));
  }
}

void claim_harmless(std::string_view text, bool lines) {
  claim(!first_bad_utf8(text), "ill-formed UTF-8 in what is printed", text);
  for (const char32_t c : code_points(text)) {
    claim((lines && c == U'\n') || !drives_a_terminal(c), "a control in what is printed", text);
  }
}

void claim_diagnostics(const Diagnostics& diagnostics, std::size_t input_bytes) {
  claim(diagnostics.size() <= kMostFaults + input_bytes / 2, "more faults than the input can hold");
  for (const Diagnostic& d : diagnostics) {
    claim(!d.code.empty() && !d.message.empty(), "a fault without words");
    claim(d.message.size() <= kMostMessage, "a message without an end", d.message);
    claim(d.hint.size() <= kMostMessage, "a hint without an end", d.hint);
    claim(d.source_line.size() <= kMostSourceLine, "a source line without an end");
    claim_harmless(render(d), true);
  }
}

}  // namespace loopledger::fuzz
