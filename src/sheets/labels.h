// SPDX-License-Identifier: MIT
//
// Bag labels on a stock of labels, or on plain paper with lines to cut along. Start here to see
// what is needed to print labels: the figures of each, and how the sheet is to be used.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/quantity_text.h"
#include "base/result.h"
#include "motor/label_figures.h"
#include "page/page.h"
#include "plan/label_layout.h"
#include "plan/stock.h"

namespace loopledger::sheets {

/// Of one label: a slip of the finger must not fill a disk.
inline constexpr int kMaxCopies = 100;

struct LabelRun {
  plan::Stock stock;  ///< labels, or plain paper
  std::string title;  ///< of the document
  std::string link;   ///< holds "{id}"; empty: the tag is text
  Units units = Units::metric;
  int start = 1;   ///< first cell to print, counted from 1 row by row: a part-used sheet
  int copies = 1;  ///< of each label, one behind the other
  plan::LabelLayouts layouts;
  std::optional<Moment> created;
};

/// One label for each motor, in the order given; a bookmark for each owner's first, or
/// for the first of each stem without an owner. Warnings:
/// `page-cut`, `page-glyph`, `qr-room` (a label too small for a code that could be read). Note:
/// `label-less` (lines that small labels go without). Errors:
/// `page-stock`, `label-start`, `label-none`.
[[nodiscard]] Result<page::Document> labels(const std::vector<motor::LabelFigures>& motors,
                                            const LabelRun& run, const page::FontMetrics& metrics);

}  // namespace loopledger::sheets
