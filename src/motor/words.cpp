// SPDX-License-Identifier: MIT
#include "motor/words.h"

#include <fmt/format.h>

#include <cmath>

#include "base/text.h"
#include "motor/doubts.h"
#include "records/fields.h"
#include "tag/id.h"

namespace loopledger::motor {
namespace {

using records::Entry;
using records::Kind;
using records::Planned;

/// Shows the fields of one entry.
class Speaker {
 public:
  Speaker(const Entry& entry, Units units) : e_(entry), units_(units) {}

  [[nodiscard]] std::string typed_or(std::string_view field, std::string otherwise) const {
    for (const auto& [name, text] : e_.typed) {
      if (name == field) {
        return text;
      }
    }
    return otherwise;
  }
  [[nodiscard]] std::string reading() const { return typed_or("reading", exact(*e_.reading)); }
  [[nodiscard]] std::string length(const char* name, const Length& value) const {
    return typed_or(name, shown(value, units_));
  }
  [[nodiscard]] static std::string turns(const Turns& n) {
    return fmt::format("{} turns", rounded(n.count(), 6));
  }
  /// " to 1200 turns at 41 gf.cm"
  [[nodiscard]] std::string turns_and_torque(const char* to) const {
    std::string out = e_.turns ? fmt::format("{}{}", to, turns(*e_.turns)) : std::string();
    if (e_.torque) {
      out += fmt::format(" at {}", typed_or("torque", shown(*e_.torque, units_)));
    }
    return out;
  }
  [[nodiscard]] std::string temperature() const {
    return e_.temperature ? ", " + typed_or("temperature", exact(*e_.temperature)) : std::string();
  }

  [[nodiscard]] std::string weighed() const {
    return fmt::format("weighed {}{}", e_.stage ? spoken(*e_.stage) : "",
                       e_.reading ? ": " + reading() : "");
  }
  [[nodiscard]] std::string tied() const {
    std::string out = "tied";
    out += e_.loop ? ", loop " + length("loop", *e_.loop) : "";
    out += e_.reading ? ", reads " + reading() : "";
    return out;
  }
  [[nodiscard]] std::string break_in() const {
    std::string out = "broken in";
    out += e_.step ? fmt::format(", step {}", *e_.step) : "";
    const std::string wound = turns_and_torque(" to ");
    out += wound.empty() ? "" : "," + wound;
    if (e_.loop_before) {
      out += ", loop before " + length("loop_before", *e_.loop_before);
    }
    if (e_.loop_after) {
      out += ", loop after " + length("loop_after", *e_.loop_after);
    }
    return out + temperature();
  }
  [[nodiscard]] std::string wound() const {
    std::string out = "wound" + turns_and_torque(" to ");
    out +=
        e_.end ? fmt::format(", {}", *e_.end == WindEnd::solid ? "felt solid" : word(*e_.end)) : "";
    out += e_.backed_off ? ", backed off to " + turns(*e_.backed_off) : "";
    if (!e_.pairs.empty()) {
      out += fmt::format(", torque read at {} points", e_.pairs.size());
    }
    return out + temperature();
  }
  [[nodiscard]] std::string broke() const {
    std::string out = "broke" + turns_and_torque(" at ");
    if (e_.where) {
      out += *e_.where == BreakPlace::middle ? ", in the middle"
                                             : fmt::format(", at the {}", word(*e_.where));
    }
    return out;
  }
  [[nodiscard]] std::string flown() const {
    std::string out = "flown";
    out += e_.flight_time ? fmt::format(" {}", shown(*e_.flight_time)) : "";
    out += e_.turns_left ? fmt::format(", {} left", turns(*e_.turns_left)) : "";
    return out + temperature();
  }

 private:
  const Entry& e_;
  Units units_;
};

std::string what_happened(const Entry& e, Units units) {
  const Speaker say(e, units);
  switch (e.kind) {
    case Kind::planned:
      return "planned";
    case Kind::weighed:
      return say.weighed();
    case Kind::tied:
      return say.tied();
    case Kind::break_in:
      return say.break_in();
    case Kind::wound:
      return say.wound();
    case Kind::broke:
      return say.broke();
    case Kind::flown:
      return say.flown();
    case Kind::labelled:
      return "labelled " + e.tag;
    case Kind::piece:
      return "piece " + e.tag;
    case Kind::note:
      return e.text;
    case Kind::retired:
      return e.text.empty() ? "retired" : "retired: " + e.text;
    case Kind::other:
      break;
  }
  return e.kind_text;
}

}  // namespace

std::string whose(const records::Record& record) {
  std::string out = tag::with_check(record.id);
  std::string rest = record.planned.owner;
  if (!record.planned.purpose.empty()) {
    rest += fmt::format("{}for {}", rest.empty() ? "" : ", ", record.planned.purpose);
  }
  return printable(rest.empty() ? out : fmt::format("{}: {}", out, rest));
}

std::string spoken(Stage stage) {
  return stage == Stage::as_cut ? std::string("as cut") : std::string(word(stage));
}

std::string with_tails(Stage stage, const records::Planned& planned) {
  return stage == Stage::washed && planned.tails > Length{} ? ", tails on" : "";
}

std::string spoken(motor::State state) {
  return state == motor::State::broken_in ? std::string("broken in") : std::string(word(state));
}

std::string in_words(const Entry& e, Units units) {
  std::string out = what_happened(e, units);
  if (e.kind != Kind::note && e.kind != Kind::retired && !e.text.empty()) {
    out += ": " + e.text;
  }
  for (const auto& [name, value] : e.unknown) {
    out += fmt::format(", {} = {}", name, value);
  }
  return printable(out);
}

std::string fits_words(Stage stage) {
  return stage == Stage::as_cut ? "long enough" : "within its window";
}

std::string short_verdict(const records::Planned& p, const calc::Judgement& j, Units units) {
  switch (j.verdict) {
    case calc::Verdict::over:
      return fmt::format("{} over its window: snip {} of strip", shown_mg(j.over, p.scale_step),
                         shown(j.trim, units));
    case calc::Verdict::light:
      return fmt::format("{} under its window", shown_mg(j.light, p.scale_step));
    case calc::Verdict::ok:
      break;
  }
  return fits_words(j.stage);
}

std::string verdict_text(const records::Planned& p, const calc::Judgement& j, Units units) {
  std::string out = short_verdict(p, j, units);
  if (j.margin && j.stage != Stage::as_cut) {
    const bool over = *j.margin < Mass{};
    // Never 0 or 100: no reading is that sure.
    const double percent = std::min(99.9, std::max(0.1, j.within->in_percent()));
    out += fmt::format("; counted {}, {} {} the limit: {} % likely within it",
                       shown(j.counted.mass, p.scale_step),
                       shown_mg(over ? -*j.margin : *j.margin, p.scale_step),
                       over ? "over" : "under", fixed(percent, 1));
  }
  return out;
}

std::string tying_text(const calc::TyingCheck& check, Mass scale_step) {
  return words_of_tying(check, scale_step);
}

std::string strip_words(const Planned& p, Units units) {
  std::string out = fmt::format("{} strands of {}", p.strands, p.strip);
  out += p.lot.empty() ? "" : fmt::format(", lot {}", p.lot);
  if (p.width) {
    out += fmt::format(", {} wide", shown_width(*p.width, units));
    out += p.slit ? " (slit)" : "";
  }
  return out;
}

std::vector<std::string> part_and_hooks(const Planned& p, Units units) {
  std::vector<std::string> lines;
  if (p.part) {
    std::string out = fmt::format("part motor, {} of the full length", rounded(*p.part, 3));
    if (p.ballast && p.spacer) {
      out += fmt::format(": spacer {} of {}", shown(*p.spacer, units),
                         shown(*p.ballast, p.scale_step));
    } else if (p.ballast) {
      out += fmt::format(": {} less than the full motor", shown(*p.ballast, p.scale_step));
    }
    lines.push_back(out + fmt::format("; a full motor takes {} times the turns at the same torque",
                                      rounded(1 / *p.part, 3)));
  }
  if (const auto slack = records::slack(p)) {
    lines.push_back(fmt::format("hooks {} apart: {} of slack as planned", shown(*p.hooks, units),
                                shown(*slack, units)));
  }
  return lines;
}

}  // namespace loopledger::motor
