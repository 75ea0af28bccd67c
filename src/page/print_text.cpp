// SPDX-License-Identifier: MIT
#include "page/print_text.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/letters.h"
#include "base/text.h"

namespace loopledger::page {
namespace {

constexpr char32_t kNoBreakSpace = 0x00A0;

std::string quoted(char32_t c) { return "“" + to_utf8(std::span(&c, 1)) + "”"; }

/// “☃” (U+2603); what has no shape of its own goes by its number alone, a mark stands on a ring.
std::string named(char32_t c) {
  const bool shapeless = (c >= 0xE000 && c <= 0xF8FF) || c >= 0xF0000 || (c & 0xFFFEu) == 0xFFFEu ||
                         (c >= 0xFDD0 && c <= 0xFDEF) || is_control_code(c) || is_invisible(c);
  std::string number = fmt::format("U+{:04X}", static_cast<unsigned>(c));
  if (shapeless) {
    return number;
  }
  return (is_mark(c) ? "“◌" + quoted(c).substr(std::string_view("“").size()) : quoted(c)) + " (" +
         number + ")";
}

/// A space or hyphen for one of a rarer kind, else 0.
char32_t ordinary(char32_t c) {
  if (c == 0x202F || c == 0x2007) {
    return kNoBreakSpace;
  }
  if ((c >= 0x2000 && c <= 0x200A) || c == 0x205F || c == 0x3000) {
    return U' ';
  }
  return c == 0x2010 || c == 0x2011 ? U'-' : U'\0';
}

class Printing {
 public:
  Printing(Face face, const FontMetrics& metrics) : face_(face), metrics_(metrics) {}

  void add(char32_t c) {
    if (is_control_code(c)) {
      put(U' ');
    } else if (is_invisible(c)) {
      return;
    } else if (runs_from_right(c) || joins_neighbours(c)) {
      add_script(c);
    } else if (is_mark(c)) {
      add_mark(c);
    } else if (metrics_.has(c, face_)) {
      put(c);
    } else {
      add_lacking(c);
    }
  }

  PrintText done() {
    say_script();
    if (!lacking_.empty()) {
      say("page-glyph",
          fmt::format("the fonts can't show {}, “?” is printed instead{}",
                      fmt::join(lacking_, ", "), lacking_.size() > 1 ? " of each" : ""));
    }
    return {to_utf8(out_), std::move(replaced_)};
  }

 private:
  void put(char32_t c) {
    if (c != U' ' && c != kNoBreakSpace) {
      say_script();
    }
    out_.push_back(c);
    last_shown_ = c != U' ';
  }

  void say(const char* code, std::string message) {
    const bool said = std::any_of(replaced_.begin(), replaced_.end(),
                                  [&](const Replaced& r) { return r.message == message; });
    if (!said) {
      replaced_.push_back({code, std::move(message)});
    }
  }

  /// All words of such a script that follow each other are told as one.
  void add_script(char32_t c) {
    if (!script_.empty() && runs_from_right(c) != from_right_) {
      say_script();
    }
    if (script_.empty()) {
      script_begin_ = out_.size();
      from_right_ = runs_from_right(c);
    }
    for (std::size_t i = script_begin_ + script_.size(); i < out_.size(); ++i) {
      script_.push_back(U' ');
    }
    script_.push_back(c);
    out_.push_back(U'?');
    last_shown_ = false;
  }

  void say_script() {
    if (script_.empty()) {
      return;
    }
    say("page-script",
        fmt::format("“{}” {}, “?” is printed for each letter", to_utf8(script_),
                    from_right_ ? "runs from right to left, which can't be laid out"
                                : "has letters that join or stack, which can't be laid out"));
    script_.clear();
  }

  void add_mark(char32_t mark) {
    if (!last_shown_) {
      return;  // of a character that is told of itself, or of none
    }
    const std::string letter = quoted(out_.back());
    say("page-glyph", fmt::format("the fonts can't set {} on {}, {} is printed without it",
                                  named(mark), letter, letter));
  }

  void add_lacking(char32_t c) {
    if (const char32_t same = ordinary(c); same != 0) {
      put(same);
      return;
    }
    char32_t letter = without_mark(c);
    while (letter != 0 && !metrics_.has(letter, face_)) {
      letter = without_mark(letter);
    }
    put(letter != 0 ? letter : U'?');
    if (letter != 0) {
      say("page-glyph",
          fmt::format("the fonts can't show {}, {} is printed instead", named(c), quoted(letter)));
      return;
    }
    last_shown_ = false;
    if (std::find(lacking_.begin(), lacking_.end(), named(c)) == lacking_.end()) {
      lacking_.push_back(named(c));
    }
  }

  Face face_;
  const FontMetrics& metrics_;
  std::vector<char32_t> out_;
  bool last_shown_ = false;  ///< the last of `out_` is what the text says there
  std::vector<char32_t> script_;
  std::size_t script_begin_ = 0;
  bool from_right_ = false;
  std::vector<std::string> lacking_;
  std::vector<Replaced> replaced_;
};

}  // namespace

PrintText print_text(std::string_view utf8, Face face, const FontMetrics& metrics) {
  if (std::all_of(utf8.begin(), utf8.end(), [](char c) { return c >= ' ' && c < 0x7F; })) {
    return {std::string(utf8), {}};
  }
  Printing printing(face, metrics);
  const std::vector<char32_t> points = code_points(utf8);
  for (const char32_t c : composed(std::span<const char32_t>(points))) {
    printing.add(c);
  }
  return printing.done();
}

}  // namespace loopledger::page
