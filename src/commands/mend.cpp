// SPDX-License-Identifier: MIT
#include "commands/mend.h"

#include <utility>

#include "commands/exit_code.h"
#include "commands/find_record.h"
#include "commands/outcome.h"
#include "records/ledger.h"
#include "tag/id.h"

namespace loopledger::commands {
namespace {

/// A path as given, or the record of an id. Errors: those of find_record that speak of
/// the id; what else is wrong with its record is to be mended.
Result<std::string> mended_path(const MendRequest& request, World& world) {
  if (request.file.find('/') != std::string::npos || request.file.ends_with(".toml")) {
    return request.file;
  }
  const auto id = tag::id_from(request.file);
  if (!id) {
    return id.diagnostics();
  }
  records::Ledger ledger(world.disk, records_folder(request.records, {}, world));
  const auto found = find_record(ledger, request.file);
  if (!found && found.diagnostics().front().code == "none-record") {
    return found.diagnostics();
  }
  return ledger.path_of(id->id);
}

}  // namespace

MendAnswer mend(const MendRequest& request, World& world) {
  MendAnswer answer;
  const auto path = mended_path(request, world);
  if (!path) {
    answer.said = path.diagnostics();
    answer.exit_code = exit_code_of(answer.said);
    return answer;
  }
  answer.path = *path;
  auto mended = records::mend_file(world.disk, *path, request.accept, world.now());
  answer.said = mended ? std::move(mended->left) : mended.diagnostics();
  answer.exit_code = exit_code_of(answer.said);
  if (mended) {
    answer.done = std::move(mended->done);
    if (answer.exit_code == kDone && !answer.said.empty()) {
      answer.exit_code = kInputErrors;  // something is left that only a person can put right
    }
  }
  return answer;
}

}  // namespace loopledger::commands
