// SPDX-License-Identifier: MIT
#include "motor/tag_fits.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "base/date.h"
#include "calc/weigh.h"
#include "motor/now.h"
#include "tag/tag_fields.h"

namespace loopledger::motor {
namespace {

using records::Entry;
using records::Kind;
using records::Record;
using tag::mass_decimals;
using tag::tag_texts;
using tag::TagFigures;

/// |a - b| within half of the last digit, with room for the rounding of binary fractions.
bool same(double a, double b, int decimals) {
  return std::abs(a - b) <= 0.5 * std::pow(10.0, -decimals) + 1e-9 * std::abs(a);
}

/// Every mass that could be printed as a motor's mass: the aim, readings, and the rubber in them.
std::vector<Mass> masses_of(const Record& record) {
  const records::Planned& p = record.planned;
  std::vector<Mass> masses{p.aim};
  for (const Entry& entry : record.entries) {
    if (const auto stage = stage_weighed(entry)) {
      masses.push_back(*entry.reading);
      masses.push_back(calc::rubber_in(p, *stage, *entry.reading));
    }
  }
  return masses;
}

/// Every loop, measured or that of a mass.
std::vector<Length> loops_of(const Record& record) {
  std::vector<Length> loops{record.planned.loop};
  for (const Entry& entry : record.entries) {
    for (const auto& loop : {entry.loop, entry.loop_before, entry.loop_after}) {
      if (loop) {
        loops.push_back(*loop);
      }
    }
    if (const auto stage = stage_weighed(entry);
        stage && record.planned.linear_density.value > LinearDensity{}) {
      const Mass rubber = calc::rubber_in(record.planned, *stage, *entry.reading);
      loops.push_back(loop_of_mass(record.planned, rubber));
    }
  }
  return loops;
}

bool has_date(const Record& record, const Date& date) {
  if (!record.planned.date || *record.planned.date == date) {
    return true;
  }
  return std::any_of(record.entries.begin(), record.entries.end(), [&](const Entry& entry) {
    const auto moment = moment_from_stamp(entry.key.substr(0, entry.key.find('-')));
    return moment && date_of(*moment) == date;
  });
}

bool was_printed(const Record& record, const TagFigures& figures) {
  const std::string text = tag_texts(figures).front();
  return std::any_of(record.entries.begin(), record.entries.end(), [&](const Entry& entry) {
    return entry.kind == Kind::labelled && entry.tag == text;
  });
}

}  // namespace

std::vector<std::string_view> tag_misfits(const TagFigures& figures, const Record& record) {
  std::vector<std::string_view> misfits;
  if (was_printed(record, figures)) {
    return misfits;
  }
  if (figures.mass) {
    const auto masses = masses_of(record);
    const int decimals = mass_decimals(*figures.mass);
    if (std::none_of(masses.begin(), masses.end(), [&](Mass mass) {
          return same(figures.mass->in_g(), mass.in_g(), decimals);
        })) {
      misfits.emplace_back("mass");
    }
  }
  if (figures.loop) {
    const auto loops = loops_of(record);
    if (std::none_of(loops.begin(), loops.end(),
                     [&](Length loop) { return same(figures.loop->in_mm(), loop.in_mm(), 0); })) {
      misfits.emplace_back("loop");
    }
  }
  if (figures.date && !has_date(record, *figures.date)) {
    misfits.emplace_back("date");
  }
  return misfits;
}

}  // namespace loopledger::motor
