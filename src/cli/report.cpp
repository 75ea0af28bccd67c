// SPDX-License-Identifier: MIT
#include <ostream>

#include "cli/command.h"
#include "cli/exit_code.h"
#include "cli/json.h"

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

int report_alone(Context& context, const Diagnostics& diagnostics, bool json) {
  if (json) {
    context.out << Json::object().set("format", 1).set("diagnostics", to_json(diagnostics)).text();
  }
  return report(context, diagnostics);
}

}  // namespace loopledger::cli
