// SPDX-License-Identifier: MIT
//
// `print --test-page`: the page by which a user measures what the printer misses.
#pragma once

#include <optional>
#include <string>

#include "base/date.h"
#include "base/result.h"
#include "commands/print_setup.h"
#include "terminal/command.h"

namespace loopledger::terminal {

struct TestPageOrder {
  commands::PrintOrder setup;
  std::string folder;
  std::optional<Date> date;
  bool overwrite = false;
  bool quiet = false;  ///< nothing is said of what to do with it
};

/// Writes test-page.pdf into the folder, says what to do with it, and gives its path. Errors: those
/// of commands::set_up_printing, sheets::test_page, write_pdf and files.h.
[[nodiscard]] Result<std::string> print_test_page(const TestPageOrder& order, Context& context);

}  // namespace loopledger::terminal
