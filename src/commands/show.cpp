// SPDX-License-Identifier: MIT
#include "commands/show.h"

#include "commands/find_record.h"
#include "records/format.h"
#include "records/read.h"
#include "tag/id.h"

namespace loopledger::commands {
namespace {

std::vector<records::Entry> entries_of_broken(const ShowRequest& request,
                                              const records::Ledger& ledger, World& world) {
  const auto id = tag::id_from(request.id);
  if (!id) {
    return {};
  }
  const std::string path = ledger.path_of(id->id);
  const auto text = world.disk.read(path, records::kMaxRecordBytes);
  if (!text) {
    return {};
  }
  const auto read = records::read_entries_only(*text, path);
  return read ? read->entries : std::vector<records::Entry>{};
}

}  // namespace

ShowAnswer show(const ShowRequest& request, World& world) {
  ShowAnswer answer;
  const auto today = today_from(request.today, world);
  if (!today) {
    answer.said = today.diagnostics();
    return answer;
  }
  answer.today = *today;
  records::Ledger ledger(world.disk, records_folder(request.records, {}, world));
  const auto found = find_record(ledger, request.id);
  answer.said = found.diagnostics();
  if (found) {
    answer.record = found->record;
  } else {
    answer.entries_only = entries_of_broken(request, ledger, world);
  }
  return answer;
}

}  // namespace loopledger::commands
