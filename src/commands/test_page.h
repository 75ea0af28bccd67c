// SPDX-License-Identifier: MIT
//
// `print --test-page`: the page by which a user measures what the printer misses.
#pragma once

#include <optional>
#include <string>

#include "commands/documents.h"
#include "commands/world.h"
#include "plan/stock.h"

namespace loopledger::commands {

struct TestPageRequest {
  std::string plan;    ///< whose labels; "-": standard input, empty: none
  std::string labels;  ///< empty: the plan's, else plain paper
  std::string paper;   ///< empty: the plan's, else A4
  std::string out;     ///< folder; empty: "out" beside the plan
  bool overwrite = false;
};

struct TestPageAnswer {
  std::optional<WrittenFile> file;  ///< none: `said` has errors
  plan::Stock stock;                ///< whose outlines it has
  std::string printer_file;         ///< where what was measured is to be written
  Diagnostics said;
};

/// Errors: those of load_plan, set_up_printing, sheets::test_page and Documents.
[[nodiscard]] TestPageAnswer test_page(const TestPageRequest& request, World& world);

}  // namespace loopledger::commands
