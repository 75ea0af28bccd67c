// SPDX-License-Identifier: MIT
//
// Labels from their figures to PDF bytes, beside the same drawing calls made bare on libharu: the
// calls of our pages are noted in a file beforehand (same texts, places, fonts and colours), the QR
// codes are encoded by the same library and drawn in the same manner. Also the encoder alone, and
// what a label takes in the file beside its text.
//   bench_labels [rounds] [most labels] [stock]
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <variant>

#include "bench/bare_labels.h"
#include "bench/measure.h"
#include "pdf/write_pdf.h"
#include "sheets/labels.h"
#include "support/invented_batch.h"
#include "support/own_fonts.h"

using namespace loopledger;
using namespace loopledger::bench;

namespace {

const pdf::Fonts& fonts() {
  static const pdf::Fonts kFonts = test::fonts_in(LOOPLEDGER_SOURCE_DIR "/fonts");
  return kFonts;
}

template <class T>
T good(Result<T> result, const char* what) {
  if (!result) {
    fmt::print(stderr, "{}: {}\n", what, render(result.diagnostics()));
    std::exit(1);
  }
  return std::move(result).value();
}

/// Labels as a ledger would give them: ids, turns and masses differ from motor to motor. Two
/// thirds are broken in.
std::vector<motor::LabelFigures> invented_labels(int count) {
  std::vector<motor::LabelFigures> labels;
  const auto made = test::invented_batch(count);
  for (std::size_t i = 0; i < made.batch.motors.size(); ++i) {
    motor::LabelFigures label = motor::label_figures(made.batch.motors[i]);
    const auto n = static_cast<double>(i);
    label.tag.turns = Turns::of(900 + std::fmod(n * 7, 400));
    if (i % 3 != 0) {
      label.state = label.tag.state.emplace(tag::TagState::made);
      label.turns = label.tag.turns;
      label.turns_are_best = true;
      label.mass = label.tag.mass = Mass::mg(1440 + std::fmod(n, 60));
      label.torque = label.tag.torque = Torque::gf_cm(38 + std::fmod(n, 17));
      label.loop_is = LoopIs::broken_in;
    }
    labels.push_back(std::move(label));
  }
  return labels;
}

page::Document document_of(const std::string& stock,
                           const std::vector<motor::LabelFigures>& figures) {
  sheets::LabelRun run;
  run.stock = test::stock(stock);
  run.title = "Labels (invented)";
  run.layouts = test::layouts();
  const auto metrics = good(pdf::load_metrics(fonts()), "fonts");
  return good(sheets::labels(figures, run, *metrics), "labels");
}

std::vector<double> ours(const std::string& stock,
                         const std::vector<motor::LabelFigures>& figures) {
  const std::string bytes = good(pdf::write_pdf(document_of(stock, figures), fonts()), "PDF");
  return {static_cast<double>(bytes.size())};
}

std::vector<double> without_text(const std::string& stock, int count) {
  page::Document document = document_of(stock, invented_labels(count));
  for (page::Page& page : document.pages) {
    std::erase_if(page.items,
                  [](const page::Item& item) { return std::holds_alternative<page::Text>(item); });
  }
  return {static_cast<double>(good(pdf::write_pdf(document, fonts()), "PDF").size())};
}

struct Row {
  int count = 0;
  Cost ours, bare, encoder;
  double bytes_without_text = 0;
};

Row measured(const std::string& stock, int count, int rounds, const std::string& folder) {
  Row row{.count = count, .ours = {}, .bare = {}, .encoder = {}};
  const std::string calls = folder + "/calls";
  (void)of_work([&] {
    const auto metrics = good(pdf::load_metrics(fonts()), "fonts");
    const std::size_t noted =
        note_calls(document_of(stock, invented_labels(count)), *metrics, calls);
    return std::vector<double>{static_cast<double>(noted)};
  });
  for (int round = 0; round < rounds; ++round) {
    std::vector<motor::LabelFigures> figures;  // filled in the child: this process stays small
    const Cost ours_now =
        of_work([&] { return ours(stock, figures); }, [&] { figures = invented_labels(count); });
    const Cost bare_now = of_work([&] { return draw_bare(calls, fonts()); });
    const Cost encoder_now = of_work([&] { return encode_alone(calls); });
    row.ours = round == 0 ? ours_now : least(row.ours, ours_now);
    row.bare = round == 0 ? bare_now : least(row.bare, bare_now);
    row.encoder = round == 0 ? encoder_now : least(row.encoder, encoder_now);
  }
  row.bytes_without_text = of_work([&] { return without_text(stock, count); }).told.at(0);
  return row;
}

void print_rows(const std::string& stock, const std::vector<Row>& rows) {
  fmt::print("{}; milliseconds of processor time, and megabytes at most\n", stock);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const Row& row = rows[i];
    fmt::print(
        "  {:>6} labels: {:>8.1f} ms, bare {:>8.1f} ({:.2f} times; wall {:.2f}), codes alone "
        "{:>8.1f}; {:.3f} ms a label; {:.1f} MB, bare {:.1f}; {:.0f} bytes, bare {:.0f}\n",
        row.count, row.ours.cpu_ms, row.bare.cpu_ms, row.ours.cpu_ms / row.bare.cpu_ms,
        row.ours.wall_ms / row.bare.wall_ms, row.encoder.cpu_ms, row.ours.cpu_ms / row.count,
        row.ours.peak_mb, row.bare.peak_mb, row.ours.told.at(0), row.bare.told.at(0));
    if (i > 0) {
      const Row& before = rows[i - 1];
      const double more = row.count - before.count;
      fmt::print(
          "         each more: {:.3f} ms, {:.2f} kB of memory, {:.0f} bytes of the file, {:.0f} "
          "beside its text\n",
          (row.ours.cpu_ms - before.ours.cpu_ms) / more,
          (row.ours.peak_mb - before.ours.peak_mb) * 1024 / more,
          (row.ours.told.at(0) - before.ours.told.at(0)) / more,
          (row.bytes_without_text - before.bytes_without_text) / more);
    }
  }
}

}  // namespace

int main(int argc, char** argv) {
  const int rounds = argc > 1 ? std::max(1, std::atoi(argv[1])) : 5;
  const int most = argc > 2 ? std::atoi(argv[2]) : 10000;
  const std::vector<std::string> stocks =
      argc > 3 ? std::vector<std::string>{argv[3]}
               : std::vector<std::string>{"a4-3x8-70x37", "a4-5x13-38.1x21.2", "roll-62x29-300dpi"};
  const MemoryFolder folder;
  for (const std::string& stock : stocks) {
    std::vector<Row> rows;
    for (int count = 100; count <= most; count *= 10) {
      rows.push_back(measured(stock, count, rounds, folder.path()));
    }
    print_rows(stock, rows);
  }
}
