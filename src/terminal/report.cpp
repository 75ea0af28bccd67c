// SPDX-License-Identifier: MIT
#include <ostream>

#include "commands/outcome.h"
#include "json/json.h"
#include "terminal/command.h"

namespace loopledger::terminal {

int report(Context& context, const Diagnostics& diagnostics) {
  context.err << render(diagnostics, context.paint);
  return commands::exit_code_of(diagnostics);
}

int report_alone(Context& context, const Diagnostics& diagnostics, bool json) {
  if (json) {
    context.out << json::nothing_but(diagnostics).text();
  }
  return report(context, diagnostics);
}

}  // namespace loopledger::terminal
