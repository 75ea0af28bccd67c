// SPDX-License-Identifier: MIT
#include "sheets/label_face.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <utility>

#include "sheets/label_blanks.h"

namespace loopledger::sheets {
namespace {

using plan::LabelLine;
using plan::LabelPart;
using plan::LabelPiece;

constexpr double kLayoutRoom = 33;  // mm: a label of 37 mm less its clear edge
constexpr double kLeastScale = 0.8;
constexpr double kMostScale = 1.33;
constexpr double kMostOfHeight = 0.4;  // of a low label, that a fixed line may take
constexpr double kBadgeGap = 1.5;
constexpr double kBadgeSize = 0.42;       // of the line that it ends
constexpr double kSmallestBadge = 5.5;    // points
constexpr double kTwoLinesFrom = 24;      // mm of height; lower labels have no line to spare
constexpr double kBesideEachOther = 0.8;  // parts are shrunk to this before they are broken
constexpr double kBelowCapitals = 0.75;   // mm; a line of capitals and digits has no descenders

double capitals_row(double size_pt) { return page::cap_height(size_pt) + kBelowCapitals; }

double points(Length capitals) { return capitals.in_mm() / page::cap_height(1); }

double size_of(const LabelLine& line, double room_height) {
  const double wanted = points(line.capitals);
  return line.fixed ? std::min(wanted, kMostOfHeight * room_height / page::cap_height(1))
                    : wanted * std::clamp(room_height / kLayoutRoom, kLeastScale, kMostScale);
}

/// One row of the label: how high it is, and how it is drawn.
struct Row {
  std::string name;  ///< as said when it is left out
  double height = 0;
  double rank = 0;
  std::function<void(double top)> draw;
};

std::string text_of(const LabelPart& part, const LabelValues& values) {
  std::string text;
  for (const LabelPiece& piece : part) {
    text += piece.kind == LabelPiece::Kind::field ? values.find(piece.text)->second : piece.text;
  }
  return text;
}

bool is_known(const LabelPart& part, const LabelValues& values) {
  return std::ranges::all_of(part, [&](const LabelPiece& piece) {
    const auto value = values.find(piece.text);
    return piece.kind != LabelPiece::Kind::field ||
           (value != values.end() && !value->second.empty());
  });
}

std::vector<LabelPart> known_of(const LabelLine& line, const LabelValues& values) {
  std::vector<LabelPart> known;
  for (const auto* parts : {&line.parts, &line.otherwise}) {
    for (const LabelPart& part : *parts) {
      if (is_known(part, values)) {
        known.push_back(part);
      }
    }
    if (!known.empty()) {
      break;
    }
  }
  return known;
}

bool has_blank(const std::vector<LabelPart>& parts) {
  return std::ranges::any_of(parts, [](const LabelPart& part) {
    return std::ranges::any_of(
        part, [](const LabelPiece& piece) { return piece.kind == LabelPiece::Kind::blank; });
  });
}

/// What a part that stands alone is called: by its first field.
std::string name_of(const LabelPart& part, const std::string& otherwise) {
  const auto field = std::ranges::find_if(
      part, [](const LabelPiece& piece) { return piece.kind == LabelPiece::Kind::field; });
  return field == part.end() ? otherwise : field->text;
}

class LabelFace {
 public:
  LabelFace(page::Canvas& canvas, const LabelContent& content, const LabelRoom& room)
      : canvas_(canvas),
        content_(content),
        room_(room.column),
        first_width_(room.first_width),
        first_scale_(room.first_scale) {}

  std::vector<std::string> draw(const plan::LabelLayout& layout) {
    for (const LabelLine& line : layout.lines) {
      const std::vector<LabelPart> parts = known_of(line, content_.values);
      if (parts.empty()) {
        continue;
      }
      if (line.badge) {
        add_badged(line, parts);
      } else if (has_blank(parts)) {
        add_blanks(line, parts);
      } else {
        add_parts(line, parts);
      }
    }
    keep_what_fits();
    double spare = room_.h;
    for (const Row& row : rows_) {
      spare -= row.height;
    }
    const double between = static_cast<double>(rows_.size()) - 1;
    const double most = 0.16 * 8.25 * std::clamp(room_.h / kLayoutRoom, kLeastScale, kMostScale);
    const double gap = between > 0 ? std::min(spare / between, most) : 0;
    // With a wider first line the rows keep to the top: the code stands close below it.
    const bool first_is_wider = first_width_ > room_.w;
    double top = room_.y + (first_is_wider ? 0 : (spare - gap * between) / 2);
    for (const Row& row : rows_) {
      row.draw(top);
      top += row.height + gap;
    }
    return left_out_;
  }

 private:
  /// The first line may be wider than those beside the code.
  [[nodiscard]] double width() const { return rows_.empty() ? first_width_ : room_.w; }

  static page::Style style_of(const LabelLine& line, double size) {
    return {.size_pt = size,
            .face = line.bold ? page::Face::label_bold : page::Face::label,
            .smallest_pt = std::min(size, points(line.least))};
  }

  /// A line with EST or MADE at its end; where both don't fit, the badge goes below.
  void add_badged(const LabelLine& line, const std::vector<LabelPart>& parts) {
    const double scale = rows_.empty() ? first_scale_ : 1;
    const page::Style style = style_of(line, scale * size_of(line, room_.h));
    const std::string text = joined(parts);
    const page::Style badge = badge_style(style.size_pt);
    const double badge_w = badge_width(badge);
    const double badge_h = page::line_height(badge.size_pt);
    const double w = width();
    const double beside = w - badge_w - kBadgeGap;
    page::Style least = style;
    least.size_pt = style.smallest_pt;
    const bool fits = canvas_.width_of(text, least) <= beside;
    rows_.push_back({line.name, capitals_row(style.size_pt), static_cast<double>(line.rank),
                     [=, this](double top) {
                       canvas_.fit_in({.x = room_.x,
                                       .y = top,
                                       .w = fits ? beside : w,
                                       .h = page::cap_height(style.size_pt)},
                                      text, style);
                       if (fits) {
                         draw_badge(badge, {room_.x + w - badge_w, top, badge_w, badge_h});
                       }
                     }});
    if (!fits) {
      rows_.push_back({"EST or MADE", badge_h + 0.5, line.rank + 0.5, [=, this](double top) {
                         draw_badge(badge, {room_.x, top, badge_w, badge_h});
                       }});
    }
  }

  static page::Style badge_style(double beside_pt) {
    return {.size_pt = std::max(beside_pt * kBadgeSize, kSmallestBadge),
            .face = page::Face::label_bold,
            .align = page::Align::centre};
  }

  [[nodiscard]] const std::string& state() const { return content_.values.find("state")->second; }

  double badge_width(const page::Style& badge) { return canvas_.width_of(state(), badge) + 1.6; }

  /// MADE is white on black, EST black in a frame: told apart at a glance, without colour.
  void draw_badge(page::Style style, const Rect& at) {
    canvas_.box({.x = at.x,
                 .y = at.y,
                 .w = at.w,
                 .h = at.h,
                 .line_width = 0.25,
                 .fill_grey = content_.made ? 0.0 : -1.0});
    style.grey = content_.made ? 1 : 0;
    canvas_.text(at.x + at.w / 2, at.y + (at.h + page::cap_height(style.size_pt)) / 2, state(),
                 style);
  }

  [[nodiscard]] std::string joined(const std::vector<LabelPart>& parts) const {
    std::string text;
    for (const LabelPart& part : parts) {
      text += (text.empty() ? "" : " · ") + text_of(part, content_.values);
    }
    return text;
  }

  /// Parts beside each other as far as they fit without getting small, else on rows of their own.
  void add_parts(const LabelLine& line, const std::vector<LabelPart>& parts) {
    page::Style style = style_of(line, size_of(line, room_.h));
    if (line.wrap > 1 && room_.h > kTwoLinesFrom) {
      // People's words wrap before they get small.
      style.max_lines = line.wrap;
      style.smallest_pt = std::max(style.size_pt * kBesideEachOther, style.smallest_pt);
      add_text(line.name, joined(parts), line.rank, style);
      return;
    }
    page::Style shrunk = style;
    shrunk.size_pt = std::max(style.size_pt * kBesideEachOther, style.smallest_pt);
    std::vector<std::vector<LabelPart>> rows;
    for (const LabelPart& part : parts) {
      std::vector<LabelPart> longer = rows.empty() ? std::vector<LabelPart>{} : rows.back();
      longer.push_back(part);
      if (!rows.empty() && canvas_.width_of(joined(longer), shrunk) <= room_.w) {
        rows.back() = std::move(longer);
      } else {
        rows.push_back({part});
      }
    }
    for (std::size_t i = 0; i < rows.size(); ++i) {
      add_text(rows.size() == 1 ? line.name : name_of(rows[i].front(), line.name), joined(rows[i]),
               line.rank + 0.01 * static_cast<double>(i), style);
    }
  }

  void add_text(std::string name, const std::string& text, double rank, const page::Style& style) {
    const double w = width();
    rows_.push_back(
        {std::move(name), canvas_.height_of(w, text, style), rank,
         [this, text, style, w](double top) { canvas_.fit(room_.x, top, w, text, style); }});
  }

  void add_blanks(const LabelLine& line, const std::vector<LabelPart>& parts) {
    std::vector<BlankPiece> pieces;
    for (std::size_t p = 0; p < parts.size(); ++p) {
      for (const LabelPiece& piece : parts[p]) {
        pieces.push_back({.blank = piece.kind == LabelPiece::Kind::blank,
                          .text = piece.kind == LabelPiece::Kind::blank
                                      ? std::string{}
                                      : text_of({piece}, content_.values),
                          .part = p});
      }
    }
    page::Style style = style_of(line, size_of(line, room_.h));
    style.smallest_pt = style.size_pt;
    const double w = width();
    const double height = pen_row_height(room_.h > kTwoLinesFrom);
    rows_.push_back({line.name, height, static_cast<double>(line.rank),
                     [this, pieces, style, w, height](double top) {
                       draw_blanks(canvas_, pieces, {room_.x, top, w, height}, style);
                     }});
  }

  void keep_what_fits() {
    const auto total = [this] {
      double height = 0;
      for (const Row& row : rows_) {
        height += row.height;
      }
      return height;
    };
    while (rows_.size() > 1 && total() > room_.h) {
      const auto least = std::ranges::max_element(
          rows_, [](const Row& a, const Row& b) { return a.rank < b.rank; });
      left_out_.push_back(std::move(least->name));
      rows_.erase(least);
    }
  }

  page::Canvas& canvas_;
  const LabelContent& content_;
  Rect room_;
  double first_width_;
  double first_scale_;
  std::vector<Row> rows_;
  std::vector<std::string> left_out_;

 public:
  /// Millimetres that the line takes in full size with its badge.
  double full_width(const LabelLine& line) {
    const std::vector<LabelPart> parts = known_of(line, content_.values);
    const page::Style style = style_of(line, size_of(line, room_.h));
    const double text = canvas_.width_of(joined(parts), style);
    return line.badge ? text + kBadgeGap + badge_width(badge_style(style.size_pt)) : text;
  }
};

}  // namespace

double first_line_height(const plan::LabelLayout& layout, double room_height, double scale) {
  return layout.lines.empty() ? 0
                              : capitals_row(scale * size_of(layout.lines.front(), room_height));
}

double first_line_width(page::Canvas& canvas, const plan::LabelLayout& layout,
                        const LabelContent& content, double room_height) {
  if (layout.lines.empty() || !layout.lines.front().fixed) {
    return 0;
  }
  return LabelFace(canvas, content, {.column = {.x = 0, .y = 0, .w = 0, .h = room_height}})
      .full_width(layout.lines.front());
}

std::vector<std::string> draw_label_text(page::Canvas& canvas, const plan::LabelLayout& layout,
                                         const LabelContent& content, const LabelRoom& room) {
  return LabelFace(canvas, content, room).draw(layout);
}

}  // namespace loopledger::sheets
