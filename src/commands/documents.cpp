// SPDX-License-Identifier: MIT
#include "commands/documents.h"

#include <fmt/format.h>

#include <utility>

#include "commands/paths.h"
#include "page/print_correction.h"
#include "pdf/own_mark.h"
#include "pdf/write_pdf.h"

namespace loopledger::commands {
namespace {

Diagnostic not_ours(const std::string& path, const std::string& what) {
  return error("disk-foreign",
               fmt::format("expected no file here, or one that this program wrote; found {}", what),
               "--overwrite replaces it; --out FOLDER writes elsewhere", {path, 0, 0});
}

/// What stands at `path` and must not be replaced: a folder never.
Diagnostics not_to_replace(const std::string& path, bool overwrite, World& world) {
  using What = AtPath::What;
  const AtPath at = world.files.look(path, pdf::kMarkWithin);
  if (at.what == What::nothing) {
    return {};
  }
  if (at.what == What::folder) {
    return {error("disk-folder", "expected a file or nothing here, found a folder",
                  "--out FOLDER writes elsewhere", {path, 0, 0})};
  }
  if (overwrite) {
    return {};
  }
  if (at.what == What::link) {
    return {not_ours(path, "a link")};
  }
  if (at.what == What::other) {
    return {not_ours(path, "something that is no file")};
  }
  if (at.what == What::unreadable) {
    return {not_ours(path, "one that can't be read")};
  }
  if (!pdf::has_mark(at.head, at.size)) {
    return {not_ours(path, "another's, or one that was changed since")};
  }
  return {};
}

/// Makes the document come out true on this stock.
Diagnostics correct_for_printer(page::Document& document, const plan::Stock& stock,
                                const PrintSetup& setup, const std::string& name) {
  document.correction = page::print_correction(setup.misses.miss_on(stock.name), stock.dpi);
  const std::string change = page::described(document.correction);
  if (change.empty()) {
    return {};
  }
  return {
      note("printer-fit", fmt::format("{} is {}, as {} says", name, change, setup.printer_file))};
}

}  // namespace

Documents::Documents(World& world, const PrintSetup& setup, std::string folder, bool overwrite)
    : world_(world), setup_(setup), folder_(std::move(folder)), overwrite_(overwrite) {}

Diagnostics Documents::add(const std::string& name, const plan::Stock& stock,
                           Result<page::Document> document) {
  Diagnostics said = document.diagnostics();
  if (!document) {
    return said;
  }
  append(said, correct_for_printer(*document, stock, setup_, name));
  auto bytes = pdf::write_pdf(*document, setup_.fonts);
  append(said, bytes.diagnostics());
  if (bytes) {
    files_.push_back({joined(folder_, name), document->pages.size(), false});
    bytes_.push_back(std::move(*bytes));
  }
  return said;
}

Diagnostics Documents::write() {
  Diagnostics foreign;
  for (const WrittenFile& file : files_) {
    append(foreign, not_to_replace(file.path, overwrite_, world_));
  }
  if (has_errors(foreign)) {
    return foreign;
  }
  if (Diagnostics problems = world_.files.make_folder(folder_); has_errors(problems)) {
    return problems;
  }
  for (std::size_t i = 0; i < files_.size(); ++i) {
    auto written = world_.files.write(files_[i].path, bytes_[i]);
    if (!written) {
      pending_.clear();
      return written.diagnostics();
    }
    pending_.push_back(std::move(*written));
  }
  return {};
}

Diagnostics Documents::commit() {
  Diagnostics problems;
  for (std::size_t i = 0; i < pending_.size(); ++i) {
    files_[i].replaced = world_.files.is_there(files_[i].path);
    append(problems, pending_[i]->commit());
  }
  pending_.clear();
  return problems;
}

Diagnostics Documents::finish() {
  Diagnostics problems = write();
  return has_errors(problems) ? problems : commit();
}

}  // namespace loopledger::commands
