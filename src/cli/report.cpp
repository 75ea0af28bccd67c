// SPDX-License-Identifier: MIT
#include <ostream>

#include "cli/command.h"
#include "cli/exit_code.h"

namespace loopledger::cli {

int report(Context& context, const Diagnostics& diagnostics) {
  context.err << render(diagnostics, context.paint);
  for (const Diagnostic& d : diagnostics) {
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

}  // namespace loopledger::cli
