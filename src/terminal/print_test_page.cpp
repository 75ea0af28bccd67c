// SPDX-License-Identifier: MIT
#include "terminal/print_test_page.h"

#include <fmt/format.h>

#include <filesystem>
#include <ostream>

#include "commands/documents.h"
#include "page/print_correction.h"
#include "pdf/write_pdf.h"
#include "posix/files.h"
#include "sheets/test_page.h"

namespace loopledger::terminal {
namespace {

constexpr const char* kName = "test-page.pdf";

std::string printer_file_text(const commands::PrintSetup& setup) {
  return setup.printer_file.empty() ? "a file named by LOOPLEDGER_PRINTER" : setup.printer_file;
}

void say_what_to_do(const commands::PrintSetup& setup, const std::string& path, std::ostream& out) {
  const plan::Stock& stock = setup.labels;
  out << fmt::format("Wrote {}: {}\n", path, stock.text);
  out << "Print it in full size, lay it over the labels against the light, and write how far "
         "right\n"
         "and down of them the outlines stand (left and up: minus)";
  out << (stock.dpi > 0 ? "" : ", and what the bars of 100 mm measure");
  out << fmt::format(", into\n{}:\n", printer_file_text(setup));
  out << fmt::format("  [stock.\"{}\"]\n  shift = [\"0.6 mm\", \"-0.3 mm\"]\n", stock.name);
  out << (stock.dpi > 0 ? "" : "  bars = [\"99.6 mm\", \"100.2 mm\"]\n");
}

}  // namespace

Result<std::string> print_test_page(const TestPageOrder& order, Context& context) {
  auto setup = commands::set_up_printing(order.setup, context.world);
  Diagnostics said = setup.diagnostics();
  if (!setup) {
    return said;
  }
  const plan::Stock& stock = setup->labels;
  sheets::TestPage wanted{.stock = stock,
                          .printer_file = printer_file_text(*setup),
                          .corrected = {},
                          .created = commands::creation_date(order.date, *setup)};
  wanted.corrected =
      page::described(page::print_correction(setup->misses.miss_on(stock.name), stock.dpi));
  auto document = sheets::test_page(wanted, *setup->metrics);
  append(said, document.diagnostics());
  if (!document) {
    return said;
  }
  append(said, commands::correct_for_printer(*document, stock, *setup, kName));
  const auto bytes = pdf::write_pdf(*document, setup->fonts);
  append(said, bytes.diagnostics());
  const std::string path = (std::filesystem::path(order.folder) / kName).string();
  append(said, commands::foreign_files({path}, order.overwrite, context.world));
  append(said, has_errors(said) ? Diagnostics{} : posix::make_folder(order.folder));
  if (has_errors(said)) {
    return said;
  }
  auto file = posix::PendingFile::write(path, *bytes);
  append(said, file ? file->commit() : file.diagnostics());
  if (has_errors(said)) {
    return said;
  }
  if (!order.quiet) {
    say_what_to_do(*setup, path, context.out);
  }
  return {path, std::move(said)};
}

}  // namespace loopledger::terminal
