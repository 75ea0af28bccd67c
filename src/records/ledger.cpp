// SPDX-License-Identifier: MIT
#include "records/ledger.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "records/format.h"
#include "records/id_text.h"
#include "records/read.h"
#include "records/reads_back.h"

namespace loopledger::records {
namespace {

constexpr std::string_view kSuffix = ".toml";

std::string join(const std::string& folder, std::string_view name) {
  return fmt::format("{}{}{}", folder, folder.empty() || folder.ends_with('/') ? "" : "/", name);
}

/// Files of our own that are no records: what `mend` moved, and what a crash may leave behind.
bool is_by_product(std::string_view name) {
  return name.starts_with('.') || name.find(".toml.damaged-") != std::string_view::npos ||
         name.find(".tmp-") != std::string_view::npos;
}

constexpr const char* kFull =
    "note the rest in a record of its own: print the motor anew under the next id";

Diagnostic too_large(const std::string& path) {
  return error(
      "record-size",
      fmt::format("the record would pass {} bytes and could not be read any more", kMaxRecordBytes),
      kFull, {path, 0, 0});
}

/// Two people's additions to one record are merged by git line by line, both kept.
constexpr std::string_view kGitAttributes =
    "# Lines that two people added to one motor's record are both kept.\n"
    "*.toml merge=union\n";

/// The motor whose record a file seems to be another copy of: "TH-01 (copy).toml".
std::optional<MotorId> id_of_copy(std::string_view name) {
  if (!name.ends_with(".toml")) {
    return std::nullopt;
  }
  const auto hyphen = name.find('-');
  if (hyphen == std::string_view::npos) {
    return std::nullopt;
  }
  const auto end = name.find_first_not_of("0123456789", hyphen + 1);
  return printed_id_from(name.substr(0, end));
}

Diagnostic passed_over(const std::string& folder, const std::string& name) {
  if (const auto id = id_of_copy(name)) {
    return note("record-copy",
                fmt::format("looks like another copy of {}'s record; passed over", printed(*id)),
                fmt::format("paste its entries at the end of {0}.toml, `loopledger show {0}`, then "
                            "take the copy away",
                            printed(*id)),
                {join(folder, name), 0, 0});
  }
  return note("record-foreign", "no record by its name; passed over",
              "records are named like TH-01.toml", {join(folder, name), 0, 0});
}

Diagnostic not_held(const MotorId& id, const std::string& folder) {
  return error("none-record",
               fmt::format("the ledger in {} holds no {}", printable(folder), printed(id)),
               "`loopledger list` shows what it holds");
}

/// disk-missing of a record's file means that the ledger doesn't hold the id.
Diagnostics as_not_held(const Diagnostics& problems, const MotorId& id, const std::string& folder) {
  if (!problems.empty() && problems.front().code == "disk-missing") {
    return {not_held(id, folder)};
  }
  return problems;
}

Diagnostics refusals(const Record& record, const Entry& entry, const std::string& path) {
  Diagnostics problems;
  if (record.torn) {
    problems.push_back(error("record-torn", "nothing is added to a record with a torn end",
                             fmt::format("`loopledger mend {}` repairs it", printable(path)),
                             {path, 0, 0}));
  }
  const auto has_key = [&record](std::string_view key) {
    return std::ranges::any_of(record.entries, [key](const Entry& e) { return e.key == key; });
  };
  if (has_key(entry.key)) {
    problems.push_back(error(
        "record-key", fmt::format("the record has an entry {} already", printable(entry.key))));
  }
  if (!entry.corrects.empty() && !has_key(entry.corrects)) {
    problems.push_back(error("record-corrects", fmt::format("the record has no entry {} to correct",
                                                            printable(entry.corrects))));
  }
  if (record.entries.size() >= kMaxEntries) {
    problems.push_back(
        error("record-size",
              fmt::format("the record holds {} entries, more are not read", record.entries.size()),
              kFull));
  }
  return problems;
}

}  // namespace

std::optional<MotorId> id_of_file(std::string_view name) {
  if (!name.ends_with(kSuffix)) {
    return std::nullopt;
  }
  name.remove_suffix(kSuffix.size());
  return printed_id_from(name);
}

std::string Ledger::path_of(const MotorId& id) const {
  const bool is_id = is_stem(id.stem) && id.number >= 1 && id.number <= kMotorNumberMax;
  return is_id ? join(folder_, printed(id) + std::string(kSuffix)) : std::string();
}

Result<Record> Ledger::read(const MotorId& id) {
  const std::string path = path_of(id);
  if (path.empty()) {
    return not_held(id, folder_);
  }
  const auto text = disk_.read(path, kMaxRecordBytes);
  if (!text) {
    return as_not_held(text.diagnostics(), id, folder_);
  }
  Result<Record> record = record_in(*text, id, path);
  append(record.diagnostics(), text.diagnostics());
  return record;
}

Result<Record> Ledger::record_in(std::string_view text, const MotorId& id,
                                 const std::string& path) {
  Result<Record> record = read_record(text, path, &seen_);
  if (record && record->id != id) {
    return error("record-id",
                 fmt::format("the file is named {} but is the record of {}", printed(id),
                             printed(record->id)),
                 "give the file its right name", {path, 0, 0});
  }
  return record;
}

Diagnostics Ledger::open(const std::vector<NewRecord>& records,
                         const std::function<void()>& opened) {
  Diagnostics problems;
  for (const NewRecord& record : records) {
    // Nothing is opened that could not be read again.
    append(problems, new_record_problems(record, &seen_));
  }
  if (problems.empty()) {
    problems = disk_.make_folder(folder_);
  }
  bool any = false;
  for (const NewRecord& record : records) {
    if (!problems.empty()) {
      break;
    }
    const std::string path = path_of(record.id);
    if (path.empty()) {
      problems.push_back(error(
          "record-id", fmt::format("\"{}\" is no motor's id", printable(printed(record.id)))));
      break;
    }
    problems = disk_.create(path, new_record_text(record));
    if (!problems.empty() && problems.front().code == "disk-exists") {
      const auto free = next_free(record.id.stem);
      problems = {
          error("record-exists", fmt::format("{} has a record already", printed(record.id)),
                free ? fmt::format("the next free one is {}", printed(*free)) : std::string(),
                {path, 0, 0})};
    }
    any = any || problems.empty();
    opened();
  }
  if (any) {
    append(problems, disk_.flush_folder(folder_));
  }
  const std::string attributes = join(folder_, ".gitattributes");
  if (problems.empty() && !disk_.read(attributes, kMaxRecordBytes)) {
    // Only git needs it: a folder that can't take it is as good.
    (void)disk_.create(attributes, kGitAttributes);
  }
  return problems;
}

Diagnostics Ledger::add(const MotorId& id, const Entry& entry) {
  const auto line = entry_line(entry);
  if (!line) {
    return line.diagnostics();
  }
  const std::string path = path_of(id);
  if (path.empty()) {
    return {not_held(id, folder_)};
  }
  const auto lock = disk_.lock(path);
  if (!lock) {
    return as_not_held(lock.diagnostics(), id, folder_);
  }
  const auto text = disk_.read(path, kMaxRecordBytes);
  if (!text) {
    return as_not_held(text.diagnostics(), id, folder_);
  }
  const auto record = record_in(*text, id, path);
  if (!record) {
    return record.diagnostics();
  }
  if (Diagnostics problems = refusals(*record, entry, path); !problems.empty()) {
    return problems;
  }
  if (text->size() + line->size() > kMaxRecordBytes) {
    return {too_large(path)};
  }
  return disk_.append(path, *line);
}

/// One record that gets entries, locked.
struct Ledger::Open {
  std::string path;
  std::unique_ptr<Disk::Lock> lock;
  std::uint64_t size = 0;
  std::optional<Record> record;
  std::string lines;
  std::size_t first = 0;  ///< of its additions
};

/// Locks and reads a record that is to be added to.
Diagnostics Ledger::open_for(const MotorId& id, Open& open) {
  open.path = path_of(id);
  if (open.path.empty()) {
    return {not_held(id, folder_)};
  }
  auto lock = disk_.lock(open.path);
  if (!lock) {
    return as_not_held(lock.diagnostics(), id, folder_);
  }
  open.lock = std::move(*lock);
  const auto text = disk_.read(open.path, kMaxRecordBytes);
  if (!text) {
    return as_not_held(text.diagnostics(), id, folder_);
  }
  open.size = text->size();
  auto record = record_in(*text, id, open.path);
  if (!record) {
    return record.diagnostics();
  }
  open.record = std::move(*record);
  return {};
}

/// Whether the entry can be added behind those that are waiting there already.
Diagnostics Ledger::take_line(Open& open, const Entry& entry) {
  const auto line = entry_line(entry);
  if (!line) {
    return line.diagnostics();
  }
  if (Diagnostics problems = refusals(*open.record, entry, open.path); !problems.empty()) {
    return problems;
  }
  open.lines += *line;
  open.record->entries.push_back(entry);
  if (open.size + open.lines.size() > kMaxRecordBytes) {
    return {too_large(open.path)};
  }
  return {};
}

Diagnostics Ledger::add_all(const std::vector<Addition>& additions, std::size_t& failed) {
  // In the order of their ids, so that two programs that want the same records don't wait for each
  // other.
  std::map<MotorId, Open> records;
  for (failed = 0; failed < additions.size(); ++failed) {
    const auto [at, is_new] = records.try_emplace(additions[failed].id);
    at->second.first = is_new ? failed : at->second.first;
  }
  for (auto& [id, open] : records) {
    if (Diagnostics problems = open_for(id, open); !problems.empty()) {
      failed = open.first;
      return problems;
    }
  }
  for (failed = 0; failed < additions.size(); ++failed) {
    const Addition& one = additions[failed];
    if (Diagnostics problems = take_line(records[one.id], one.entry); !problems.empty()) {
      return problems;
    }
  }
  return append_all(records, failed);
}

/// Writes; what was written is taken back when one fails.
Diagnostics Ledger::append_all(const std::map<MotorId, Open>& records, std::size_t& failed) {
  for (auto at = records.begin(); at != records.end(); ++at) {
    Diagnostics problems = disk_.append(at->second.path, at->second.lines);
    if (problems.empty()) {
      continue;
    }
    failed = at->second.first;
    while (at != records.begin()) {
      --at;
      Diagnostics left = disk_.cut(at->second.path, at->second.size);
      for (Diagnostic& one : left) {
        one.message += ": its new entries stay";
        problems.push_back(std::move(one));
      }
    }
    return problems;
  }
  return {};
}

Result<Ledger::Holding> Ledger::holding() {
  auto names = disk_.list(folder_);
  if (!names) {
    const bool absent = names.diagnostics().front().code == "disk-missing";
    return absent ? Result<Holding>(Holding{}) : Result<Holding>(names.diagnostics());
  }
  Holding found;
  for (const std::string& name : *names) {
    if (const auto id = id_of_file(name)) {
      found.ids.push_back(*id);
    } else if (!is_by_product(name)) {
      found.passed_over.push_back(passed_over(folder_, name));
    }
  }
  std::ranges::sort(found.ids);
  return found;
}

Result<MotorId> Ledger::next_free(std::string_view stem) {
  const auto held = holding();
  if (!held) {
    return held.diagnostics();
  }
  MotorId next{upper_ascii(stem), 1};
  for (const MotorId& id : held->ids) {
    if (id.stem == next.stem) {
      next.number = std::max(next.number, id.number + 1);
    }
  }
  if (next.number > kMotorNumberMax) {
    return error("record-exists", fmt::format("the stem {} has no number left", next.stem),
                 "choose another stem");
  }
  return next;
}

namespace {

/// A run that was killed may have come as far as this, within the same second.
Diagnostics put_aside(Disk& disk, const std::string& aside, const std::string& moved) {
  Diagnostics problems = disk.create(aside, moved);
  if (!problems.empty() && problems.front().code == "disk-exists") {
    const auto there = disk.read(aside, kMaxRecordBytes);
    return there && *there == moved ? Diagnostics{} : problems;
  }
  return problems;
}

}  // namespace

Result<Mended> mend_file(Disk& disk, const std::string& path, bool accept, Moment now) {
  const auto lock = disk.lock(path);
  if (!lock) {
    return lock.diagnostics();
  }
  const auto text = disk.read(path, kMaxRecordBytes);
  if (!text) {
    return text.diagnostics();
  }
  Mended mended = mend_text(*text, path, accept);
  if (mended.done.empty()) {
    return mended;
  }
  const std::string aside = fmt::format("{}.damaged-{}", path, stamp(now));
  Diagnostics problems;
  if (mended.whole_moved) {
    problems = disk.rename(path, aside);
  } else {
    if (!mended.moved.empty()) {
      problems = put_aside(disk, aside, mended.moved);
    }
    if (problems.empty()) {
      problems = disk.replace(path, mended.text);
    }
  }
  if (!problems.empty()) {
    return problems;
  }
  if (!mended.moved.empty()) {
    mended.done.push_back(fmt::format("what was moved is in {}", printable(aside)));
  }
  return mended;
}

}  // namespace loopledger::records
