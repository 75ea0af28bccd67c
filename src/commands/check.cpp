// SPDX-License-Identifier: MIT
#include "commands/check.h"

#include <utility>

#include "calc/work_out.h"
#include "commands/plan_checks.h"
#include "commands/plan_input.h"

namespace loopledger::commands {

CheckAnswer check(const CheckRequest& request, World& world) {
  CheckAnswer answer;
  auto input = load_plan(request.plan, world);
  answer.said = input.diagnostics();
  if (!input) {
    return answer;
  }
  auto worked =
      calc::work_out(input->plan, {.short_of_strip = request.short_of_strip, .choices = true});
  append(answer.said, worked.diagnostics());
  append(answer.said, check_names(input->plan, world));
  if (worked) {
    append(answer.said, check_batch(input->plan, *worked));
    answer.batch = std::move(*worked);
  }
  quote_lines(*input, answer.said);
  answer.plan = std::move(input->plan);
  return answer;
}

}  // namespace loopledger::commands
