// SPDX-License-Identifier: MIT
#include "motor/life_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

#include "records/fields.h"

namespace loopledger::test {
namespace {

using motor::Mark;
using motor::Now;
using records::Entry;
using records::Record;

std::string entry_text(const Entry& e) {
  std::ostringstream out;
  out << e.key << " " << records::word(e.kind);
  for (const records::Field& field : records::fields_of(e.kind)) {
    if (const auto value = records::toml_value(e, field)) {
      out << " " << field.name << "=" << *value;
    }
  }
  out << (e.edited ? "  UNSOUND" : "");
  return out.str();
}

// Each value as text, so that one comparison serves all: a figure to eleven digits, because the two
// ways of working it out may round apart in the last.
std::string text(double value) { return fmt::format("{:.11g}", value); }
std::string text(int value) { return std::to_string(value); }
std::string text(std::size_t value) { return std::to_string(value); }
std::string text(bool value) { return value ? "yes" : "no"; }
std::string text(LoopIs value) { return std::string(word(value)); }
std::string text(motor::State value) { return std::string(motor::word(value)); }
std::string text(const Entry* e) { return e == nullptr ? "none" : e->key; }
std::string text(Moment at) { return stamp(at); }
std::string text(const Date& date) { return iso(date); }
std::string text(Temperature t) { return text(t.in_deg_c()); }
template <class Q>
requires requires(Q q) { q.in_si(); }
std::string text(Q value) { return text(value.in_si()); }
std::string text(const motor::NextStep& step) {
  return text(step.index) + " time " + text(step.time);
}
template <class T>
std::string text(const std::optional<T>& value);
std::string text(const motor::Winding& w) {
  return text(w.turns) + " turns, torque " + text(w.torque) + ", at " + text(w.at) + ", " +
         text(w.temperature) + " degC";
}
std::string text(const calc::OwnCurve& own) {
  return own.key + ", " + text(own.points) + " points, unwinding " + text(own.unwinding) +
         ", top " + text(own.curve.top_turns()) + " " + text(own.curve.top_torque());
}
template <class T>
std::string text(const std::optional<T>& value) {
  return value ? text(*value) : "none";
}

class Sayings {
 public:
  explicit Sayings(const Now& now) {
    say("state", now.state);
    say("lives", now.lives.size());
    for (const motor::Life& life : now.lives) {
      say_life(life);
    }
    say_loop(now);
    say_windings(now);
    say("step", now.step);
    say("winding step", now.winding_step);
    say("labelled", now.labelled);
    say("labelled before knot", now.labelled_before_knot);
    say_marks(now);
  }
  std::vector<std::pair<std::string, std::string>> said;

 private:
  template <class T>
  void say(const std::string& what, const T& value) {
    said.emplace_back(what, text(value));
  }

  void say_life(const motor::Life& life) {
    std::string entries;
    for (const motor::Standing& s : life.entries) {
      entries += " " + text(s.entry) + (s.place != s.entry ? " for " + text(s.place) : "") +
                 " at " + text(s.at) + ";";
    }
    said.emplace_back("a life", entries);
    std::string strains;
    for (const motor::Strain& s : life.strains) {
      strains +=
          " " + text(s.entry) + " loop " + text(s.loop) + " section " + text(s.section) + ";";
    }
    said.emplace_back("its strains", strains);
  }

  void say_loop(const Now& now) {
    for (const Stage stage : kStages) {
      say("reading " + std::string(word(stage)), now.read.of(stage));
    }
    say("washed", now.washed);
    say("rubber", now.rubber);
    say("loop", now.loop);
    say("loop is", now.loop_is);
    say("loop of mass", now.loop_of_mass);
    say("loop held", now.loop_held);
    say("loop as tied", now.loop_as_tied);
    say("tied measured", now.tied_measured);
    say("growth", now.growth);
    say("section", now.section);
    say("largest", now.largest.value);
    say("largest, low", now.largest.low);
    say("largest, high", now.largest.high);
    say("wind to", now.wind_to);
    say("do not pass", now.do_not_pass);
  }

  void say_windings(const Now& now) {
    say("best", now.best);
    say("most", now.most);
    say("beyond", now.beyond);
    say("own curve", now.own_curve);
    say("windings", now.windings);
    say("full winds", now.full_winds);
    say("flights", now.flights);
    say("backed off", now.backed_off);
    say("last turns", now.last_turns);
    say("worked at", now.worked_at);
    say("figures at", now.figures_at);
    say("last", now.last);
  }

  void say_marks(const Now& now) {
    std::vector<std::string> marks;
    for (const motor::Marked& m : now.marked) {
      const std::string kind = m.mark == Mark::head         ? "head"
                               : m.mark == Mark::torn       ? "torn"
                               : m.mark == Mark::lost       ? "lost " + text(m.line)
                               : m.mark == Mark::unsound    ? "unsound"
                               : m.mark == Mark::superseded ? "superseded"
                               : m.mark == Mark::late       ? "late"
                                                            : "beyond";
      marks.push_back(kind + " " + text(m.entry) + " " + text(m.other) + ";");
    }
    std::ranges::sort(marks);
    std::string all;
    for (const std::string& mark : marks) {
      all += " " + mark;
    }
    said.emplace_back("marks", all);
  }
};

}  // namespace

std::string life_text(const Record& record) {
  std::string out = record.planned_edited ? "head DAMAGED\n" : "";
  for (const Entry& e : record.entries) {
    out += entry_text(e) + "\n";
  }
  for (const int line : record.lost) {
    out += "line " + text(line) + " LOST\n";
  }
  return out;
}

std::string differences(const Now& a, const Now& b) {
  const auto left = Sayings(a).said;
  const auto right = Sayings(b).said;
  std::string out;
  for (std::size_t i = 0; i < std::min(left.size(), right.size()); ++i) {
    if (left[i] != right[i]) {
      out += left[i].first + ": " + left[i].second + "\n  or " + right[i].first + ": " +
             right[i].second + "\n";
    }
  }
  return out;
}

Record shortest(Record record, const std::function<bool(const Record&)>& fails) {
  for (std::size_t i = record.entries.size(); i-- > 0;) {
    Record without = record;
    without.entries.erase(without.entries.begin() + static_cast<std::ptrdiff_t>(i));
    if (fails(without)) {
      record = shortest(std::move(without), fails);
      break;
    }
  }
  return record;
}

}  // namespace loopledger::test
