// SPDX-License-Identifier: MIT
//
// Where the font files are, and what layout needs to know of them. libharu takes fonts only from
// real files, so the paths come in from the command that found the folder.
#pragma once

#include <memory>
#include <string>

#include "base/result.h"
#include "page/page.h"

namespace loopledger::pdf {

/// One TrueType file for each face.
struct Fonts {
  std::string sheet;
  std::string sheet_bold;
  std::string label;
  std::string label_bold;
  [[nodiscard]] const std::string& of(page::Face face) const;
};

/// The faces that the program brings, in `folder`.
[[nodiscard]] Fonts fonts_in(const std::string& folder);

/// Metrics of the faces; all four files must be
/// readable TrueType. Widths are those that the PDF's own width table will have, so what layout
/// measures is what is drawn. Scripts that need shaping or run from right to left are reported as
/// absent, and so is what lies beyond U+FFFF: the PDF would show them wrongly. Error: `disk-font`.
[[nodiscard]] Result<std::unique_ptr<page::FontMetrics>> load_metrics(const Fonts& fonts);

}  // namespace loopledger::pdf
