// SPDX-License-Identifier: MIT
//
// `scan IMAGE...`: pictures of bag labels, or typed tags -> the records of the motors, with what
// each label says where the ledger does not know it.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.h"
#include "commands/scan_input.h"
#include "commands/today.h"
#include "commands/world.h"
#include "records/entry.h"

namespace loopledger::commands {

struct ScanRequest {
  std::vector<std::string> images;  ///< files, folders of them; "-": standard input
  std::string records;              ///< empty: as records_folder() says
  TodayRequest today;
};

/// A tag beside what the ledger holds of its id.
struct ScannedTag {
  ReadTag tag;
  bool known = false;                     ///< the ledger holds the id, if only damaged
  std::optional<records::Record> record;  ///< empty: none, or it can't be read
  std::vector<std::string_view> misfits;  ///< not empty: the record is another motor's
  bool stale = false;                     ///< the label is out of date

  /// Whether `record` is that of the motor on whose bag the tag is.
  [[nodiscard]] bool found() const { return record && misfits.empty(); }
};

struct ScannedImage {
  std::string file;  ///< "-": standard input
  std::vector<ScannedTag> tags;
};

struct ScanAnswer {
  std::optional<motor::Today> today;  ///< empty: it was not understood, and nothing was read
  std::size_t asked_for = 0;          ///< how many images there are to read
  std::vector<ScannedImage> images;
  Diagnostics said;
  int exit_code = 0;  ///< kDone once a tag was read, whatever else was wrong
};

/// Called with each image as soon as it is read, and the answer so far.
using Scanned = std::function<void(const ScannedImage&, const ScanAnswer&)>;

/// Errors: those of today_from, image_files and read_tags; warnings scan-other-ledger and
/// scan-stale, note scan-unknown, and those of reading the records.
[[nodiscard]] ScanAnswer scan(const ScanRequest& request, World& world, const Scanned& seen = {});

}  // namespace loopledger::commands
