// SPDX-License-Identifier: MIT
#include "cli/motor_label.h"

#include <algorithm>

#include "cli/advice.h"
#include "records/fields.h"
#include "records/state.h"
#include "tag/tag_text.h"

namespace loopledger::cli {
namespace {

using records::Entry;
using records::Kind;
using records::Record;
using records::State;

bool is_made(State state) { return state == State::broken_in || state == State::flown; }

/// Of the entries that give a label its figures.
std::optional<Date> last_change(const Record& record) {
  std::optional<Moment> last;
  for (const Entry* const e : records::standing(record.entries)) {
    const bool figures = e->kind == Kind::weighed || e->kind == Kind::tied ||
                         e->kind == Kind::break_in || e->kind == Kind::wound;
    const auto at = records::moment_of_key(e->key);
    if (figures && !e->edited && at && (!last || *at > *last)) {
      last = at;
    }
  }
  return last ? std::optional(date_of(*last)) : std::nullopt;
}

std::string without_date(tag::TagFigures figures) {
  figures.date.reset();
  return tag::tag_texts(figures).front();
}

}  // namespace

page::LabelFigures motor_label(const Record& record) {
  calc::MotorFigures planned;
  planned.id = record.id;
  planned.planned = record.planned;
  page::LabelFigures label = page::label_figures(planned);
  const Advice now = advice_for(record);
  if (!is_made(now.state)) {
    return label;
  }
  label.state = tag::TagState::made;
  label.mass = washed_rubber(record, now);
  label.loop = now.loop;
  label.loop_is = records::loop_is(now.known);
  label.turns = now.known.best_turns.value_or(whole_down(now.wind_to));
  label.turns_are_best = now.known.best_turns.has_value();
  label.torque = now.known.best_torque;
  if (const auto date = last_change(record)) {
    label.date = date;
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

std::string label_tag(const Record& record) {
  return tag::tag_texts(motor_label(record).tag).front();
}

bool label_is_stale(const Record& record) {
  if (records::state_of(record.entries) == State::retired) {
    return false;
  }
  calc::MotorFigures planned;
  planned.id = record.id;
  planned.planned = record.planned;
  tag::TagFigures printed = page::label_figures(planned).tag;
  for (const Entry* const e : records::standing(record.entries)) {
    if (e->kind == Kind::labelled && !e->edited) {
      if (const auto read = tag::read_label(e->tag); read && read->id == record.id) {
        printed = *read;
      }
    }
  }
  return tag_is_stale(printed, record);
}

bool tag_is_stale(const tag::TagFigures& on_bag, const Record& record) {
  if (records::state_of(record.entries) == State::retired) {
    return false;
  }
  tag::TagFigures now = motor_label(record).tag;
  if (!on_bag.turns && !on_bag.state) {
    return false;  // an id alone says nothing
  }
  if (!on_bag.state) {
    now.state.reset();
    now.mass.reset();
    now.loop.reset();
  }
  return without_date(on_bag) != without_date(now);
}

}  // namespace loopledger::cli
