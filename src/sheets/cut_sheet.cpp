// SPDX-License-Identifier: MIT
#include "sheets/cut_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "calc/work_out.h"
#include "page/ruler.h"
#include "sheets/cut_sections.h"
#include "sheets/figures_text.h"

namespace loopledger::sheets {
namespace {

bool same_figures(const records::Planned& a, const records::Planned& b) {
  return a.windows == b.windows && a.rule == b.rule && a.strands == b.strands &&
         a.strip == b.strip && a.linear_density == b.linear_density && a.ring == b.ring &&
         a.ring_count == b.ring_count && a.rings == b.rings && a.lubricant == b.lubricant &&
         a.uptake == b.uptake && a.left == b.left && a.adhesive == b.adhesive &&
         a.adhesive_mass == b.adhesive_mass && a.aim == b.aim && a.stays == b.stays &&
         a.cut == b.cut && a.knot == b.knot && a.tails == b.tails && a.part == b.part;
}

void draw_ruler_section(page::Sheet& sheet, Units units) {
  constexpr double kHeight = 14;
  sheet.room(kHeight);
  sheet.down(3);
  sheet.down(page::draw_ruler(sheet.canvas(), sheet.x(), sheet.y(), sheet.width(), units) + 3);
}

/// Motors that are no longer as planned: on paper for the night that was.
void draw_moved_on(page::Sheet& sheet, const calc::Batch& batch) {
  std::map<std::string, std::vector<std::size_t>> by_state;
  for (std::size_t i = 0; i < batch.motors.size(); ++i) {
    if (!batch.motors[i].since.empty()) {
      by_state[batch.motors[i].since].push_back(i);
    }
  }
  for (const auto& [since, motors] : by_state) {
    sheet.item("Not to cut", fmt::format("{}: {} already, by {}.", id_list(batch, motors), since,
                                         motors.size() == 1 ? "its record" : "their records"));
  }
}

}  // namespace

std::vector<Kind> kinds_of(const plan::Plan& plan, const calc::Batch& batch) {
  std::vector<Kind> kinds;
  for (std::size_t i = 0; i < batch.motors.size(); ++i) {
    const calc::MotorFigures& motor = batch.motors[i];
    Kind* found = nullptr;
    for (Kind& kind : kinds) {
      if (same_figures(*kind.planned, motor.planned)) {
        found = &kind;
        break;
      }
    }
    if (found == nullptr) {
      kinds.push_back(
          {.planned = &motor.planned, .group = &plan.motors[motor.group], .motors = {}});
      found = &kinds.back();
    }
    found->motors.push_back(i);
  }
  return kinds;
}

bool is_used(const plan::Plan& plan, const calc::Batch& batch,
             std::optional<std::size_t> plan::MotorGroup::*list, std::size_t index) {
  return std::ranges::any_of(batch.motors, [&](const calc::MotorFigures& motor) {
    return plan.motors[motor.group].*list == index;
  });
}

Result<page::Document> cut_sheet(const plan::Plan& plan, const calc::Batch& batch,
                                 const plan::Stock& paper, const page::FontMetrics& metrics,
                                 std::optional<Moment> created) {
  if (Diagnostics problems = page::paper_problems(paper); !problems.empty()) {
    return problems;
  }
  Diagnostics warnings;
  page::Sheet sheet(paper, page::head_of(plan, "CUT SHEET"), metrics, warnings);
  const calc::Batch tonight = calc::cut_tonight(batch);
  draw_moved_on(sheet, tonight);
  draw_fetch(sheet, plan, tonight);
  draw_bench_checks(sheet, plan, tonight);
  draw_cutting(sheet, plan, batch);  // names those that are not cut
  sheet.bookmark_next("Wash, dry, weigh");
  draw_advice(sheet, plan, tonight);
  draw_owners(sheet, plan, tonight);
  draw_budgets(sheet, plan, tonight);
  draw_rules(sheet, plan, tonight);
  sheet.bookmark_next("Cautions");
  draw_cautions(sheet);
  draw_defaults(sheet, plan, tonight);
  draw_ruler_section(sheet, plan.units);
  return {sheet.finish(created), std::move(warnings)};
}

}  // namespace loopledger::sheets
