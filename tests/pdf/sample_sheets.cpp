// SPDX-License-Identifier: MIT
//
// Not a test: writes the printed sheets of an invented batch into a folder, to be looked at.
//   sample_sheets FOLDER [MOTORS]
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <string>

#include "base/diagnostic.h"
#include "pdf/write_pdf.h"
#include "sheets/break_in_sheet.h"
#include "sheets/cut_sheet.h"
#include "sheets/labels.h"
#include "support/invented_batch.h"
#include "support/own_fonts.h"

namespace {

using namespace loopledger;

bool save(const Result<page::Document>& document, const pdf::Fonts& fonts,
          const std::string& path) {
  std::fputs(render(document.diagnostics()).c_str(), stderr);
  if (!document) {
    return false;
  }
  const Result<std::string> bytes = pdf::write_pdf(*document, fonts);
  std::fputs(render(bytes.diagnostics()).c_str(), stderr);
  if (bytes) {
    std::ofstream(path, std::ios::binary) << *bytes;
  }
  return bytes.ok();
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 2) {
    return 2;
  }
  const std::string folder = argv[1];
  const test::InventedBatch made = test::invented_batch(argc > 2 ? std::atoi(argv[2]) : 24);
  const pdf::Fonts fonts = test::fonts_in(LOOPLEDGER_SOURCE_DIR "/fonts");
  const auto metrics = pdf::load_metrics(fonts);
  if (!metrics) {
    std::fputs(render(metrics.diagnostics()).c_str(), stderr);
    return 1;
  }
  std::vector<motor::LabelFigures> figures;
  for (const calc::MotorFigures& motor : made.batch.motors) {
    figures.push_back(motor::label_figures(motor));
  }
  bool good = true;
  for (const plan::Stock& paper : {test::stock("a4"), test::stock("letter")}) {
    good = save(sheets::cut_sheet(made.plan, made.batch, paper, **metrics, std::nullopt), fonts,
                folder + "/cut-" + paper.name + ".pdf") &&
           good;
    good = save(sheets::break_in_sheet(made.plan, made.batch, paper, **metrics, std::nullopt),
                fonts, folder + "/break-in-" + paper.name + ".pdf") &&
           good;
  }
  for (const plan::Stock& stock : test::label_stocks()) {
    sheets::LabelRun run;
    run.layouts = test::layouts();
    run.stock = stock;
    run.title = made.plan.title;
    good =
        save(sheets::labels(figures, run, **metrics), fonts, folder + "/" + stock.name + ".pdf") &&
        good;
  }
  return good ? 0 : 1;
}
