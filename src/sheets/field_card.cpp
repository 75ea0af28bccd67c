// SPDX-License-Identifier: MIT
#include "sheets/field_card.h"

#include <algorithm>

#include "page/sheet.h"
#include "sheets/field_card_face.h"
#include "sheets/field_card_list.h"
#include "tag/id.h"

namespace loopledger::sheets {
namespace {

constexpr double kBetweenCards = 3;
constexpr double kTallestCard = 130;

/// Half a page where that holds the card, else what it needs.
double card_height(page::Sheet& sheet, const motor::CardMotor& motor, Units units) {
  const double half = std::min((sheet.full_height() - kBetweenCards) / 2, kTallestCard);
  return std::max(half, least_card_height(sheet.canvas(), sheet.width(), motor, units));
}

}  // namespace

Result<page::Document> field_cards(const std::vector<motor::CardMotor>& motors, const CardRun& run,
                                   const plan::Stock& paper, const page::FontMetrics& metrics) {
  if (Diagnostics problems = page::paper_problems(paper); !problems.empty()) {
    return problems;
  }
  Diagnostics warnings;
  page::Sheet sheet(paper, {.kind = "FIELD CARD", .title = run.title, .right = run.as_of}, metrics,
                    warnings);
  bool begun = motors.size() < 2;
  if (!begun) {
    draw_box_list(sheet, motors, run.units);
  }
  for (const motor::CardMotor& motor : motors) {
    if (motor.retired) {
      continue;
    }
    if (!begun) {
      sheet.new_page();  // the list is its own: it may stay in the box
      begun = true;
    }
    sheet.canvas().set_place("the card of " + tag::with_check(motor.id));
    const double height = card_height(sheet, motor, run.units);
    sheet.room(height);
    sheet.bookmark(tag::with_check(motor.id));
    draw_card(sheet.canvas(), {.x = sheet.x(), .y = sheet.y(), .w = sheet.width(), .h = height},
              motor, run.units);
    sheet.down(height + kBetweenCards);
  }
  return {sheet.finish(run.created), std::move(warnings)};
}

}  // namespace loopledger::sheets
