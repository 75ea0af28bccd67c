// SPDX-License-Identifier: MIT
#include "page/sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "base/quantity_text.h"
#include "base/text.h"
#include "page/ruler.h"

namespace loopledger::page {
namespace {

constexpr double kMargin = 10;
constexpr double kHeadTop = 9;
constexpr double kBodyTop = 19;
constexpr double kFootHeight = 16;  // from the paper's lower edge
constexpr double kFootLine = 8;     // baseline of the foot, from the paper's lower edge

constexpr Style kItem{.size_pt = 8.5};
constexpr Style kItemLabel{.size_pt = kItem.size_pt, .face = Face::sheet_bold};
constexpr double kItemBelow = 0.8;
constexpr double kItemIndent = 7;  // below a label with lines of its own

}  // namespace

SheetHead head_of(const plan::Plan& plan, std::string kind) {
  return {.kind = std::move(kind),
          .title = plan.title,
          .right = plan.date.given ? iso(plan.date.value) : "",
          .ruler = plan.units};
}

Diagnostics paper_problems(const plan::Stock& paper) {
  constexpr double kNarrowest = 180;
  constexpr double kLowest = 200;
  if (paper.paper_width.in_mm() < kNarrowest || paper.paper_height.in_mm() < kLowest) {
    return {error("page-paper",
                  fmt::format("the sheets need paper of at least {} x {} mm, {} is {} x {} mm",
                              kNarrowest, kLowest, paper.name, fixed(paper.paper_width.in_mm(), 1),
                              fixed(paper.paper_height.in_mm(), 1)),
                  "choose another paper in the plan, for example paper = \"a4\"")};
  }
  return {};
}

Sheet::Sheet(const plan::Stock& paper, SheetHead head, const FontMetrics& metrics,
             Diagnostics& warnings)
    : canvas_(metrics, warnings),
      head_(std::move(head)),
      paper_width_(paper.paper_width.in_mm()),
      paper_height_(paper.paper_height.in_mm()) {
  canvas_.set_place(name());
  document_.title = head_.title.empty() ? head_.kind : head_.kind + ": " + head_.title;
  begin_page();
}

double Sheet::x() const { return kMargin; }
double Sheet::width() const { return paper_width_ - 2 * kMargin; }
double Sheet::bottom() const { return paper_height_ - kFootHeight; }
double Sheet::full_height() const { return bottom() - kBodyTop; }

void Sheet::begin_page() {
  document_.pages.push_back({.width = paper_width_, .height = paper_height_, .items = {}});
  canvas_.turn_to(document_.pages.back());
  const std::string place = canvas_.place();
  canvas_.set_place(name() + "'s title");
  const Style bold{.size_pt = 11, .face = Face::sheet_bold};
  const double kind = canvas_.text(x(), kHeadTop + 4, head_.kind, bold);
  const Style right{.size_pt = 9, .align = Align::right};
  const double date = canvas_.width_of(head_.right, right);
  const double room = width() - kind - date - 12;
  const Style title{.size_pt = 10, .smallest_pt = 8, .max_lines = 2};
  const bool two = canvas_.width_of(head_.title, {.size_pt = title.smallest_pt}) > room;
  canvas_.fit(x() + kind + 6, two ? kHeadTop - 1.5 : kHeadTop + 4 - cap_height(10), room,
              head_.title, title);
  canvas_.text(x() + width(), kHeadTop + 4, head_.right, right);
  canvas_.set_place(place);
  canvas_.line(x(), kHeadTop + 6, x() + width(), kHeadTop + 6, 0.4);
  y_ = kBodyTop;
  page_empty_ = true;
}

void Sheet::new_page() {
  begin_page();
  if (repeated_) {
    repeated_();
    page_empty_ = true;
  }
}

bool Sheet::room(double height) {
  if (y_ + height <= bottom() + 1e-6 || page_empty_) {
    page_empty_ = false;
    return false;
  }
  new_page();
  page_empty_ = false;
  return true;
}

std::string Sheet::name() const { return "the " + lower_ascii(head_.kind); }
void Sheet::bookmark(std::string title) {
  document_.outline.push_back({.title = std::move(title), .page = document_.pages.size() - 1});
}

void Sheet::heading(const std::string& text, double with) {
  constexpr double kHeight = 7;
  const Style style{.size_pt = 12, .face = Face::sheet_bold, .smallest_pt = 9, .max_lines = 100};
  const double height = std::max(kHeight, canvas_.height_of(width(), text, style) + 1.5);
  if (!page_empty_ && y_ > kBodyTop + 1) {
    y_ += 3;
  }
  room(height + with);
  if (!pending_bookmark_.empty()) {
    bookmark(std::exchange(pending_bookmark_, {}));
  }
  canvas_.fit(x(), y_, width(), text, style);
  y_ += height;
}

void Sheet::lines(const std::vector<std::string>& lines, double indent, const Style& style) {
  for (const std::string& line : lines) {
    room(line_height(style.size_pt));
    canvas_.text(x() + indent, y_ + cap_height(style.size_pt), line, style);
    y_ += line_height(style.size_pt);
  }
}

void Sheet::paragraph(const std::string& text, const Style& style) {
  lines(canvas_.lines_of(width(), text, style), 0, style);
  y_ += 1;
}

Sheet::Item Sheet::item_of(const std::string& label, const std::string& text, double label_width) {
  Item item;
  item.above = canvas_.width_of(label, kItemLabel) > label_width - 2;
  item.indent = item.above ? kItemIndent : label_width;
  item.text = canvas_.lines_of(width() - item.indent, text, kItem);
  item.label = canvas_.lines_of(width(), label, kItemLabel);
  return item;
}

double Sheet::item_height(const std::string& label, const std::string& text, double label_width) {
  const Item item = item_of(label, text, label_width);
  return line_height(kItem.size_pt) *
             static_cast<double>(item.text.size() + (item.above ? item.label.size() : 0)) +
         kItemBelow;
}

void Sheet::item(const std::string& label, const std::string& text, double label_width) {
  const Item item = item_of(label, text, label_width);
  // A label is never left alone at the foot of a page.
  constexpr std::size_t kTogether = 4;
  const std::size_t first = std::min(item.text.size(), 2UL) + (item.above ? item.label.size() : 0);
  room(line_height(kItem.size_pt) * static_cast<double>(std::min(first, kTogether)));
  if (item.above) {
    lines(item.label, 0, kItemLabel);
  } else if (!label.empty()) {
    canvas_.text(x(), y_ + cap_height(kItemLabel.size_pt), label, kItemLabel);
  }
  lines(item.text, item.indent, kItem);
  y_ += kItemBelow;
}

void Sheet::tick_item(const std::string& text) {
  constexpr double kSide = 4;
  constexpr double kIndent = 7;
  const Style style{.size_pt = 10};
  const auto lines = canvas_.lines_of(width() - kIndent, text, style);
  room(line_height(style.size_pt) * static_cast<double>(std::min(lines.size(), 4UL)));
  canvas_.tick_box(x(), y_ + kSide - 0.6, kSide);
  for (const std::string& line : lines) {
    room(line_height(style.size_pt));
    canvas_.text(x() + kIndent, y_ + cap_height(style.size_pt), line, style);
    y_ += line_height(style.size_pt);
  }
  y_ += 1.6;
}

void Sheet::foot(Page& page, std::size_t number) {
  canvas_.turn_to(page);
  canvas_.set_place(name() + "'s foot");
  const double y = paper_height_ - kFootLine;
  if (head_.ruler) {
    draw_check_ruler(canvas_, x(), y - 2, *head_.ruler);
  } else {
    draw_check_bar(canvas_, x(), y);
  }
  canvas_.text(x() + width(), y, fmt::format("page {} of {}", number, document_.pages.size()),
               {.size_pt = 9, .align = Align::right});
}

Document Sheet::finish(std::optional<Moment> created) {
  for (std::size_t i = 0; i < document_.pages.size(); ++i) {
    foot(document_.pages[i], i + 1);
  }
  document_.created = created;
  return std::move(document_);
}

}  // namespace loopledger::page
