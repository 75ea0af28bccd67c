// SPDX-License-Identifier: MIT
#include "support/dump.h"

#include <string_view>

#include "base/quantity_text.h"

namespace loopledger::test {
namespace {

using namespace page;

/// A line of words and numbers.
class Words {
 public:
  Words& word(std::string_view text) {
    line_ += line_.empty() ? "" : " ";
    line_ += text;
    return *this;
  }
  Words& mm(double value) { return word(fixed(value, 2)); }
  [[nodiscard]] std::string end() const { return line_ + "\n"; }

 private:
  std::string line_;
};

std::string_view name(Face face) {
  switch (face) {
    case Face::sheet:
      return "sheet";
    case Face::sheet_bold:
      return "sheet-bold";
    case Face::label:
      return "label";
    case Face::label_bold:
      return "label-bold";
  }
  return "?";
}

std::string_view name(Align align) {
  return align == Align::left ? "left" : align == Align::centre ? "centre" : "right";
}

struct Describe {
  std::string operator()(const Line& l) const {
    return Words().word("line").mm(l.x1).mm(l.y1).mm(l.x2).mm(l.y2).word("width").mm(l.width).end();
  }
  std::string operator()(const Polyline& l) const {
    Words words;
    words.word("polyline");
    for (const Polyline::Point& p : l.points) {
      words.mm(p.x).mm(p.y);
    }
    return words.word("width").mm(l.width).end();
  }
  std::string operator()(const Box& b) const {
    Words words;
    words.word("box").mm(b.x).mm(b.y).mm(b.w).mm(b.h).word("line").mm(b.line_width);
    if (b.fill_grey >= 0) {
      words.word("fill").mm(b.fill_grey);
    }
    return words.end();
  }
  std::string operator()(const Text& t) const {
    return Words()
        .word("text")
        .mm(t.x)
        .mm(t.y)
        .word(name(t.align))
        .mm(t.size_pt)
        .word(name(t.face))
        .word("\"" + t.utf8 + "\"")
        .end();
  }
  std::string operator()(const Qr& q) const {
    return Words()
        .word("qr")
        .mm(q.x)
        .mm(q.y)
        .word("module")
        .mm(q.module)
        .word("modules")
        .word(std::to_string(q.symbol.modules))
        .word("\"" + q.text + "\"")
        .end();
  }
};

}  // namespace

std::string dump(const Document& document) {
  std::string text = "document \"" + document.title + "\" " + document.language + "\n";
  for (const Bookmark& mark : document.outline) {
    text += "bookmark " + std::to_string(mark.page + 1) + " \"" + mark.title + "\"\n";
  }
  for (std::size_t i = 0; i < document.pages.size(); ++i) {
    const Page& page = document.pages[i];
    text += Words().word("page").word(std::to_string(i + 1)).mm(page.width).mm(page.height).end();
    for (const Item& item : page.items) {
      text += std::visit(Describe{}, item);
    }
  }
  return text;
}

}  // namespace loopledger::test
