// SPDX-License-Identifier: MIT
#include "commands/log.h"

#include <utility>

#include "commands/find_record.h"
#include "commands/outcome.h"
#include "commands/winder_today.h"
#include "motor/entry_checks.h"
#include "motor/typed_entry.h"
#include "motor/words.h"

namespace loopledger::commands {

LogAnswer log(const LogRequest& request, World& world) {
  LogAnswer answer;
  if (request.kind.empty()) {
    answer.said = {usage_error("missing", "expected ID and KIND, or --from FILE",
                               "loopledger log th1 weighed washed 1.774")};
    return answer;
  }
  records::Ledger ledger(world.disk, records_folder(request.records, {}, world));
  const auto claimed = claimed_time(request.at);
  auto found = find_record(ledger, request.id);
  const auto ratio = todays_winder_ratio(request.winder_ratio, nullptr, world);
  const auto typed = motor::entry_from_typed(request.kind, request.words,
                                             ratio ? *ratio : std::optional<double>());
  Diagnostics problems = found.diagnostics();
  append(problems, typed.diagnostics());
  append(problems, ratio.diagnostics());
  append(problems, claimed.diagnostics());
  CheckedEntry checked;
  if (found && typed && claimed && ratio) {
    checked = check_entry(found->record,
                          {.entry = typed->entry,
                           .claimed = *claimed,
                           .context = {.now = world.now(),
                                       .winder_ratio = *ratio,
                                       .units = request.units,
                                       .in_cranks = typed->in_cranks},
                           .sure = request.sure},
                          world.random_four);
    append(problems, checked.said);
    append(problems, motor::doubt_refusal(found->id, checked.doubts));
  }
  if (has_errors(problems)) {
    answer.said = std::move(problems);
    return answer;
  }
  answer.of_record = std::move(problems);
  if (!found->checked) {
    answer.taken_for = "no check character typed: taken for " + motor::whose(found->record);
  }
  answer.again = std::move(checked.again);
  auto taken = add_entry(ledger, std::move(found->record), std::move(checked.entry), request.units);
  answer.said = taken.diagnostics();
  if (taken) {
    answer.taken = std::move(*taken);
  }
  return answer;
}

}  // namespace loopledger::commands
