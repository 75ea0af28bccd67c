// SPDX-License-Identifier: MIT
//
// `print --test-page`: the page by which a user measures what the printer misses.
#pragma once

#include <optional>
#include <string>

#include "base/date.h"
#include "base/result.h"
#include "cli/press.h"

namespace loopledger::cli {

/// Writes test-page.pdf into the folder and says what to do with it. Errors: those of
/// set_up_press, page::test_page, write_pdf and files.h; `overwrite` as in foreign_files.
[[nodiscard]] Diagnostics print_test_page(const PressOrder& order, const std::string& folder,
                                          bool overwrite, const std::optional<Date>& date,
                                          Context& context);

}  // namespace loopledger::cli
