// SPDX-License-Identifier: MIT
//
// What can happen to a motor, as data: one Entry is one line of its record. Which kinds there are
// and which fields each may carry is decided here and in records/fields.h only. Field names and
// kinds on disk are never reused for something else.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/motor_id.h"
#include "base/quantity.h"
#include "base/terms.h"
#include "records/planned.h"

namespace loopledger::records {

enum class Kind {
  planned,
  weighed,
  tied,
  break_in,
  wound,
  broke,
  flown,
  labelled,
  piece,
  note,
  retired,
  other  ///< a kind of a newer version: kept and shown, never written
};

/// Turns and the torque read at them, from one winding.
struct TurnsTorque {
  Turns turns;
  Torque torque;
  std::string typed{};  ///< the torque as typed, written as it is while it says the same
};

/// One entry. A field that a kind does not use stays empty.
struct Entry {
  std::string key;  ///< "20260501T100000Z-b7k2": a claimed time and four random characters
  Kind kind = Kind::note;
  std::string kind_text;                   ///< of Kind::other: the word in the file
  std::optional<Stage> stage;              // weighed
  std::optional<Mass> reading;             // weighed, tied
  std::optional<Length> loop;              // tied
  std::optional<int> step;                 // break_in: 1-based step of the recipe
  std::optional<Turns> turns;              // break_in, wound, broke
  std::optional<Torque> torque;            // break_in, wound, broke
  std::vector<TurnsTorque> pairs;          // wound
  std::optional<WindEnd> end;              // wound
  std::optional<Turns> backed_off;         // wound: turns left in after backing off
  std::optional<Length> loop_before;       // break_in
  std::optional<Length> loop_after;        // break_in
  std::optional<Temperature> temperature;  // break_in, wound, flown
  std::optional<BreakPlace> where;         // broke
  std::optional<Duration> flight_time;     // flown: `time`
  std::optional<Turns> turns_left;         // flown
  std::string tag;                         // labelled: the tag's text; piece: the piece's tag
  std::string text;                        // note; retired: why; any kind may carry a note
  std::string corrects;                    // key of the entry that this one replaces
  std::vector<std::pair<std::string, std::string>> unknown;  ///< newer fields, name and TOML text
  /// Quantities as they were typed, by field name ("torque", "41 gf.cm"): written as they are for
  /// as long as they say the same as the value.
  std::vector<std::pair<std::string, std::string>> typed;

  // Filled on reading.
  bool edited = false;  ///< the checksum does not match the line: a hand-edited or damaged line
  int line = 0;         ///< 1-based line in the file
};

/// One motor's file, read.
struct Record {
  MotorId id;
  char check = '?';  ///< check character as the file has it; what people are told is tag/id.h's
  Planned planned;
  bool planned_edited = false;  ///< the planned figures' checksum does not match
  std::vector<std::pair<std::string, std::string>> planned_unknown;  ///< newer fields, as above
  std::vector<Entry> entries;  ///< in the file's order, corrected ones still in
  std::vector<int> lost;       ///< lines, from 1, that are no entries any more: damaged ones
  bool torn = false;           ///< the file ends in an incomplete line; nothing may be appended
};

}  // namespace loopledger::records
