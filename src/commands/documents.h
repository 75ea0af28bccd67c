// SPDX-License-Identifier: MIT
//
// The one way out for documents: pages to bytes, bytes to files beside their places, all of them in
// place at the end. Nothing is replaced that this program did not write.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "base/result.h"
#include "commands/print_setup.h"
#include "commands/world.h"
#include "page/page.h"
#include "plan/stock.h"

namespace loopledger::commands {

struct WrittenFile {
  std::string path;
  std::size_t pages = 0;
  bool replaced = false;  ///< a file of that path was there
};

class Documents {
 public:
  /// @pre world and setup outlive it
  /// @param folder made when it is not there
  /// @param overwrite links and files that this program did not write are replaced too
  Documents(World& world, const PrintSetup& setup, std::string folder, bool overwrite);

  /// A document of that name on that stock, which comes out true by the user's printer file; the
  /// note printer-fit says so when that changes anything. Nothing is written. Diagnostics: the
  /// document's own, pdf-….
  [[nodiscard]] Diagnostics add(const std::string& name, const plan::Stock& stock,
                                Result<page::Document> document);

  /// Writes all beside their places, or none. Errors: disk-folder, disk-foreign, for each place
  /// that something stands in which must not be replaced; others of the disk.
  [[nodiscard]] Diagnostics write();

  /// Puts all in place; an error disk-… for each that could not be. @pre write() had no error
  [[nodiscard]] Diagnostics commit();

  /// Both, where nothing is to happen between them.
  [[nodiscard]] Diagnostics finish();

  /// Those added, in their order.
  [[nodiscard]] const std::vector<WrittenFile>& files() const { return files_; }

 private:
  World& world_;
  const PrintSetup& setup_;
  std::string folder_;
  bool overwrite_;
  std::vector<WrittenFile> files_;
  std::vector<std::string> bytes_;
  std::vector<std::unique_ptr<NewFile>> pending_;
};

}  // namespace loopledger::commands
