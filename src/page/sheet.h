// SPDX-License-Identifier: MIT
//
// A printed sheet that grows page by page: the same head on every page, a foot with the page number
// and a bar of 100 mm to check the printer's scale, and a cursor that moves down. Layouts ask for
// room before they draw, and what must come again on a new page (a table's head) is given once.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/date.h"
#include "page/canvas.h"
#include "page/page.h"
#include "plan/plan.h"
#include "plan/stock.h"

namespace loopledger::page {

struct SheetHead {
  std::string kind;   ///< "CUT SHEET"
  std::string title;  ///< of the plan
  std::string right;  ///< date
  /// For a sheet that is measured against: the bar at the foot is a ruler in these units.
  std::optional<Units> ruler = std::nullopt;
};

/// The head of one of a plan's sheets.
[[nodiscard]] SheetHead head_of(const plan::Plan& plan, std::string kind);

/// Empty when a sheet can be laid out on the paper. Error: `page-paper`.
[[nodiscard]] Diagnostics paper_problems(const plan::Stock& paper);

class Sheet {
 public:
  Sheet(const plan::Stock& paper, SheetHead head, const FontMetrics& metrics,
        Diagnostics& warnings);

  [[nodiscard]] Canvas& canvas() { return canvas_; }
  [[nodiscard]] double x() const;      ///< left margin
  [[nodiscard]] double width() const;  ///< between the margins
  [[nodiscard]] double y() const { return y_; }
  /// What pages there are so far; the last is being drawn on.
  [[nodiscard]] std::size_t pages() const { return document_.pages.size(); }
  [[nodiscard]] double bottom() const;  ///< lowest y that body may take
  /// Height of an empty page's body.
  [[nodiscard]] double full_height() const;

  void down(double mm) { y_ += mm; }
  /// Begins a new page when less than `height` is left (never on an empty one). True: it began.
  bool room(double height);
  void new_page();
  /// Drawn at the top of every page that begins while it is set; nullptr ends that.
  void repeat(std::function<void()> head) { repeated_ = std::move(head); }

  /// A bookmark on the page that the next heading comes to stand on.
  void bookmark_next(std::string title) { pending_bookmark_ = std::move(title); }
  /// A bookmark on this page, for what has no heading of its own.
  void bookmark(std::string title);
  /// A section's heading, on as many lines as it needs, kept together with `with` mm of what
  /// follows.
  void heading(const std::string& text, double with = 20);
  /// Text over the whole width, broken into lines and over pages, never cut.
  void paragraph(const std::string& text, const Style& style = {});
  /// A bold word at the left and text beside it; a longer label stands above the text. Never cut.
  void item(const std::string& label, const std::string& text, double label_width = 30);
  [[nodiscard]] double item_height(const std::string& label, const std::string& text,
                                   double label_width = 30);
  /// An item with a box to tick before it.
  void tick_item(const std::string& text);

  /// Adds the feet and hands over the pages.
  [[nodiscard]] Document finish(std::optional<Moment> created);

 private:
  /// "the cut sheet", for warnings.
  [[nodiscard]] std::string name() const;
  struct Item {
    std::vector<std::string> label, text;
    bool above = false;  ///< the label has lines of its own
    double indent = 0;   ///< of the text
  };
  [[nodiscard]] Item item_of(const std::string& label, const std::string& text, double label_width);
  void begin_page();
  /// The same as `paragraph`, from `indent` on and without room below.
  void lines(const std::vector<std::string>& lines, double indent, const Style& style);
  void foot(Page& page, std::size_t number);

  Canvas canvas_;
  SheetHead head_;
  double paper_width_;
  double paper_height_;
  Document document_;
  double y_ = 0;
  bool page_empty_ = true;
  std::function<void()> repeated_;
  std::string pending_bookmark_;
};

}  // namespace loopledger::page
