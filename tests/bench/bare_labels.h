// SPDX-License-Identifier: MIT
//
// A document as bare calls: noted in a file, and made again from there with nothing between the
// file and libharu but a switch. The baseline of bench_labels.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "page/page.h"
#include "pdf/fonts.h"

namespace loopledger::bench {

/// Notes the calls that draw the document, QR codes as their text and level; how many.
std::size_t note_calls(const page::Document& document, const page::FontMetrics& metrics,
                       const std::string& file);

/// Makes them; the bytes of the PDF.
[[nodiscard]] std::vector<double> draw_bare(const std::string& file, const pdf::Fonts& fonts);

/// Only the QR codes, encoded and dropped; how many.
[[nodiscard]] std::vector<double> encode_alone(const std::string& file);

}  // namespace loopledger::bench
