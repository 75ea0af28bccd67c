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

}  // namespace

SheetHead head_of(const plan::Plan& plan, std::string kind) {
  return {.kind = std::move(kind),
          .title = plan.title,
          .right = plan.date.given ? iso(plan.date.value) : ""};
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
  canvas_.fit(x() + kind + 6, kHeadTop + 4 - cap_height(10), width() - kind - date - 12,
              head_.title, {.size_pt = 10, .smallest_pt = 7});
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

void Sheet::heading(const std::string& text, double with) {
  if (!page_empty_ && y_ > kBodyTop + 1) {
    y_ += 3;
  }
  room(7 + with);
  if (!pending_bookmark_.empty()) {
    document_.outline.push_back(
        {.title = std::exchange(pending_bookmark_, {}), .page = document_.pages.size() - 1});
  }
  canvas_.fit(x(), y_, width(), text,
              {.size_pt = 12, .face = Face::sheet_bold, .smallest_pt = 9, .max_lines = 2});
  y_ += 7;
}

void Sheet::paragraph(const std::string& text, const Style& style) {
  for (const std::string& line : canvas_.lines_of(width(), text, style)) {
    room(line_height(style.size_pt));
    canvas_.text(x(), y_ + cap_height(style.size_pt), line, style);
    y_ += line_height(style.size_pt);
  }
  y_ += 1;
}

void Sheet::item(const std::string& label, const std::string& text, double label_width) {
  const Style style{.size_pt = 8.5};
  const auto lines = canvas_.lines_of(width() - label_width, text, style);
  bool first = true;
  for (const std::string& line : lines) {
    // A label is never left alone at the foot of a page.
    room(line_height(style.size_pt) *
         (first ? static_cast<double>(std::min(lines.size(), 2UL)) : 1));
    if (first) {
      canvas_.fit(x(), y_, label_width - 2, label,
                  {.size_pt = style.size_pt, .face = Face::sheet_bold, .smallest_pt = 6});
      first = false;
    }
    canvas_.text(x() + label_width, y_ + cap_height(style.size_pt), line, style);
    y_ += line_height(style.size_pt);
  }
  y_ += 0.8;
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
  draw_check_bar(canvas_, x(), y);
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
