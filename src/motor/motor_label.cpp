// SPDX-License-Identifier: MIT
#include "motor/motor_label.h"

#include <cmath>

#include "tag/tag_text.h"

namespace loopledger::motor {
namespace {

using motor::Now;
using motor::State;
using records::Record;

/// A slip's estimate that the motor in hand is off by more than this is out of date. Common sense,
/// no source.
constexpr double kSlipOff = 0.02;

bool is_made(State state) { return state == State::broken_in || state == State::flown; }

LabelFigures slip_as_planned(const Record& record) {
  calc::MotorFigures planned;
  planned.id = record.id;
  planned.planned = record.planned;
  return label_figures(planned);
}

/// Nothing to wind by: a pen's blanks, and the code is the id alone.
void take_figures_out(LabelFigures& label) {
  label.doubtful = true;
  label.turns.reset();
  label.torque.reset();
  label.turns_estimate.reset();
  label.turns_max.reset();
  label.tag = tag::TagFigures{};
  label.tag.id = label.id;
}

LabelFigures slip_now(const Record& record, const Now& now) {
  LabelFigures label = slip_as_planned(record);
  label.loop = now.loop;
  label.loop_is = now.loop_is;
  label.turns_estimate = whole_down(now.wind_to);
  label.turns_max = now.largest;
  label.tag.turns = whole_down(now.wind_to);
  label.tag.loop = now.loop;
  if (const auto mass = now.told_mass()) {
    label.mass = mass;
    label.tag.mass = mass;
  }
  return label;
}

LabelFigures bag_now(const Record& record, const Now& now) {
  LabelFigures label = slip_as_planned(record);
  label.state = tag::TagState::made;
  label.mass = now.told_mass();
  label.loop = now.loop;
  label.loop_is = now.loop_is;
  label.turns = now.best ? now.best->turns : whole_down(now.wind_to);
  label.turns_are_best = now.best.has_value();
  label.torque = now.best ? now.best->torque : std::nullopt;
  if (now.figures_at) {
    label.date = date_of(*now.figures_at);
  }
  label.tag = {.id = record.id,
               .state = tag::TagState::made,
               .turns = label.turns,
               .torque = label.torque,
               .mass = label.mass,
               .loop = label.loop,
               .date = label.date};
  return label;
}

std::string without_date(tag::TagFigures figures) {
  figures.date.reset();
  return tag::tag_texts(figures).front();
}

bool is_off(const std::optional<Turns>& printed, const std::optional<Turns>& now) {
  return printed && now && std::fabs(*printed / *now - 1) > kSlipOff;
}

}  // namespace

LabelFigures motor_label(const Record& record, const Now& now) {
  LabelFigures label = is_made(now.state) ? bag_now(record, now) : slip_now(record, now);
  if (now.has_new_knot()) {
    label.low.reset();  // what the scale may read was of the loop that was planned
    label.high.reset();
    label.tag.mass = now.told_mass();
  }
  if (now.is_shaky() || now.may_be_over()) {
    take_figures_out(label);
  }
  return label;
}

std::string label_tag(const Record& record, const Now& now) {
  return tag::tag_texts(motor_label(record, now).tag).front();
}

bool label_is_stale(const Record& record, const Now& now) {
  if (now.state == State::retired) {
    return false;
  }
  if (now.has_new_knot() && (now.labelled == nullptr || now.labelled_before_knot)) {
    return true;
  }
  tag::TagFigures printed = slip_as_planned(record).tag;
  if (now.labelled != nullptr) {
    if (const auto read = tag::read_label(now.labelled->tag); read && read->id == record.id) {
      printed = *read;
      if (!printed.turns && !printed.state) {  // it said CHECK: a record notes all that a code says
        return motor_label(record, now).tag.state.has_value();
      }
    }
  }
  return tag_is_stale(printed, record, now);
}

bool tag_is_stale(const tag::TagFigures& on_bag, const Record& record, const Now& now) {
  if (now.state == State::retired) {
    return false;
  }
  tag::TagFigures says = motor_label(record, now).tag;
  if (!on_bag.turns && !on_bag.state) {
    return false;  // an id alone says nothing
  }
  if (on_bag.state == tag::TagState::est && says.state == tag::TagState::est) {
    return is_off(on_bag.turns, says.turns);
  }
  if (!on_bag.state) {
    says.state.reset();
    says.mass.reset();
    says.loop.reset();
  }
  return without_date(on_bag) != without_date(says);
}

}  // namespace loopledger::motor
