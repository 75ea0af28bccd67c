// SPDX-License-Identifier: MIT
//
// The ledger's disk on a POSIX system. Appending is one write(2) to a file opened for appending,
// then fsync; a short write is taken back with ftruncate. A new file is written and flushed under
// another name and linked into place, so it appears whole and never over another one; what a killed
// run left under such names is taken away when the next makes a file there. Writers ask for a lock
// on the file (flock), against each other; readers need none, since a line that is not there whole
// is a torn end.
#pragma once

#include <set>
#include <string>

#include "records/disk.h"

namespace loopledger::posix {

class PosixDisk : public records::Disk {
 public:
  Result<std::string> read(const std::string& path, std::uint64_t max_bytes) override;
  Result<std::vector<std::string>> list(const std::string& folder) override;
  Result<std::unique_ptr<Lock>> lock(const std::string& path) override;
  Diagnostics create(const std::string& path, std::string_view bytes) override;
  Diagnostics append(const std::string& path, std::string_view bytes) override;
  Diagnostics cut(const std::string& path, std::uint64_t size) override;
  Diagnostics replace(const std::string& path, std::string_view bytes) override;
  Diagnostics rename(const std::string& from, const std::string& to) override;
  Diagnostics make_folder(const std::string& folder) override;
  Diagnostics flush_folder(const std::string& folder) override;

 private:
  /// Once a folder: a ledger is large.
  void clean(const std::string& folder);

  std::set<std::string> cleaned_;  ///< folders in which a killed run's left-overs were looked for
};

}  // namespace loopledger::posix
