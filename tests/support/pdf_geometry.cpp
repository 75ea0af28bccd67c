// SPDX-License-Identifier: MIT
#include "support/pdf_geometry.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <map>
#include <sstream>
#include <utility>

#include "base/text.h"
#include "support/pdf_tools.h"

namespace loopledger::test {
namespace {

constexpr double kMmOfPoint = 25.4 / 72;

using Tokens = std::vector<std::string>;

/// Words of PDF syntax: names, numbers, <hex>, brackets, operators. Literal strings, which only the
/// document information has, are taken as one word.
Tokens tokens_of(const std::string& text) {
  Tokens tokens;
  for (std::size_t i = 0; i < text.size();) {
    const char c = text[i];
    std::size_t end = i + 1;
    if (std::isspace(static_cast<unsigned char>(c)) != 0) {
      i = end;
      continue;
    }
    if (c == '%') {
      i = std::min(text.find('\n', i), text.size());
      continue;
    }
    if (text.compare(i, 2, "<<") == 0 || text.compare(i, 2, ">>") == 0) {
      end = i + 2;
    } else if (c == '<') {
      end = text.find('>', i) + 1;
    } else if (c == '(') {
      end = text.find(')', i) + 1;
    } else if (c != '[' && c != ']') {
      end = std::min(text.find_first_of(" \t\r\n<>[]()/%", i + 1), text.size());
    }
    tokens.push_back(text.substr(i, end - i));
    i = end;
  }
  return tokens;
}

/// What stands behind a key of a dictionary, from its first word on; empty when it is not there.
Tokens value_of(const Tokens& dictionary, const std::string& key) {
  for (std::size_t i = 0; i < dictionary.size(); ++i) {
    if (dictionary[i] == key) {
      return {dictionary.begin() + static_cast<std::ptrdiff_t>(i) + 1, dictionary.end()};
    }
  }
  return {};
}

struct Object {
  Tokens dictionary;
  std::string stream;
};

struct Font {
  page::Face face = page::Face::sheet;
  std::map<char32_t, double> widths;  ///< thousandths of the size
  std::string glyphs;                 ///< two bytes a character: its number in the face
};

/// The file's objects and pages, as `qpdf --qdf` lays them open.
class Opened {
 public:
  explicit Opened(const std::string& pdf)
      : text_(run_tool("qpdf --qdf --object-streams=disable " + pdf + " -").out) {
    std::size_t at = 0;
    bool is_page = false;
    while (at < text_.size()) {
      const std::size_t end = std::min(text_.find('\n', at), text_.size());
      const std::string line = text_.substr(at, end - at);
      is_page = is_page || line.starts_with("%% Page ");
      if (line.ends_with(" 0 obj")) {
        const int number = std::stoi(line);
        at = read_object(number, end + 1);
        if (std::exchange(is_page, false)) {
          pages_.push_back(number);
        }
      } else {
        at = end + 1;
      }
    }
  }

  [[nodiscard]] const std::vector<int>& pages() const { return pages_; }
  [[nodiscard]] const Object& object(int number) const { return objects_.at(number); }
  /// The object that a dictionary's key refers to.
  [[nodiscard]] const Object& at(const Object& from, const std::string& key) const {
    const Tokens value = value_of(from.dictionary, key);
    REQUIRE(value.size() > 1);
    return object(std::stoi(value[value[0] == "[" ? 1 : 0]));
  }

 private:
  std::size_t read_object(int number, std::size_t at) {
    const std::size_t end = text_.find("\nendobj", at);
    const std::size_t stream = text_.find("\nstream\n", at);
    Object& object = objects_[number];
    if (stream > end) {
      object.dictionary = tokens_of(text_.substr(at, end - at));
      return end + 8;
    }
    object.dictionary = tokens_of(text_.substr(at, stream - at));
    const std::size_t begin = stream + 8;
    const std::size_t stop = text_.find("\nendstream", begin);
    object.stream = text_.substr(begin, stop - begin);
    return stop + 1;
  }

  std::string text_;
  std::map<int, Object> objects_;
  std::vector<int> pages_;
};

page::Face face_named(const std::string& name) {
  const bool bold = name.find("-Bold") != std::string::npos;
  if (name.find("RobotoCondensed") != std::string::npos) {
    return bold ? page::Face::label_bold : page::Face::label;
  }
  REQUIRE(name.find("DejaVuSansCondensed") != std::string::npos);
  return bold ? page::Face::sheet_bold : page::Face::sheet;
}

Font font_of(const Opened& file, const Object& type0) {
  const Object& inner = file.at(type0, "/DescendantFonts");
  Font font;
  font.face = face_named(value_of(type0.dictionary, "/BaseFont").at(0));
  font.glyphs = file.at(inner, "/CIDToGIDMap").stream;
  const Tokens widths = value_of(inner.dictionary, "/W");
  REQUIRE(widths.at(0) == "[");
  for (std::size_t i = 1; widths.at(i) != "]"; ++i) {
    auto code = static_cast<char32_t>(std::stoul(widths[i]));
    REQUIRE(widths.at(++i) == "[");
    for (++i; widths.at(i) != "]"; ++i) {
      font.widths[code++] = std::stod(widths[i]);
    }
  }
  return font;
}

class Reader {
 public:
  Reader(const Opened& file, int page) {
    const Object& object = file.object(page);
    const Tokens box = value_of(object.dictionary, "/MediaBox");
    REQUIRE(box.size() > 4);
    page_.width = std::stod(box[3]) * kMmOfPoint;
    height_ = std::stod(box[4]);
    page_.height = height_ * kMmOfPoint;
    const Tokens fonts = value_of(object.dictionary, "/Font");
    for (std::size_t i = 1; i + 3 < fonts.size() && fonts[i] != ">>"; i += 4) {
      fonts_[fonts[i]] = font_of(file, file.object(std::stoi(fonts[i + 1])));
    }
    for (const std::string& token : tokens_of(file.at(object, "/Contents").stream)) {
      if (std::isalpha(static_cast<unsigned char>(token[0])) == 0) {
        operands_.push_back(token);
        continue;
      }
      const auto found = operators().find(token);
      REQUIRE_MESSAGE(found != operators().end(), "unknown instruction " << token);
      (this->*found->second)();
      operands_.clear();
    }
  }

  [[nodiscard]] DrawnPage done() { return std::move(page_); }

 private:
  using Operator = void (Reader::*)();

  static const std::map<std::string, Operator>& operators() {
    static const std::map<std::string, Operator> all{
        {"g", &Reader::fill_grey}, {"G", &Reader::line_grey}, {"w", &Reader::line_width},
        {"m", &Reader::move},      {"l", &Reader::line_to},   {"re", &Reader::rectangle},
        {"S", &Reader::stroke},    {"f", &Reader::fill},      {"B", &Reader::fill_and_stroke},
        {"q", &Reader::nothing},   {"j", &Reader::nothing},   {"cm", &Reader::place},
        {"Q", &Reader::leave},     {"BT", &Reader::begin},    {"ET", &Reader::nothing},
        {"Tf", &Reader::font},     {"Td", &Reader::go},       {"Tj", &Reader::show}};
    return all;
  }

  [[nodiscard]] double number(std::size_t i) const { return std::stod(operands_.at(i)); }
  [[nodiscard]] double x(std::size_t i) const { return number(i) * kMmOfPoint; }
  [[nodiscard]] double y(std::size_t i) const { return (height_ - number(i)) * kMmOfPoint; }

  void nothing() {}
  void fill_grey() { fill_ = number(0); }
  void line_grey() { grey_ = number(0); }
  void line_width() { width_ = x(0); }
  void move() { points_.assign(1, {x(0), y(1)}); }
  void line_to() { points_.push_back({x(0), y(1)}); }
  void rectangle() { path_.push_back({number(0), number(1), number(2), number(3)}); }
  void stroke() {
    const std::vector<page::Polyline::Point> points = std::exchange(points_, {});
    if (points.size() == 2) {
      page_.items.push_back({.item = page::Line{.x1 = points[0].x,
                                                .y1 = points[0].y,
                                                .x2 = points[1].x,
                                                .y2 = points[1].y,
                                                .width = width_,
                                                .grey = grey_}});
    } else if (!points.empty()) {
      page_.items.push_back(
          {.item = page::Polyline{.points = points, .width = width_, .grey = grey_}});
    } else {
      boxes(-1, width_);
    }
  }
  void fill() { is_placed_ ? symbol() : boxes(fill_, 0); }
  void fill_and_stroke() { boxes(fill_, width_); }

  void boxes(double fill, double outline) {
    REQUIRE(path_.size() == 1);
    const auto& [left, low, w, h] = path_[0];
    page_.items.push_back({.item = page::Box{.x = left * kMmOfPoint,
                                             .y = (height_ - low - h) * kMmOfPoint,
                                             .w = w * kMmOfPoint,
                                             .h = h * kMmOfPoint,
                                             .line_width = outline,
                                             .line_grey = grey_,
                                             .fill_grey = fill}});
    path_.clear();
  }

  /// Runs of dark modules, in modules from the corner that `place` was given.
  void symbol() {
    double side = 0;
    for (const auto& run : path_) {
      side = std::max({side, run[0] + run[2], run[1] + run[3]});
    }
    qr_.symbol.modules = static_cast<int>(std::lround(side));
    const auto n = static_cast<std::size_t>(qr_.symbol.modules);
    qr_.symbol.dark.assign(n * n, false);
    for (const auto& run : path_) {
      REQUIRE(run[3] == 1);
      for (double column = run[0]; column < run[0] + run[2]; ++column) {
        qr_.symbol.dark.at(static_cast<std::size_t>(run[1]) * n +
                           static_cast<std::size_t>(column)) = true;
      }
    }
    page_.items.push_back({.item = qr_});
    path_.clear();
  }

  void place() {
    REQUIRE(number(0) == -number(3));
    REQUIRE(number(1) == 0);
    REQUIRE(number(2) == 0);
    qr_ = {.x = x(4), .y = y(5), .module = x(0), .symbol = {}, .text = ""};
    is_placed_ = true;
  }
  void leave() { is_placed_ = false; }

  void begin() { at_ = {0, 0}; }
  void font() {
    font_ = &fonts_.at(operands_.at(0));
    size_ = number(1);
  }
  void go() { at_ = {at_[0] + number(0), at_[1] + number(1)}; }
  void show() {
    Drawn drawn;
    std::vector<char32_t> points;
    double width = 0;
    const std::string& hex = operands_.at(0);
    for (std::size_t i = 1; i + 4 < hex.size() + 1 && hex[i] != '>'; i += 4) {
      const auto code = static_cast<char32_t>(std::stoul(hex.substr(i, 4), nullptr, 16));
      points.push_back(code);
      width += font_->widths.count(code) > 0 ? font_->widths.at(code) : 0;
      const std::string glyph = font_->glyphs.substr(2 * static_cast<std::size_t>(code), 2);
      drawn.blank_glyph = drawn.blank_glyph || glyph == std::string(2, '\0');
    }
    page::Text text{.x = at_[0] * kMmOfPoint,
                    .y = (height_ - at_[1]) * kMmOfPoint,
                    .size_pt = size_,
                    .face = font_->face,
                    .utf8 = to_utf8(points),
                    .grey = fill_};
    drawn.x2 = text.x + width / 1000 * size_ * kMmOfPoint;
    drawn.item = std::move(text);
    page_.items.push_back(std::move(drawn));
  }

  DrawnPage page_;
  double height_ = 0;  // points
  std::map<std::string, Font> fonts_;
  Tokens operands_;
  double fill_ = 0;
  double grey_ = 0;
  double width_ = 1;
  std::vector<page::Polyline::Point> points_;  ///< of the line being drawn
  std::vector<std::array<double, 4>> path_;
  page::Qr qr_;
  bool is_placed_ = false;
  std::array<double, 2> at_{};
  const Font* font_ = nullptr;
  double size_ = 0;
};

}  // namespace

std::vector<DrawnPage> geometry_of(const std::string& pdf) {
  const Opened file(pdf);
  std::vector<DrawnPage> pages;
  for (const int page : file.pages()) {
    pages.push_back(Reader(file, page).done());
  }
  return pages;
}

}  // namespace loopledger::test
