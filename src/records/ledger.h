// SPDX-License-Identifier: MIT
//
// The ledger: a folder of records, one file a motor. Start here to see what can be done to it:
// open a record, add an entry, read, find out which ids there are. It never deletes a record and
// never rewrites one; only `mend` does that, and keeps what it takes out. Other files in the
// folder are named and passed over, never touched.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.h"
#include "base/motor_id.h"
#include "base/result.h"
#include "records/disk.h"
#include "records/entry.h"
#include "records/mend.h"
#include "records/read_planned.h"
#include "records/write.h"

namespace loopledger::records {

class Ledger {
 public:
  /// `disk` must outlive the ledger.
  Ledger(Disk& disk, std::string folder) : disk_(disk), folder_(std::move(folder)) {}

  /// Where the motor's record is or would be. An id with a stem or number that is none gives
  /// "" - so that an id never becomes a path that leaves the folder.
  [[nodiscard]] std::string path_of(const MotorId& id) const;

  /// The record, with warnings about damage. Errors: none-record (the ledger does not hold the id),
  /// disk-…, those of records/read.h, and record-id when the file speaks of another motor.
  [[nodiscard]] Result<Record> read(const MotorId& id);

  /// Opens records for motors that have none, and leaves a .gitattributes in the folder that lets
  /// git merge two people's additions line by line. Each record appears whole or not at all; when
  /// one fails the rest is not opened and those before it stay: doing it again is harmless. Makes
  /// the folder. `opened` is called after each.
  /// Errors: record-exists (its hint names the next free id), record-value (one that could not be
  /// read again; nothing is opened then), disk-….
  Diagnostics open(
      const std::vector<NewRecord>& records, const std::function<void()>& opened = [] {});

  /// Adds one entry: locked, one write, flushed. Refused while the record is torn (record-torn) or
  /// can't be read; an entry that corrects must name one of the record's (record-corrects), and
  /// its key must be new (record-key). Other errors: those of entry_line, none-record, disk-….
  Diagnostics add(const MotorId& id, const Entry& entry);

  struct Addition {
    MotorId id;
    Entry entry;
  };
  /// Adds all of the entries or none: all records are locked and looked at before the first is
  /// written to, and when one fails what was written is taken back. An entry may correct one that
  /// stands before it. Errors: those of add(); `failed` is the addition that they are about, its
  /// number of additions when they are about none.
  Diagnostics add_all(const std::vector<Addition>& additions, std::size_t& failed);

  struct Holding {
    std::vector<MotorId> ids;  ///< sorted
    Diagnostics passed_over;   ///< a note for each file that is no record by its name
  };
  /// What the folder holds, by file names: no record is read. An absent folder holds nothing.
  [[nodiscard]] Result<Holding> holding();

  /// The id behind the highest of its stem: never one that was given before.
  [[nodiscard]] Result<MotorId> next_free(std::string_view stem);

 private:
  struct Open;
  [[nodiscard]] Diagnostics open_for(const MotorId& id, Open& open);
  [[nodiscard]] static Diagnostics take_line(Open& open, const Entry& entry);
  [[nodiscard]] Diagnostics append_all(const std::map<MotorId, Open>& records, std::size_t& failed);
  [[nodiscard]] Result<Record> record_in(std::string_view text, const MotorId& id,
                                         const std::string& path);

  Disk& disk_;
  std::string folder_;
  PlannedSeen seen_;
};

/// Mends the record at `path`: what is taken out goes into `path` + ".damaged-" + stamp(now), then
/// the record is replaced. Errors: disk-…; Mended::left tells what is still wrong.
[[nodiscard]] Result<Mended> mend_file(Disk& disk, const std::string& path, bool accept,
                                       Moment now);

/// The id of a record's file name, "TH-01.toml"; empty when it is none.
[[nodiscard]] std::optional<MotorId> id_of_file(std::string_view name);

}  // namespace loopledger::records
