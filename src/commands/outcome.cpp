// SPDX-License-Identifier: MIT
#include "commands/outcome.h"

#include "commands/exit_code.h"

namespace loopledger::commands {

int exit_code_of(const Diagnostics& said) {
  for (const Diagnostic& d : said) {
    if (d.severity != Severity::error) {
      continue;
    }
    if (d.code.starts_with("usage-")) {
      return kUsage;
    }
    if (d.code.starts_with("disk-")) {
      return kEnvironment;
    }
    return d.code.starts_with("none-") ? kNothingFound : kInputErrors;
  }
  return kDone;
}

Diagnostic usage_error(const std::string& code, std::string message, std::string hint) {
  return error("usage-" + code, std::move(message), std::move(hint), {"loopledger", 0, 0});
}

}  // namespace loopledger::commands
