// SPDX-License-Identifier: MIT
#include "sheets/label_values.h"

#include <fmt/format.h>

#include <cmath>

#include "tag/id.h"

namespace loopledger::sheets {
namespace {

/// "303 mm tied": before it is tied it is what the loop is to be tied to.
std::string loop_text(const motor::LabelFigures& label, Units units) {
  return label.loop ? fmt::format("loop {} {}", shown(*label.loop, units),
                                  label.loop_is == LoopIs::broken_in ? "broken in" : "tied")
                    : std::string();
}

std::string mass_text(const motor::LabelFigures& label) {
  if (label.mass) {
    return shown(*label.mass, label.scale_step);
  }
  if (label.low && label.high) {
    return fmt::format("{}–{} washed{}", grams(*label.low, label.scale_step),
                       shown(*label.high, label.scale_step), label.tails_on ? ", tails on" : "");
  }
  return {};
}

}  // namespace

LabelContent label_content(const motor::LabelFigures& label, Units units) {
  LabelContent content;
  content.made = label.state == tag::TagState::made;
  LabelValues& values = content.values;
  values["id"] = tag::with_check(label.id);
  values["state"] = label.doubtful ? "CHECK" : content.made ? "MADE" : "EST";
  values["for"] = label.purpose;
  values["owner"] = label.owner;
  values["turns_word"] = label.turns_are_best ? "best" : "wind to";
  values["turns"] = label.turns ? shown_at_most(*label.turns) : "";
  values["torque"] = label.torque ? shown(*label.torque, units) : "";
  values["torque_unit"] = torque_unit(units);
  values["mass"] = mass_text(label);
  values["loop"] = loop_text(label, units);
  values["strands"] = label.width
                          ? fmt::format("{} × {}", label.strands, shown_width(*label.width, units))
                          : fmt::format("{} strands", label.strands);
  values["lot"] = label.lot;
  values["date"] = label.date ? iso(*label.date) : "";
  if (!label.turns && label.turns_estimate && label.turns_max) {
    values["estimate"] = shown_at_most(*label.turns_estimate);
    values["breaks"] = fmt::format("{}–{}", shown_at_most(label.turns_max->low),
                                   shown_at_most(label.turns_max->high));
  }
  return content;
}

}  // namespace loopledger::sheets
