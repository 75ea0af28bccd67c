// SPDX-License-Identifier: MIT
#include "terminal/print_test_page.h"

#include <fmt/format.h>

#include <filesystem>
#include <ostream>

#include "commands/documents.h"
#include "page/printer_fit.h"
#include "pdf/write_pdf.h"
#include "posix/files.h"
#include "sheets/test_page.h"

namespace loopledger::terminal {
namespace {

constexpr const char* kName = "test-page.pdf";

std::string printer_file_text(const commands::Press& press) {
  return press.printer_file.empty() ? "a file named by LOOPLEDGER_PRINTER" : press.printer_file;
}

void say_what_to_do(const commands::Press& press, const std::string& path, std::ostream& out) {
  const plan::Stock& stock = press.labels;
  out << fmt::format("Wrote {}: {}\n", path, stock.text);
  out << "Print it in full size, lay it over the labels against the light, and write how far "
         "right\n"
         "and down of them the outlines stand (left and up: minus)";
  out << (stock.dpi > 0 ? "" : ", and what the bars of 100 mm measure");
  out << fmt::format(", into\n{}:\n", printer_file_text(press));
  out << fmt::format("  [stock.\"{}\"]\n  shift = [\"0.6 mm\", \"-0.3 mm\"]\n", stock.name);
  out << (stock.dpi > 0 ? "" : "  bars = [\"99.6 mm\", \"100.2 mm\"]\n");
}

}  // namespace

Result<std::string> print_test_page(const TestPageOrder& order, Context& context) {
  auto press = commands::set_up_press(order.press, context.world);
  Diagnostics said = press.diagnostics();
  if (!press) {
    return said;
  }
  const plan::Stock& stock = press->labels;
  sheets::TestPage wanted{.stock = stock,
                          .printer_file = printer_file_text(*press),
                          .corrected = {},
                          .created = commands::creation_date(order.date, *press)};
  wanted.corrected =
      page::described(page::printer_fit(press->printer.miss_on(stock.name), stock.dpi));
  auto document = sheets::test_page(wanted, *press->metrics);
  append(said, document.diagnostics());
  if (!document) {
    return said;
  }
  append(said, commands::fit_to_printer(*document, stock, *press, kName));
  const auto bytes = pdf::write_pdf(*document, press->fonts);
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
    say_what_to_do(*press, path, context.out);
  }
  return {path, std::move(said)};
}

}  // namespace loopledger::terminal
