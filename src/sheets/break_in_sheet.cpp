// SPDX-License-Identifier: MIT
#include "sheets/break_in_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/text.h"
#include "calc/break_in.h"
#include "calc/cranks.h"
#include "calc/work_out.h"
#include "page/sheet.h"
#include "page/sheet_id.h"
#include "sheets/break_in_steps.h"
#include "sheets/figures_text.h"
#include "sheets/owners.h"

namespace loopledger::sheets {
namespace {

constexpr double kIdWidth = 32;
constexpr double kLineHeight = 8;
constexpr double kRowFoot = 3;
constexpr double kBetweenPasses = 3;
constexpr std::size_t kPassesInLine = 2;
constexpr std::size_t kFreePasses = 3;  // blanks for a motor without a recipe

constexpr page::Style kWord{.size_pt = 8};

/// Whether "do not pass" and all else that stands under a heading holds for both.
bool breaks_in_alike(const records::Planned& a, const records::Planned& b) {
  const auto same = [](const records::BreakInStep& x, const records::BreakInStep& y) {
    return x.stretch == y.stretch && x.turns == y.turns && x.cranks == y.cranks &&
           x.stop_torque == y.stop_torque && x.hold == y.hold && x.rest == y.rest &&
           x.repeat == y.repeat && x.note == y.note;
  };
  return a.recipe == b.recipe && a.loop == b.loop && a.lubricant == b.lubricant &&
         a.turns_max == b.turns_max && a.torque_max == b.torque_max && factors(a) == factors(b) &&
         a.break_in.size() == b.break_in.size() &&
         std::equal(a.break_in.begin(), a.break_in.end(), b.break_in.begin(), same);
}

/// A word and a blank that fills the rest of `width`.
void word_and_blank(page::Canvas& canvas, double x, double y, double width, const std::string& word,
                    const std::string& after = "") {
  const double before_w = word.empty() ? 0 : canvas.text(x, y, word, kWord) + 1;
  const double after_w = after.empty() ? 0 : canvas.width_of(after, kWord) + 0.8;
  canvas.blank(x + before_w, y, width - before_w - after_w);
  if (!after.empty()) {
    canvas.text(x + width - after_w + 0.8, y, after, kWord);
  }
}

class OwnerBreakIn {
 public:
  OwnerBreakIn(page::Sheet& sheet, const plan::Plan& plan, const calc::Batch& batch,
               const Owner& owner)
      : sheet_(sheet), plan_(plan), batch_(batch), owner_(owner) {}

  void draw() {
    sheet_.canvas().set_place("the break-in of " + owner_.shown());
    sheet_.bookmark_next(owner_.shown());
    std::vector<std::size_t> left = owner_.motors;
    while (!left.empty()) {
      std::vector<std::size_t> alike;
      const records::Planned& planned = planned_of(left.front());
      std::erase_if(left, [&](std::size_t i) {
        const bool is = breaks_in_alike(planned, planned_of(i));
        if (is) {
          alike.push_back(i);
        }
        return is;
      });
      draw_alike(planned, alike);
    }
  }

 private:
  using Items = std::vector<std::pair<std::string, std::string>>;  // label, text

  [[nodiscard]] const records::Planned& planned_of(std::size_t motor) const {
    return batch_.motors[motor].planned;
  }

  void draw_alike(const records::Planned& p, const std::vector<std::size_t>& motors) {
    const std::vector<Pass> passes = passes_of(p);
    const Items items = items_of(p);
    draw_title(p, motors, items, row_height(passes));
    for (const auto& [label, text] : items) {
      sheet_.item(label, text);
    }
    sheet_.down(1.5);
    sheet_.repeat([this, again = again(motors)] {
      sheet_.down(sheet_.canvas().fit(
          sheet_.x(), sheet_.y(), sheet_.width(), again,
          {.size_pt = 10, .face = page::Face::sheet_bold, .smallest_pt = 8, .max_lines = 3}));
      sheet_.down(1.2);
    });
    draw_steps(sheet_, p, plan_.units);
    for (const std::size_t i : motors) {
      draw_motor(batch_.motors[i], passes);
    }
    sheet_.repeat(nullptr);
    sheet_.down(2);
  }

  [[nodiscard]] Items items_of(const records::Planned& p) const {
    Items items{
        {"recipe", p.recipe.empty() ? "none in the plan: write down what you do" : p.recipe}};
    if (const std::string source = source_of(p.recipe); !source.empty()) {
      items.emplace_back("", "source: " + source);
    }
    if (calc::has_cranks(p.winder_ratio)) {
      items.emplace_back("cranks", fmt::format("of a winder that turns the motor {} times a crank",
                                               rounded(p.winder_ratio, 4)));
    }
    items.emplace_back("estimate", estimate(p));
    items.emplace_back("factors", factors(p));
    items.emplace_back("loop", fmt::format("{} as tied; about {} the next day when it has grown by "
                                           "the {} that is good (estimate)",
                                           both(p.loop, plan_.units),
                                           shown(calc::broken_in_loop(p.loop), plan_.units),
                                           exact(Share::ratio(calc::kSetNextDay))));
    if (!p.lubricant.empty()) {
      items.emplace_back("lubricant", p.lubricant + ", rubbed in before the first step");
    }
    return items;
  }

  /// Whose motors, which, and what never to do. Kept with all that follows where a page holds it
  /// and not more than half a page is left empty for that; else with the steps and a motor.
  void draw_title(const records::Planned& p, const std::vector<std::size_t>& motors,
                  const Items& items, double row) {
    constexpr page::Style kTitle{.size_pt = 12, .face = page::Face::sheet_bold};
    constexpr page::Style kIds{
        .size_pt = 10, .face = page::Face::sheet_bold, .smallest_pt = 10, .max_lines = 1000};
    const std::string ids = id_list(batch_, motors);
    const std::string title = fmt::format("{}: {}", owner_.shown(), ids);
    const bool short_enough = sheet_.canvas().width_of(title, kTitle) <= sheet_.width();
    double start = page::line_height(kTitle.size_pt) + 2.5 + steps_height(sheet_, p, plan_.units);
    for (const auto& [label, text] : items) {
      start += sheet_.item_height(label, text);
    }
    if (!short_enough) {
      start += sheet_.canvas().height_of(sheet_.width(), ids, kIds) + 1;
    }
    const double whole = start + row * static_cast<double>(motors.size());
    const double page = sheet_.full_height();
    const bool may_split = whole + 10 > page || sheet_.bottom() - sheet_.y() > page / 2;
    const double with = may_split ? std::min(start + row, page / 2) : whole;
    if (short_enough) {
      sheet_.heading(title, with);
    } else {
      sheet_.heading(owner_.shown() + ": " + how_many(motors.size(), "motor"), with);
      sheet_.paragraph(ids, kIds);
    }
    sheet_.paragraph("DO NOT PASS " + upper_ascii(turns_at_most(p, records::do_not_pass(p))) + ".",
                     kTitle);
  }

  /// The head of a page that goes on.
  [[nodiscard]] std::string again(const std::vector<std::size_t>& motors) const {
    return fmt::format("{}: {}, continued", owner_.shown(), ids_in_short(batch_, motors));
  }

  /// Where a recipe was published; empty when it says nothing of that.
  [[nodiscard]] std::string source_of(const std::string& recipe) const {
    const auto found = std::find_if(plan_.recipes.begin(), plan_.recipes.end(),
                                    [&](const plan::Recipe& r) { return r.name == recipe; });
    return found == plan_.recipes.end() ? "" : found->source;
  }

  [[nodiscard]] std::string estimate(const records::Planned& p) const {
    return fmt::format("breaks at {} turns ({}–{}, 95\u00a0%), {} ({}–{}, 95\u00a0%)",
                       fixed(p.turns_max.value.count(), 0), shown_at_most(p.turns_max.low),
                       fixed(p.turns_max.high.count(), 0), shown(p.torque_max.value, plan_.units),
                       shown(p.torque_max.low, plan_.units), shown(p.torque_max.high, plan_.units));
  }

  static std::size_t lines_of(const std::vector<Pass>& passes) {
    const std::size_t count = passes.empty() ? kFreePasses : passes.size();
    return (count + kPassesInLine - 1) / kPassesInLine;
  }

  /// A line for the id and the loops, then the passes.
  static double row_height(const std::vector<Pass>& passes) {
    return kLineHeight * static_cast<double>(1 + lines_of(passes)) + kRowFoot;
  }

  void draw_pass(const Pass& pass, double x, double y, double w) {
    page::Canvas& canvas = sheet_.canvas();
    constexpr double kName = 9;
    canvas.text(x, y, pass.name, {.size_pt = 11, .face = page::Face::sheet_bold});
    if (pass.tally > 0) {
      word_and_blank(canvas, x + kName, y, w - kName - kBetweenPasses - 1.5,
                     fmt::format("{} times, one stroke each", pass.tally));
      return;
    }
    const double quarter = (w - kName - kBetweenPasses) / 4;
    const auto blank = [&](int i, const char* word, const std::string& after) {
      word_and_blank(canvas, x + kName + i * quarter, y, quarter - 1.5, word, after);
    };
    blank(0, "at", "");
    blank(1, "to", "");
    if (pass.winds) {
      blank(2, "", "T");
      blank(3, "", torque_unit(plan_.units));
    }
  }

  void draw_loops(double y) {
    const double from = sheet_.x() + kIdWidth;
    const double w = (sheet_.width() - kIdWidth) / 4;
    const std::string unit = unit_name(plan_.units);
    const auto blank = [&](int i, const char* word, const std::string& after) {
      word_and_blank(sheet_.canvas(), from + i * w, y, w - 2.5, word, after);
    };
    blank(0, "loop before", unit);
    blank(1, "after", unit);
    blank(2, "next day", unit);
    blank(3, "at", plan_.units == Units::inch ? "°F" : "°C");
  }

  /// The id, loops and passes of one motor in a box. One with more passes than a page holds goes on
  /// over the next.
  void draw_motor(const calc::MotorFigures& motor, std::vector<Pass> passes) {
    if (passes.empty()) {
      passes.assign(kFreePasses, {.name = "", .winds = true});
    }
    page::Canvas& canvas = sheet_.canvas();
    const std::size_t lines = lines_of(passes);
    const double most = sheet_.full_height() - 20;
    sheet_.room(std::min(row_height(passes), most));
    for (std::size_t line = 0; line < lines;) {
      if (line > 0) {
        sheet_.new_page();
        sheet_.room(kLineHeight);  // the page is no longer empty for the motor after this one
      }
      const double fits = std::floor((sheet_.bottom() - sheet_.y() - kRowFoot) / kLineHeight) - 1;
      const std::size_t here =
          std::min(lines - line, static_cast<std::size_t>(std::max(fits, 1.0)));
      const double y = sheet_.y();
      const double height = kLineHeight * static_cast<double>(1 + here) + kRowFoot;
      canvas.box({.x = sheet_.x(), .y = y, .w = sheet_.width(), .h = height, .line_width = 0.3});
      page::draw_id(canvas,
                    {.x = sheet_.x() + 1.2, .y = y + 1, .w = kIdWidth - 2, .h = kLineHeight},
                    motor.id, {.size_pt = 13, .face = page::Face::sheet_bold, .smallest_pt = 9});
      if (line == 0) {
        draw_loops(y + kLineHeight);
        if (!motor.since.empty()) {
          canvas.text(sheet_.x() + 1.2, y + kLineHeight + 3, upper_ascii(motor.since),
                      {.size_pt = 8, .face = page::Face::sheet_bold});
        }
      }
      const double w = (sheet_.width() - 2.4) / kPassesInLine;
      for (std::size_t i = 0; i < here * kPassesInLine; ++i) {
        const std::size_t pass = line * kPassesInLine + i;
        const std::size_t below = 2 + i / kPassesInLine;
        if (pass < passes.size()) {
          draw_pass(passes[pass], sheet_.x() + 1.2 + static_cast<double>(i % kPassesInLine) * w,
                    y + static_cast<double>(below) * kLineHeight, w);
        }
      }
      sheet_.down(height);
      line += here;
    }
  }

  page::Sheet& sheet_;
  const plan::Plan& plan_;
  const calc::Batch& batch_;
  const Owner& owner_;
};

void draw_how(page::Sheet& sheet, const plan::Plan& plan) {
  sheet.paragraph(
      fmt::format("Wear eye protection: stretched or wound rubber can burst or whip. Blanks of a "
                  "step: at = time of day it begins, to = time it ends; T = turns and "
                  "{} reached. Loops in {} hanging straight, not stretched. A torque is a place to "
                  "stop: turns or torque, whichever comes first.",
                  torque_unit(plan.units), plan.units == Units::inch ? "inches" : "millimetres"),
      {.size_pt = 9});
}

}  // namespace

Result<page::Document> break_in_sheet(const plan::Plan& plan, const calc::Batch& batch,
                                      const plan::Stock& paper, const page::FontMetrics& metrics,
                                      std::optional<Moment> created) {
  if (Diagnostics problems = page::paper_problems(paper); !problems.empty()) {
    return problems;
  }
  Diagnostics warnings;
  page::Sheet sheet(paper, page::head_of(plan, "BREAK-IN SHEET"), metrics, warnings);
  draw_how(sheet, plan);
  calc::Batch tonight = calc::cut_tonight(batch);
  std::erase_if(tonight.motors, [](const calc::MotorFigures& motor) { return motor.over; });
  tonight.cutting.pieces.clear();  // its indices are of all motors, and nothing is cut here
  for (const Owner& owner : owners_of(tonight)) {
    OwnerBreakIn(sheet, plan, tonight, owner).draw();
  }
  return {sheet.finish(created), std::move(warnings)};
}

}  // namespace loopledger::sheets
