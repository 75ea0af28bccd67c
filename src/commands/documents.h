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

/// A file that is in its place.
struct WrittenFile {
  std::string path;
  std::size_t pages = 0;
  bool replaced = false;  ///< a file of that path was there
};

/// What stands where files are to go and must not be replaced: a folder always; a link, or a file
/// that this program did not write, unless `overwrite`. Errors: disk-folder, disk-foreign.
[[nodiscard]] Diagnostics foreign_files(const std::vector<std::string>& paths, bool overwrite,
                                        World& world);

class Documents {
 public:
  /// @pre world and setup outlive it
  /// @param folder made when it is not there
  Documents(World& world, const PrintSetup& setup, std::string folder, bool overwrite);

  /// A document of that name on that stock, made true by the printer's file. Nothing is written.
  /// Diagnostics: the document's own, printer-fit, pdf-….
  [[nodiscard]] Diagnostics add(const std::string& name, const plan::Stock& stock,
                                Result<page::Document> document);

  /// Writes all beside their places. Errors: those of foreign_files, disk-….
  [[nodiscard]] Diagnostics write();

  /// Puts all in place. @pre write() had no error
  [[nodiscard]] Diagnostics commit();

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
