// SPDX-License-Identifier: MIT
#include "cli/print_test_page.h"

#include <fmt/format.h>

#include <filesystem>
#include <ostream>

#include "cli/files.h"
#include "page/printer_fit.h"
#include "page/test_page.h"
#include "pdf/write_pdf.h"

namespace loopledger::cli {
namespace {

constexpr const char* kName = "test-page.pdf";

std::string printer_file_text(const Press& press) {
  return press.printer_file.empty() ? "a file named by LOOPLEDGER_PRINTER" : press.printer_file;
}

void say_what_to_do(const Press& press, const std::string& path, std::ostream& out) {
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
  auto press = set_up_press(order.press, context);
  Diagnostics said = press.diagnostics();
  if (!press) {
    return said;
  }
  const plan::Stock& stock = press->labels;
  page::TestPage wanted{.stock = stock,
                        .printer_file = printer_file_text(*press),
                        .corrected = {},
                        .created = creation_date(order.date, *press)};
  wanted.corrected =
      page::described(page::printer_fit(press->printer.miss_on(stock.name), stock.dpi));
  auto document = page::test_page(wanted, *press->metrics);
  append(said, document.diagnostics());
  if (!document) {
    return said;
  }
  append(said, fit_to_printer(*document, stock, *press, kName));
  const auto bytes = pdf::write_pdf(*document, press->fonts);
  append(said, bytes.diagnostics());
  const std::string path = (std::filesystem::path(order.folder) / kName).string();
  append(said, foreign_files({path}, order.overwrite));
  append(said, has_errors(said) ? Diagnostics{} : make_folder(order.folder));
  if (has_errors(said)) {
    return said;
  }
  auto file = PendingFile::write(path, *bytes);
  append(said, file ? file->commit() : file.diagnostics());
  if (has_errors(said)) {
    return said;
  }
  if (!order.quiet) {
    say_what_to_do(*press, path, context.out);
  }
  return {path, std::move(said)};
}

}  // namespace loopledger::cli
