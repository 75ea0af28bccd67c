// SPDX-License-Identifier: MIT
#include "page/label_face.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <string>
#include <vector>

#include "tag/id.h"

namespace loopledger::page {
namespace {

constexpr double kSmallestText = 5.5;  // points; below this print is not read in a hall's light
constexpr int kPurpose = 3;            // importance of lines that may take two lines
constexpr int kOwner = 4;
constexpr double kSmallestId = 7;
constexpr double kBadgeGap = 1.5;
constexpr double kTwoLinesFrom = 24;  // mm of height; lower labels have no line to spare
// mm; room to write with a pen, on low labels just enough
constexpr double kPenRow = 5.6;
constexpr double kPenRowLow = 5.0;

/// One line of the label: how high it is, and how it is drawn into a strip of the room.
struct Row {
  const char* name = "";  ///< as said when it is left out
  double height = 0;
  int importance = 0;  ///< 0 is kept first
  std::function<void(double top)> draw;
};

/// The rows of one label, from top to bottom.
class LabelFace {
 public:
  LabelFace(Canvas& canvas, const LabelFigures& label, const Rect& room, Units units)
      : canvas_(canvas), label_(label), room_(room), units_(units) {
    // Sizes follow the label's height: 21 mm high labels get 6.5 pt, 37 mm 8 pt, 51 mm 11 pt.
    body_ = std::clamp(room.h * 0.25, 6.5, 11.0);
  }

  /// Draws, and returns the names of what was left out.
  std::vector<std::string> draw() {
    add_head();
    add_text("what it is for", label_.purpose, kPurpose, Face::label_bold, body_);
    add_text("owner", label_.owner, kOwner, Face::label, body_);
    add_winding();
    add_masses();
    add_make();
    add_estimate();
    keep_what_fits();
    double spare = room_.h;
    for (const Row& row : rows_) {
      spare -= row.height;
    }
    const double gap = rows_.size() > 1
                           ? std::min(spare / static_cast<double>(rows_.size() - 1), body_ * 0.16)
                           : 0;
    double top = room_.y + (spare - gap * static_cast<double>(rows_.size() - 1)) / 2;
    for (const Row& row : rows_) {
      row.draw(top);
      top += row.height + gap;
    }
    return left_out_;
  }

 private:
  [[nodiscard]] std::string state() const {
    return label_.state == tag::TagState::made ? "MADE" : "EST";
  }

  /// The id with the badge beside it; on a very narrow label the id alone, the badge below it.
  void add_head() {
    const double size = std::clamp(room_.h * 0.55, 10.0, 24.0);
    const Style badge{.size_pt = std::max(size * 0.42, kSmallestText),
                      .face = Face::label_bold,
                      .align = Align::centre};
    const double badge_w = canvas_.width_of(state(), badge) + 1.6;
    const double badge_h = line_height(badge.size_pt);
    const std::string id = tag::with_check(label_.id);
    const double beside = room_.w - badge_w - kBadgeGap;
    const bool fits =
        canvas_.width_of(id, {.size_pt = kSmallestId, .face = Face::label_bold}) <= beside;
    const Style name{.size_pt = size,
                     .face = Face::label_bold,
                     .smallest_pt = fits ? kSmallestId : kSmallestText};
    rows_.push_back({"", line_height(size) * 0.86, 0, [=, this](double top) {
                       canvas_.fit(room_.x, top, fits ? beside : room_.w, id, name);
                       if (fits) {
                         draw_badge(badge, {room_.x + room_.w - badge_w, top, badge_w, badge_h});
                       }
                     }});
    if (!fits) {
      rows_.push_back({"EST or MADE", badge_h + 0.5, 2, [=, this](double top) {
                         draw_badge(badge, {room_.x, top, badge_w, badge_h});
                       }});
    }
  }

  /// MADE is white on black, EST black in a frame: told apart at a glance, without colour.
  void draw_badge(Style style, const Rect& at) {
    const bool made = label_.state == tag::TagState::made;
    canvas_.box({.x = at.x,
                 .y = at.y,
                 .w = at.w,
                 .h = at.h,
                 .line_width = 0.25,
                 .fill_grey = made ? 0.0 : -1.0});
    style.grey = made ? 1 : 0;
    canvas_.text(at.x + at.w / 2, at.y + (at.h + cap_height(style.size_pt)) / 2, state(), style);
  }

  void add_text(const char* name, const std::string& text, int importance, Face face, double size) {
    if (text.empty()) {
      return;
    }
    // People's words wrap before they get small; our own figures are known to be short.
    const bool wraps = (importance == kPurpose || importance == kOwner) && room_.h > kTwoLinesFrom;
    const Style style{.size_pt = size,
                      .face = face,
                      .smallest_pt = wraps ? std::max(size * 0.8, kSmallestText) : kSmallestText,
                      .max_lines = wraps ? 2 : 1};
    rows_.push_back(
        {name, canvas_.height_of(room_.w, text, style), importance,
         [this, text, style](double top) { canvas_.fit(room_.x, top, room_.w, text, style); }});
  }

  [[nodiscard]] std::string torque_unit() const {
    return units_ == Units::inch ? "ozf·in" : "gf·cm";
  }

  void add_winding() {
    if (label_.turns) {
      std::string text = fmt::format("{} {} T", label_.turns_are_best ? "best" : "wind to",
                                     fixed(label_.turns->count(), 0));
      if (label_.torque) {
        text += "  " + shown(*label_.torque, units_);
      }
      const Style style{
          .size_pt = body_ * 1.35, .face = Face::label_bold, .smallest_pt = kSmallestText};
      rows_.push_back({"turns", line_height(style.size_pt), 1, [this, text, style](double top) {
                         canvas_.fit(room_.x, top, room_.w, text, style);
                       }});
      return;
    }
    rows_.push_back({"turns", pen_row(), 1, [this](double top) { draw_blanks(top); }});
  }

  [[nodiscard]] double pen_row() const { return room_.h > kTwoLinesFrom ? kPenRow : kPenRowLow; }

  /// "wind to ____ T ____ gf·cm": the blanks share what the words leave.
  void draw_blanks(double top) {
    const Style style{.size_pt = std::max(body_ * 0.85, kSmallestText), .face = Face::label};
    const double y = top + pen_row() - 1.3;
    const double gap = 0.8;
    const double words = canvas_.width_of("wind to", style) + canvas_.width_of("T", style) +
                         canvas_.width_of(torque_unit(), style) + 4 * gap;
    const bool torque = room_.w - words > 13;  // else there is room for one blank only
    const double blank = torque
                             ? (room_.w - words) / 2
                             : room_.w - words + 2 * gap + canvas_.width_of(torque_unit(), style);
    double x = room_.x;
    x += canvas_.text(x, y, "wind to", style) + gap;
    canvas_.blank(x, y, blank);
    x += blank + gap;
    x += canvas_.text(x, y, "T", style) + gap;
    if (torque) {
      canvas_.blank(x, y, blank);
      x += blank + gap;
      canvas_.text(x, y, torque_unit(), style);
    }
  }

  /// "loop 303 mm tied": before it is tied it is what the loop is to be tied to.
  [[nodiscard]] std::string loop_text() const {
    return label_.loop ? fmt::format("loop {} {}", shown(*label_.loop, units_),
                                     label_.loop_is == LoopIs::broken_in ? "broken in" : "tied")
                       : std::string();
  }

  /// Mass and loop on one line where there is room, else on two.
  void add_masses() {
    std::string mass;
    if (label_.mass) {
      mass = shown(*label_.mass, label_.scale_step);
    } else if (label_.low && label_.high) {
      mass =
          fmt::format("{}–{} washed", fixed(label_.low->in_g(), gram_decimals(label_.scale_step)),
                      shown(*label_.high, label_.scale_step));
    }
    const std::string loop = loop_text();
    const std::string together = mass + (mass.empty() || loop.empty() ? "" : " · ") + loop;
    if (canvas_.width_of(together, {.size_pt = body_ * 0.8, .face = Face::label}) <= room_.w) {
      add_text("mass and loop", together, 2, Face::label, body_);
    } else {
      add_text("mass", mass, 2, Face::label, body_);
      add_text("loop", loop, 2, Face::label, body_);
    }
  }

  void add_make() {
    std::string text = fmt::format("{} strands", label_.strands);
    if (label_.width) {
      const std::string width = units_ == Units::inch ? fixed(label_.width->in_in(), 3) + " in"
                                                      : rounded(label_.width->in_mm(), 3) + " mm";
      text = fmt::format("{} × {}", label_.strands, width);
    }
    if (!label_.lot.empty()) {
      text += " · lot " + label_.lot;
    }
    if (label_.date) {
      text += " · " + iso(*label_.date);
    }
    add_text("strip, lot and date", text, 5, Face::label, body_ * 0.85);
  }

  void add_estimate() {
    if (label_.turns || !label_.turns_estimate || !label_.turns_max) {
      return;
    }
    add_text("estimate of turns",
             fmt::format(
                 "estimate {} T; breaks at {}–{} (95 %)", fixed(label_.turns_estimate->count(), 0),
                 shown_at_most(label_.turns_max->low), fixed(label_.turns_max->high.count(), 0)),
             6, Face::label, body_ * 0.85);
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
      const auto least =
          std::max_element(rows_.begin(), rows_.end(),
                           [](const Row& a, const Row& b) { return a.importance < b.importance; });
      left_out_.emplace_back(least->name);
      rows_.erase(least);
    }
  }

  Canvas& canvas_;
  const LabelFigures& label_;
  Rect room_;
  Units units_;
  double body_ = 8;
  std::vector<Row> rows_;
  std::vector<std::string> left_out_;
};

}  // namespace

std::vector<std::string> draw_label_text(Canvas& canvas, const LabelFigures& label,
                                         const Rect& room, Units units) {
  return LabelFace(canvas, label, room, units).draw();
}

}  // namespace loopledger::page
