// SPDX-License-Identifier: MIT
//
// Many entries from one file, for `log --from`: a TOML file of [[entries]] tables, or a CSV file
// (RFC 4180) with a head line. Keys and columns are `id`, `kind`, `at`, and the fields of a kind as
// `log` takes them. Pure: text in, entries out, all faults found.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/date.h"
#include "base/motor_id.h"
#include "base/result.h"
#include "records/entry.h"

namespace loopledger::commands {

struct FileEntry {
  MotorId id;
  records::Entry entry;      ///< its key still empty
  std::optional<Moment> at;  ///< when the file says so
  bool in_cranks = false;    ///< its turns were given as cranks
  Place place;
};

inline constexpr std::size_t kMaxFileEntries = 100000;

/// A file whose name ends in .csv is CSV, any other TOML. Errors: those of plan/tree.h, log-csv,
/// log-at, id-form, id-check, and those of motor/typed_entry.h, each with its place. @param
/// winder_ratio for what is given in cranks
[[nodiscard]] Result<std::vector<FileEntry>> entries_from_file(
    const std::string& text, const std::string& file,
    const std::optional<double>& winder_ratio = std::nullopt);

}  // namespace loopledger::commands
