// SPDX-License-Identifier: MIT
#include "motor/bench_words.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "calc/weigh.h"
#include "motor/consequences.h"
#include "motor/doubts.h"
#include "motor/typed_reading.h"
#include "motor/words.h"

namespace loopledger::motor {
namespace {

using records::Entry;
using records::Record;

/// What a motor lighter than its window still is within; empty when there is nothing to say.
std::string light_words(const records::Planned& p, Stage stage, Mass reading) {
  const auto good = still_good_for(p, stage, reading);
  if (!good || stage == Stage::as_cut || *good >= p.rule->limit - Mass::mg(0.001)) {
    return {};
  }
  // Planned well under its limit, it needs no lower one to be of use.
  const auto expected = motor::expected_reading(p, stage);
  const auto planned_for = expected ? still_good_for(p, stage, *expected) : std::nullopt;
  if (planned_for && *planned_for < p.rule->limit - Mass::mg(0.001)) {
    return fmt::format(" for what was planned, within the limit of {}", exact(p.rule->limit));
  }
  return fmt::format(", still good for {}", exact(*good));
}

/// What goes on that nothing was kept free for, or an earlier reading that was over.
std::string but(const Record& record, Stage stage, Mass reading, const motor::Readings& before) {
  if (stage == Stage::as_cut) {
    return {};
  }
  std::string out = over_before(record.planned, stage, reading, before);
  if (const std::string unnamed = unnamed_words(record.planned); !unnamed.empty()) {
    out += (out.empty() ? "" : "; ") + unnamed;
  }
  return out;
}

std::string judged_words(const Record& record, Stage stage, Mass reading,
                         const motor::Readings& before, Units units) {
  const records::Planned& p = record.planned;
  const calc::Judgement j = calc::judge(p, stage, reading, before.together());
  const auto mg = [&](Mass mass) { return shown_mg(mass, p.scale_step); };
  const std::string said =
      fmt::format("{} {}{}", spoken(stage), shown(reading, p.scale_step), with_tails(stage, p));
  if (j.verdict == calc::Verdict::over) {
    return fmt::format("{} over, snip {} ({})", mg(j.over), shown(j.trim, units), said);
  }
  if (j.verdict == calc::Verdict::light) {
    return fmt::format("too light by {}{} ({})", mg(j.light), light_words(p, stage, reading), said);
  }
  const bool to_spare = j.margin && *j.margin >= Mass{} && stage != Stage::as_cut;
  const std::string spare = to_spare ? fmt::format(", {} to spare", mg(*j.margin)) : "";
  if (const std::string told = but(record, stage, reading, before); !told.empty()) {
    return fmt::format("in its window ({}{}), but {}", said, spare, told);
  }
  return fmt::format("OK, {} ({}{})", fits_words(stage), said, spare);
}

}  // namespace

std::string bench_name(const Record& record) {
  std::string out = printed(record.id);
  if (!record.planned.owner.empty()) {
    out += " " + record.planned.owner;
  }
  return printable(out);
}

std::string bench_answer(const Record& before, const Entry& entry, Units units) {
  const auto stage = motor::stage_weighed(entry);
  std::string out = fmt::format(
      "{}: {}", bench_name(before),
      stage ? judged_words(before, *stage, *entry.reading, motor::now_of(before).read, units)
            : in_words(entry, units));
  Record after = before;
  after.entries.push_back(entry);
  const motor::Now now = motor::now_of(after);
  if (const std::string replaced = correction_words(before, after, entry, units);
      !replaced.empty()) {
    out += "; " + replaced;
  }
  for (const std::string& line : new_knot_words(before, after, entry, units, "undo")) {
    out += "; " + line;
  }
  if (now.state == motor::State::retired) {
    return out;
  }
  if (entry.loop_after && now.growth) {
    out += fmt::format("; {}, wind to {}", growth_words(after), shown_at_most(now.wind_to));
  }
  if (entry.turns && *entry.turns > now.do_not_pass) {
    out += fmt::format("; past \"do not pass\" {}", shown_at_most(now.do_not_pass));
  }
  return out;
}

std::string bench_help(bool lines) {
  if (!lines) {
    return "th3 1.776, th3 loop 302, th3 1180 41 gf.cm; Enter: next motor; undo, skip, stop, show, "
           "list, check";
  }
  return "  th3 1.776          what the scale reads; washed 1.776, tied 1.776, finished 1.776\n"
         "  th3 loop 302       the loop as tied, or after break-in\n"
         "  th3 1180 41 gf.cm  turns and torque; th3 120 cranks; th3 broke 1310; th3 flown 7:31\n"
         "  1.776              the same for the motor that the prompt names\n"
         "  th3                this motor next; an owner's name: the next of hers or his\n"
         "  Enter              the next motor that lacks something; skip: not this one tonight\n"
         "  undo               takes the last entry back, and again the one before it\n"
         "  show th3, list     one motor; the night's motors and what each lacks\n"
         "  check 1.001        a check weight of 1 g reads 1.001; check 5 g 5.002 g\n"
         "  stop";
}

}  // namespace loopledger::motor
