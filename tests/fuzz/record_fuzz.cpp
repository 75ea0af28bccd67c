// SPDX-License-Identifier: MIT
#include <algorithm>
#include <map>
#include <string>

#include "base/text.h"
#include "fuzz/claim.h"
#include "fuzz/targets.h"
#include "motor/now.h"
#include "records/differences.h"
#include "records/fields.h"
#include "records/format.h"
#include "records/ledger.h"
#include "records/lines.h"
#include "records/mend.h"
#include "records/read.h"
#include "records/read_entry.h"
#include "records/write.h"
#include "records/write_planned.h"
#include "support/memory_disk.h"

namespace loopledger::fuzz {
namespace {

using namespace records;

const std::string kRecordFile = "records/TH-01.toml";

/// Written, read and written again, an entry says the same.
void claim_entry(const Entry& entry) {
  claim(entry.pairs.size() <= kMaxPairs && code_point_count(entry.text) <= kMaxTextPoints &&
            code_point_count(entry.tag) <= kMaxTextPoints,
        "an entry past its bounds");
  const auto line = entry_line(entry);
  if (!line) {
    return;
  }
  claim(line->ends_with('\n') && std::ranges::count(*line, '\n') == 1, "not one line", *line);
  claim_harmless(*line, true);
  const std::string_view text = std::string_view(*line).substr(0, line->size() - 1);
  const auto again = read_entry({text, entry.line, 0, true}, kRecordFile);
  claim(again.ok() && again.diagnostics().empty() && !again->edited, "what was written is unsound",
        *line);
  claim(again->key == entry.key && again->kind == entry.kind, "another entry", *line);
  claim(*entry_line(*again) == *line, "written twice it differs", *line);
}

/// What is known of a motor can be told of any record, and nothing is aimed past "do not pass".
void claim_now(const Record& record) {
  const motor::Now now = motor::now_of(record);
  claim(motor::state_from(motor::word(now.state)) == now.state, "a state without a word");
  claim(!now.lives.empty() && now.windings >= 0 && now.flights >= 0, "lives");
  std::size_t entries = 0;
  for (const motor::Life& life : now.lives) {
    entries += life.entries.size();
  }
  claim(entries <= record.entries.size(), "more entries stand than there are");
  claim(!now.best || now.best->turns <= now.do_not_pass, "a best past \"do not pass\"");
  claim(now.wind_to <= now.do_not_pass, "\"wind to\" past \"do not pass\"");
  claim(now.has_damaged_head() == record.planned_edited, "a damaged head that is not told");
}

/// A new record with these figures reads as these figures.
void claim_planned(const Record& record) {
  const std::string text = new_record_text({record.id, record.check, record.planned});
  const auto again = read_record(text, kRecordFile);
  claim(again.ok(), "a new record can't be read", render(again.diagnostics()));
  claim(again->id == record.id && again->check == record.check && !again->planned_edited &&
            !again->torn && again->entries.empty(),
        "a new record that is not sound");
  claim(planned_lines(again->planned) == planned_lines(record.planned),
        "figures that change on their way through a file");
  claim(differences(record.planned, again->planned).empty(), "a motor that differs from itself");
}

/// Ids never become a path that leaves the folder.
void claim_paths(const MotorId& id) {
  test::MemoryDisk disk;
  const Ledger ledger(disk, "records");
  const std::string path = ledger.path_of(id);
  claim(path == "records/" + printed(id) + ".toml" && std::ranges::count(path, '/') == 1 &&
            path.find("..") == std::string::npos,
        "a path that leaves the folder", path);
  claim(id_of_file(path.substr(8)) == id, "a file name that is another motor's", path);
}

/// Adding an entry leaves all others as they were; a torn record takes none.
void claim_adding(std::string_view text, const Record& before) {
  test::MemoryDisk disk;
  Ledger ledger(disk, "records");
  const std::string path = ledger.path_of(before.id);
  disk.files[path].bytes = std::string(text);
  Entry note;
  note.key = "20300101T000000Z-zzzz";
  note.kind = Kind::note;
  note.text = "one more \x1b[2J \"";
  const Diagnostics problems = ledger.add(before.id, note);
  const bool known = std::ranges::count(before.entries, note.key, &Entry::key) > 0;
  const bool full = before.entries.size() >= kMaxEntries;
  claim(problems.empty() == (!before.torn && !known && !full), "added, or not added, wrongly",
        render(problems));
  const std::string& now = disk.files[path].bytes;
  claim(now.starts_with(text) && (problems.empty() || now == text), "a record that was rewritten");
  if (!problems.empty()) {
    return;
  }
  const auto after = ledger.read(before.id);
  claim(after.ok() && after->entries.size() == before.entries.size() + 1, "an entry too many");
  claim(after->entries.back().text == note.text && !after->entries.back().edited,
        "another entry than was added");
  for (std::size_t i = 0; i < before.entries.size(); ++i) {
    claim(after->entries[i].key == before.entries[i].key &&
              after->entries[i].edited == before.entries[i].edited,
          "an entry that changed");
  }
}

/// The sound lines behind a head, each once.
std::map<std::string, int> sound_lines(std::string_view text) {
  std::map<std::string, int> lines;
  const Layout layout = lay_out(text);
  for (std::size_t i = layout.first_entry; i < layout.lines.size(); ++i) {
    if (is_sound(take_apart(layout.lines[i].text))) {
      ++lines[std::string(layout.lines[i].text)];
    }
  }
  return lines;
}

/// Bytes that say something: all but blanks and line ends.
std::ptrdiff_t said(std::string_view text) {
  return std::ranges::count_if(text, [](char c) { return c != ' ' && c != '\n' && c != '\r'; });
}

bool says(const Diagnostics& diagnostics, std::string_view hint) {
  return std::ranges::any_of(
      diagnostics, [&](const Diagnostic& d) { return d.hint.find(hint) != std::string::npos; });
}

/// Mending keeps every sound line, throws nothing away, and has nothing to do a second time.
Mended claim_mending(std::string_view text, bool accept) {
  Mended mended = mend_text(text, kRecordFile, accept);
  claim(!mended.done.empty() || mended.text == text, "changed without a word");
  for (const std::string& sentence : mended.done) {
    claim_harmless(sentence);
  }
  if (mended.whole_moved) {
    claim(mended.moved == text && mended.text.empty(), "a record that got lost");
    return mended;
  }
  claim_diagnostics(mended.left, mended.text.size());
  claim(accept || said(mended.text) + said(mended.moved) >= said(text), "bytes that got lost");
  const auto before = read_record(text, kRecordFile);
  if (!before) {
    claim(mended.text == text, "a record that can't be read was changed");
    return mended;
  }
  const auto after = read_record(mended.text, kRecordFile);
  claim(after.ok(), "a record that can't be read any more");
  claim(!after->torn || says(mended.left, "write [entries]"), "torn after mending");
  std::map<std::string, int> kept = sound_lines(mended.text);
  for (const auto& [line, count] : sound_lines(text)) {
    claim(kept[line] >= count || mended.moved.find(line) != std::string::npos,
          "a sound line that got lost", line);
  }
  const Mended again = mend_text(mended.text, kRecordFile, accept);
  claim(again.text == mended.text && again.done.empty(), "mended twice it differs",
        again.done.empty() ? "" : again.done.front());
  return mended;
}

void claim_record(std::string_view text, const Record& record) {
  claim(record.entries.size() <= kMaxEntries, "more entries than are read");
  for (const Entry& entry : record.entries) {
    claim_entry(entry);
  }
  claim_now(record);
  claim_planned(record);
  claim_paths(record.id);
  claim_adding(text, record);
}

}  // namespace

void record(std::string_view input) {
  const auto read = read_record(input, kRecordFile);
  claim_result(read, input.size());
  const auto entries = read_entries_only(input, kRecordFile);
  claim_result(entries, input.size());
  if (entries) {
    claim_now(*entries);
  }
  PlannedSeen seen;
  (void)read_record(input, kRecordFile, &seen);
  const auto again = read_record(input, kRecordFile, &seen);
  claim(again.ok() == read.ok(), "another record when it was seen before");
  claim(!read || planned_lines(again->planned) == planned_lines(read->planned),
        "other figures when they were seen before");
  if (read) {
    claim_record(input, *read);
  }
  claim_mending(input, false);
  const Mended accepted = claim_mending(input, true);
  if (const auto sound = read_record(accepted.text, kRecordFile)) {
    claim_record(accepted.text, *sound);
  }
}

}  // namespace loopledger::fuzz
