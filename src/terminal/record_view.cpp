// SPDX-License-Identifier: MIT
#include "terminal/record_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <span>
#include <unordered_map>

#include "base/text.h"
#include "json/record_json.h"
#include "motor/advice.h"
#include "motor/summary.h"
#include "motor/words.h"
#include "records/fields.h"
#include "sheets/figures_text.h"
#include "sheets/label_values.h"
#include "tag/id.h"
#include "terminal/text_table.h"

namespace loopledger::terminal {
namespace {

using records::Entry;
using records::Planned;
using records::Record;

constexpr std::size_t kNewest = 12;  // entries that leave the rest of the record on one screen

std::string made_of(const Planned& p, Units units) {
  std::string out = motor::strip_words(p, units);
  out += p.piece.empty() ? "" : fmt::format(", from piece {}", p.piece);
  if (p.rule) {
    out += fmt::format("; rule {}, at most {}", p.rule->name, exact(p.rule->limit));
  }
  if (p.date) {
    out += fmt::format("; planned {}", iso(*p.date));
  }
  return out;
}

std::string windows(const Planned& p, const motor::Readings& read, Units units) {
  TextTable table({{"stage"},
                   {"from g", TextTable::Side::right},
                   {"to g", TextTable::Side::right},
                   {"read g", TextTable::Side::right},
                   {"which is"}});
  for (const Stage stage : kStages) {
    const records::Window w = calc::scale_window(p, stage);
    const auto& reading = read.of(stage);
    if (w == records::Window{} && !reading) {
      continue;
    }
    table.row(
        {motor::spoken(stage) + motor::with_tails(stage, p), gram_cell(w.low, p.scale_step),
         gram_cell(w.high, p.scale_step), gram_cell(reading, p.scale_step),
         reading ? motor::short_verdict(p, calc::judge(p, stage, *reading, read.together()), units)
                 : ""});
  }
  return table.text();
}

std::string lengths_and_turns(const Planned& p, const motor::Now& a, Units units) {
  std::string out =
      fmt::format("cut {}, loop {} as planned", shown(sheets::cut_length(p.cut, units), units),
                  shown(p.loop, units));
  if (a.loop_is != LoopIs::planned || a.loop_of_mass) {
    out += fmt::format(", {} {}", shown(a.loop, units),
                       a.loop_of_mass ? "by its mass" : spoken(a.loop_is));
  }
  out += a.growth ? fmt::format(" ({}{} %)", *a.growth < Share{} ? "" : "+",
                                fixed(a.growth->in_percent(), 1))
                  : "";
  out +=
      fmt::format("\nwind to {} turns, do not pass {}; it may break from {} to {} (95 %, estimate)",
                  shown_at_most(a.wind_to), shown_at_most(a.do_not_pass),
                  shown_at_most(a.largest.low), fixed(a.largest.high.count(), 0));
  out += fmt::format("\nlargest torque {}, from {} to {} (95 %, estimate)",
                     shown(p.torque_max.value, units), shown(p.torque_max.low, units),
                     shown(p.torque_max.high, units));
  return out + '\n';
}

}  // namespace

std::string entries_text(const std::vector<Entry>& entries, Units units, std::size_t most) {
  std::unordered_map<std::string_view, std::string_view> corrected_by;
  for (const Entry& e : entries) {
    if (!e.corrects.empty()) {
      corrected_by[e.corrects] = e.key;
    }
  }
  std::string out;
  const std::size_t first = entries.size() > most ? entries.size() - most : 0;
  if (first > 0) {
    out = fmt::format("  {} before these: --all\n", first);
  }
  for (const Entry& e : std::span(entries).subspan(first)) {
    const auto at = records::moment_of_key(e.key);
    const std::string when = at ? readable(*at) : "no time";
    const std::string key = at ? e.key.substr(e.key.size() - 4) : printable(shortened(e.key, 30));
    std::string mark = e.edited ? " [edited: not relied on]" : "";
    if (const auto by = corrected_by.find(e.key); by != corrected_by.end()) {
      const std::string_view last =
          by->second.substr(by->second.size() - std::min<std::size_t>(by->second.size(), 4));
      mark += fmt::format(" [corrected by {}]", printable(last));
    }
    out += wrapped(fmt::format("  {}  {}  {}{}", when, key, motor::in_words(e, units), mark));
  }
  return out.empty() ? "  none yet\n" : out;
}

std::string record_text(const Record& record, const RecordView& view) {
  const Units units = view.units;
  const motor::Now now = motor::now_of(record);
  std::string out = wrapped(fmt::format("{} - {}", motor::whose(record), motor::spoken(now.state)));
  if (now.has_damaged_head()) {
    out += fmt::format("{}\n", motor::kPlannedEdited);
  }
  out += wrapped("Next: " + motor::next_step(record, now, view.today, units));
  for (const std::string& line : motor::today_lines(record, now, view.today, units)) {
    out += wrapped("  " + line);
  }
  out += '\n' + wrapped(printable(made_of(record.planned, units))) + '\n';
  out += windows(record.planned, now.read, units) + '\n';
  out += lengths_and_turns(record.planned, now, units);
  for (const std::string& line : motor::part_and_hooks(record.planned, units)) {
    out += wrapped(line);
  }
  for (const auto& [name, value] : record.planned_unknown) {
    out += wrapped(printable(fmt::format("{} = {} (of a newer version)", name, value)));
  }
  out += "\nEntries (UTC)\n" +
         entries_text(record.entries, units, view.all ? record.entries.size() : kNewest);
  if (record.torn) {
    out += "  … and a torn end: see `loopledger mend`\n";
  }
  return out;
}

std::string record_summary(const Record& record, const RecordView& view) {
  std::string out;
  for (const std::string& line : motor::summary_lines(record, view.today, view.units)) {
    out += wrapped(line);
  }
  return out;
}

}  // namespace loopledger::terminal
