// SPDX-License-Identifier: MIT
//
// The fonts, as bytes, and what layout needs to know of them. Whoever makes a document reads the
// files; here none is opened.
#pragma once

#include <functional>
#include <memory>
#include <string>

#include "base/result.h"
#include "page/page.h"

namespace loopledger::pdf {

/// A TrueType file. Copies share its bytes.
struct FontFile {
  std::string name;  ///< for messages: its path, where it has one
  std::shared_ptr<const std::string> bytes = std::make_shared<const std::string>();  ///< never null
};

/// One for each face.
struct Fonts {
  FontFile sheet;
  FontFile sheet_bold;
  FontFile label;
  FontFile label_bold;
  [[nodiscard]] const FontFile& of(page::Face face) const;
};

/// The faces that the program brings; `read` is asked for each file by its name in their folder.
[[nodiscard]] Fonts own_fonts(const std::function<FontFile(const std::string& file)>& read);

/// Metrics of the faces; all four must be whole TrueType. Widths are those that the PDF's own width
/// table will have, so what layout measures is what is drawn. Scripts that need shaping or run from
/// right to left are reported as absent, and so is what lies beyond U+FFFF: the PDF would show them
/// wrongly. Error: `disk-font`.
[[nodiscard]] Result<std::unique_ptr<page::FontMetrics>> load_metrics(const Fonts& fonts);

}  // namespace loopledger::pdf
