// SPDX-License-Identifier: MIT
//
// The tables at the scale: for each owner every motor with its window at each stage, large, and a
// blank for what the scale read.
#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "calc/rule_parts.h"
#include "calc/turns_torque.h"
#include "sheets/cut_rows.h"
#include "sheets/cut_sections.h"
#include "sheets/figures_text.h"
#include "sheets/owners.h"

namespace loopledger::sheets {
namespace {

/// The snips that the page being drawn already has.
struct TrimsOnPage {
  std::size_t page = 0;
  std::vector<TrimRow> rows;
};

/// Motors that are made of the same and for the same.
struct Made {
  std::string about;
  std::vector<std::size_t> motors;
};

class OwnerTable {
 public:
  OwnerTable(page::Sheet& sheet, const plan::Plan& plan, const calc::Batch& batch,
             const Owner& owner, TrimsOnPage& trims)
      : sheet_(sheet), plan_(plan), batch_(batch), owner_(owner), trims_(trims) {
    for (const std::size_t i : owner.motors) {
      std::string text = about(batch.motors[i].planned);
      auto found = std::find_if(made_.begin(), made_.end(),
                                [&](const Made& made) { return made.about == text; });
      if (found == made_.end()) {
        found = made_.insert(made_.end(), {.about = std::move(text), .motors = {}});
      }
      found->motors.push_back(i);
    }
  }

  void draw() {
    const std::string title =
        fmt::format("{}: {}", owner_.shown(), how_many(owner_.motors.size(), "motor"));
    sheet_.canvas().set_place("the table of " + owner_.shown());
    sheet_.bookmark_next(owner_.shown());
    sheet_.heading(title, height_to_keep());
    for (const Made& made : made_) {
      sheet_.item(id_list(batch_, made.motors), made.about);
    }
    for (std::size_t next = 0; next < owner_.motors.size();) {
      std::size_t count = rows_that_fit(next);
      if (count == 0 || next > 0) {
        sheet_.new_page();
        sheet_.down(sheet_.canvas().fit(
            sheet_.x(), sheet_.y(), sheet_.width(), title + ", continued",
            {.size_pt = 10, .face = page::Face::sheet_bold, .smallest_pt = 8, .max_lines = 3}));
        sheet_.down(1.2);
        count = std::max<std::size_t>(1, rows_that_fit(next));
      }
      draw_rows(next, count);
      next += count;
    }
    sheet_.down(3);
  }

 private:
  /// An owner's table is not split if a page of its own would hold it, unless that would leave more
  /// than half a page empty.
  [[nodiscard]] double height_to_keep() {
    double items = 0;
    for (const Made& made : made_) {
      items += sheet_.item_height(id_list(batch_, made.motors), made.about);
    }
    const std::size_t count = owner_.motors.size();
    const double whole = items + table_height(0, count);
    const bool may_split = whole > sheet_.full_height() - 10 ||
                           sheet_.bottom() - sheet_.y() > sheet_.full_height() / 2;
    return may_split ? std::min(items + table_height(0, std::min<std::size_t>(count, 2)),
                                sheet_.full_height() / 2)
                     : whole;
  }

  [[nodiscard]] std::vector<TrimRow> trims_for(std::size_t first, std::size_t count) const {
    return trim_rows(batch_, std::span(owner_.motors).subspan(first, count), plan_.units);
  }

  /// Whether the page has these snips already, above another owner's table.
  [[nodiscard]] bool is_on_page(const std::vector<TrimRow>& rows) const {
    return trims_.page == sheet_.pages() && std::ranges::all_of(rows, [&](const TrimRow& row) {
             return std::ranges::find(trims_.rows, row) != trims_.rows.end();
           });
  }

  [[nodiscard]] double table_height(std::size_t first, std::size_t count) {
    const std::vector<TrimRow> rows = trims_for(first, count);
    return (is_on_page(rows) ? 0 : trimming_height(sheet_, batch_, rows, plan_.units)) +
           kNamesRowHeight + kMotorRowHeight * static_cast<double>(count);
  }

  /// How many motors from `first` on the page still takes, with the snips for them.
  [[nodiscard]] std::size_t rows_that_fit(std::size_t first) {
    std::size_t count = 0;
    while (first + count < owner_.motors.size() &&
           sheet_.y() + table_height(first, count + 1) <= sheet_.bottom()) {
      ++count;
    }
    return count;
  }

  void draw_rows(std::size_t first, std::size_t count) {
    sheet_.room(table_height(first, count));
    if (const std::vector<TrimRow> rows = trims_for(first, count); !is_on_page(rows)) {
      draw_trimming(sheet_, batch_, rows, plan_.units);
      if (trims_.page != sheet_.pages()) {
        trims_ = {.page = sheet_.pages(), .rows = {}};
      }
      // Of a strip only the snips above the nearest table count.
      std::erase_if(trims_.rows, [&](const TrimRow& before) {
        return std::ranges::any_of(rows,
                                   [&](const TrimRow& row) { return row.strip == before.strip; });
      });
      trims_.rows.insert(trims_.rows.end(), rows.begin(), rows.end());
    }
    draw_column_names(sheet_, plan_.units);
    for (std::size_t i = first; i < first + count; ++i) {
      draw_motor_row(sheet_, batch_.motors[owner_.motors[i]], plan_.units);
    }
  }

  /// What a motor is made of and for, in a line or two.
  [[nodiscard]] std::string about(const records::Planned& p) const {
    std::string text = p.purpose.empty() ? "" : p.purpose + "; ";
    text += fmt::format("{} strands of {}", p.strands, p.strip);
    if (p.width) {
      text += fmt::format(", {}{}", p.slit ? "SLIT TO " : "", strip_width(*p.width, plan_.units));
    }
    text += fmt::format("; knot {}", shown(p.knot, plan_.units));
    if (p.tails > Length{}) {
      text += fmt::format(", tails {} snipped off after tying", shown(p.tails, plan_.units));
    }
    if (!p.ring.empty()) {
      text += fmt::format("; {} × ring {}", p.ring_count, p.ring);
    }
    if (const auto parts = calc::counted_but_not_named(p); !parts.empty()) {
      text += fmt::format(
          "; the rule counts {} and none is named: NOTHING IS KEPT FREE UNDER THE LIMIT FOR IT",
          fmt::join(parts, ", "));
    }
    if (p.part) {
      text += fmt::format("; part motor, {} of the full length", rounded(*p.part, 3));
      if (p.spacer && p.ballast) {
        text += fmt::format(", spacer {} of {}", shown(*p.spacer, plan_.units),
                            shown(*p.ballast, p.scale_step));
      }
    }
    if (!p.loop_given) {
      const Length u = p.cut_u * (calc::coverage_95() / p.strands);
      text += fmt::format(
          "; loop is an estimate, ± {} (95 %)",
          plan_.units == Units::inch ? fixed(u.in_in(), 2) + " in" : rounded(u.in_mm(), 2) + " mm");
    }
    return text + ".";
  }

  page::Sheet& sheet_;
  const plan::Plan& plan_;
  const calc::Batch& batch_;
  const Owner& owner_;
  TrimsOnPage& trims_;
  std::vector<Made> made_;
};

}  // namespace

void draw_owners(page::Sheet& sheet, const plan::Plan& plan, const calc::Batch& batch) {
  TrimsOnPage trims;
  for (const Owner& owner : owners_of(batch)) {
    OwnerTable(sheet, plan, batch, owner, trims).draw();
  }
}

}  // namespace loopledger::sheets
