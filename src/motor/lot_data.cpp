// SPDX-License-Identifier: MIT
#include "motor/lot_data.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "motor/now.h"
#include "records/fields.h"

namespace loopledger::motor {
namespace {

using records::Entry;
using records::Kind;

/// One time a motor was wound far, or broke.
struct Event {
  const Entry* entry = nullptr;
  bool at_limit = false;
  bool solid = false;                   ///< felt solid; else, at its limit, it broke
  double turns_factor = 0;              ///< 0: no turns
  std::optional<double> torque_factor;  ///< MPa
};

std::string date_text(const Entry& e) {
  const auto at = records::moment_of_key(e.key);
  return at ? iso(date_of(*at)) : std::string();
}

class LotReader {
 public:
  LotReader(const records::Record& record, double turns, double torque, LotData& lot)
      : record_(record), turns_(turns), torque_(torque), lot_(lot) {}

  void read() {
    if (record_.planned_edited) {
      lot_.left_out.push_back({record_.id, "", "its figures as planned were changed by hand"});
      return;
    }
    for (const Entry& e : record_.entries) {
      if (e.edited && (e.kind == Kind::wound || e.kind == Kind::broke)) {
        leave_out(e, "changed by hand: `loopledger mend --accept` takes it over");
      }
    }
    bool any = false;
    for (const motor::Life& life : motor::now_of(record_).lives) {
      any = take(events_of(life)) || any;
    }
    lot_.motors += any ? 1 : 0;
  }

 private:
  void leave_out(const Entry& e, std::string why) {
    lot_.left_out.push_back({record_.id, date_text(e), std::move(why)});
  }

  std::vector<Event> events_of(const motor::Life& life) {
    std::vector<Event> events;
    for (const motor::Strain& strain : life.strains) {
      if (strain.entry->kind == Kind::wound) {
        add_winding(strain, events);
      } else {
        add_break(strain, events);
      }
    }
    return events;
  }

  [[nodiscard]] static Event event_of(const motor::Strain& strain) {
    const Entry& e = *strain.entry;
    Event event;
    event.entry = &e;
    const double side = sqrt(strain.section).in_si();
    if (e.turns && *e.turns > Turns{}) {
      event.turns_factor = e.turns->count() * side / strain.loop.in_si();
    }
    if (e.torque && *e.torque > Torque{}) {
      event.torque_factor = Pressure::si(e.torque->in_si() / std::pow(side, 3)).in_mpa();
    }
    return event;
  }

  void add_winding(const motor::Strain& strain, std::vector<Event>& events) {
    const Entry& e = *strain.entry;
    Event event = event_of(strain);
    event.solid = e.end == WindEnd::solid;
    event.at_limit = event.solid || e.end == WindEnd::broke;
    if (event.turns_factor <= 0) {
      leave_out(e, "a winding without turns");
    }
    events.push_back(event);
  }

  /// The break of the winding before it, or one by itself.
  void add_break(const motor::Strain& strain, std::vector<Event>& events) {
    const Entry& e = *strain.entry;
    const bool rubber = !e.where || *e.where == BreakPlace::middle;
    const bool same = !events.empty() && events.back().entry->kind == Kind::wound &&
                      events.back().entry->end == WindEnd::broke &&
                      (!e.turns || e.turns == events.back().entry->turns);
    if (!same) {
      events.push_back(event_of(strain));
      events.back().at_limit = true;
      if (events.back().turns_factor <= 0) {
        leave_out(e, "it broke, and at how many turns is not said");
      }
    }
    if (!rubber) {
      events.back().at_limit = false;
      leave_out(e, fmt::format("broke at the {}: counted as \"at least that\"", word(*e.where)));
    }
  }

  /// False: too far from what is known to be anything but a slip.
  bool is_likely(const Event& event, double factor, double known, const char* name) {
    const bool odd = factor > known * kOddFactor || (event.at_limit && factor < known / kOddFactor);
    if (odd) {
      leave_out(*event.entry, fmt::format("{} would be {:.3g} where {:.3g} is usual: a slip?", name,
                                          factor, known));
    }
    return !odd;
  }

  /// The events' datum of one figure: the most at a limit, else the most of all.
  static std::optional<calc::FitDatum> datum_of(
      const std::vector<std::pair<const Event*, double>>& figures) {
    std::optional<calc::FitDatum> best;
    for (const auto& [event, factor] : figures) {
      const bool better = !best || (event->at_limit && best->at_least) ||
                          (event->at_limit != best->at_least && factor > best->factor);
      if (better) {
        best = calc::FitDatum{factor, !event->at_limit};
      }
    }
    return best;
  }

  bool take(const std::vector<Event>& events) {
    std::vector<std::pair<const Event*, double>> turns;
    std::vector<std::pair<const Event*, double>> torques;
    for (const Event& event : events) {
      // Turns that are a slip leave nothing of the entry to rely on.
      if (event.turns_factor > 0 && !is_likely(event, event.turns_factor, turns_, "k_N")) {
        continue;
      }
      if (event.turns_factor > 0) {
        turns.emplace_back(&event, event.turns_factor);
      }
      if (event.torque_factor && is_likely(event, *event.torque_factor, torque_, "k_Q")) {
        torques.emplace_back(&event, *event.torque_factor);
      }
    }
    if (const auto datum = datum_of(torques)) {
      lot_.torque.push_back(*datum);
    }
    const auto datum = datum_of(turns);
    if (!datum) {
      return false;
    }
    lot_.turns.push_back(*datum);
    count(turns, *datum);
    return true;
  }

  void count(const std::vector<std::pair<const Event*, double>>& turns,
             const calc::FitDatum& datum) {
    if (datum.at_least) {
      ++lot_.stopped;
      return;
    }
    const bool broke = std::ranges::any_of(
        turns, [](const auto& figure) { return figure.first->at_limit && !figure.first->solid; });
    ++(broke ? lot_.broke : lot_.solid);
  }

  const records::Record& record_;
  double turns_;
  double torque_;
  LotData& lot_;
};

}  // namespace

void add_to_lot(const records::Record& record, double turns, double torque, LotData& lot) {
  LotReader(record, turns, torque, lot).read();
}

}  // namespace loopledger::motor
