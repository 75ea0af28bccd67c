// SPDX-License-Identifier: MIT
#include "records/read.h"

#include <fmt/format.h>

#include <map>
#include <unordered_set>

#include "base/text.h"
#include "records/format.h"
#include "records/lines.h"
#include "records/read_entry.h"
#include "records/read_planned.h"

namespace loopledger::records {
namespace {

constexpr const char* kMend = "`loopledger mend` moves the torn part into a file beside it";
constexpr const char* kMoveAway =
    "`loopledger mend` moves it away; `print` opens the motor's record anew";
constexpr const char* kPutsBack = "`loopledger mend` puts it back";
constexpr const char* kPutBack = "write [entries] on a line of its own behind the figures";
constexpr const char* kAccept =
    "if it is right as it stands, `loopledger mend --accept` makes it sound";

Diagnostic warn(const char* code, std::string message, const char* hint, const std::string& file,
                const Line& line) {
  Diagnostic d = warning(code, std::move(message), hint, {file, line.number, 1});
  d.source_line = quoted_line(line.text);
  return d;
}

/// Whether a comment holds what looks like an entry: one that damage has turned into a comment.
bool hides_entry(std::string_view line) {
  const std::string_view tail = says_nothing(line) ? line : take_apart(line).comment;
  return tail.find("{ kind = \"") != std::string_view::npos &&
         tail.find("sum = \"") != std::string_view::npos;
}

/// Reads the lines behind the head into a record.
class EntryReader {
 public:
  EntryReader(Record& record, Diagnostics& out, const std::string& file)
      : record_(record), out_(out), file_(file) {}

  void read(const Line& line) {
    if (hides_entry(line.text)) {
      tell(warn("record-hidden", "an entry stands in a comment and is not counted",
                "take the # away if it is to count", file_, line));
      // One bit turns an entry's quote into a #; whoever comments it out leaves the quote.
      if (line.text.size() > 1 && line.text[0] == '#' && is_digit(line.text[1])) {
        record_.lost.push_back(line.number);
      }
    }
    if (says_nothing(line.text)) {
      torn_if_open(line, 0);
      return;
    }
    Result<Entry> entry = read_entry(line, file_);
    if (!line.ended && !entry) {
      torn_if_open(line, line.text.size());
      return;
    }
    for (const Diagnostic& d : entry.diagnostics()) {
      tell(d);
    }
    if (entry) {
      take(*std::move(entry), line);
    } else if (entry.diagnostics().front().code != "record-conflict") {
      record_.lost.push_back(line.number);
    }
    torn_if_open(line, 0);
  }

  /// What can be told only of all entries: corrections that name none of them, and how many faults
  /// were not told.
  void end() {
    check_corrections();
    if (faults_ > kMaxWarnings) {
      out_.push_back(warning("record-size", fmt::format("and {} more such", faults_ - kMaxWarnings),
                             {}, {file_, 0, 0}));
    }
  }

 private:
  /// A megabyte of rubbish has a fault in every line.
  void tell(Diagnostic d) {
    if (++faults_ <= kMaxWarnings) {
      out_.push_back(std::move(d));
    }
  }

  void check_corrections() {
    std::unordered_set<std::string_view> keys;
    for (const Entry& e : record_.entries) {
      keys.insert(e.key);
    }
    for (const Entry& e : record_.entries) {
      if (!e.corrects.empty() && !keys.contains(e.corrects)) {
        tell(warning(
            "record-corrects",
            fmt::format("the entry corrects {}, which is not in the record", printable(e.corrects)),
            {}, {file_, e.line, 1}));
      }
    }
  }

  void torn_if_open(const Line& line, std::size_t bytes) {
    if (line.ended) {
      return;
    }
    record_.torn = true;
    out_.push_back(warn("record-torn",
                        bytes == 0 ? "the last line has no line end; nothing can be added to it"
                                   : fmt::format("the record ends in a torn line of {} bytes; all "
                                                 "before it is whole",
                                                 bytes),
                        bytes == 0 ? "`loopledger mend` adds it" : kMend, file_, line));
  }

  void take(Entry entry, const Line& line) {
    const auto [at, fresh] =
        first_of_key_.try_emplace(entry.key, First{line.text, entries().size()});
    if (!fresh && at->second.text == line.text) {
      return;  // the same line twice is what a merge leaves behind
    }
    if (!fresh) {
      // The one whose sum is right is the one that was written.
      const bool sound = !entry.edited && entries()[at->second.index].edited;
      entry.edited = !sound;
      at->second = sound ? First{line.text, entries().size()} : at->second;
      tell(warn("record-twice", "another line has the same key and says something else",
                "give one of them another key, or take it out", file_, line));
    } else if (entry.edited) {
      tell(warn("record-edited",
                "the line was changed by hand or damaged; it is shown "
                "but not relied on",
                kAccept, file_, line));
    }
    record_.entries.push_back(std::move(entry));
  }

  /// The line that has a key first, or the sound one of several.
  struct First {
    std::string_view text;
    std::size_t index = 0;  ///< of the record's entries
  };
  [[nodiscard]] std::vector<Entry>& entries() { return record_.entries; }

  Record& record_;
  Diagnostics& out_;
  const std::string& file_;
  std::map<std::string, First, std::less<>> first_of_key_;
  std::size_t faults_ = 0;
};

void read_lines(const Layout& layout, Record& record, Diagnostics& out, const std::string& file) {
  EntryReader reader(record, out, file);
  for (std::size_t i = layout.first_entry; i < layout.lines.size(); ++i) {
    if (record.entries.size() == kMaxEntries) {
      out.push_back(warn("record-size",
                         fmt::format("only the first {} entries are read", kMaxEntries), "", file,
                         layout.lines[i]));
      break;
    }
    reader.read(layout.lines[i]);
  }
  reader.end();
}

std::string_view head_of(std::string_view text, const Layout& layout) {
  if (layout.first_entry >= layout.lines.size() && !layout.entries) {
    return text;
  }
  const std::size_t behind = layout.entries ? *layout.entries : layout.first_entry;
  return text.substr(0, layout.lines[behind].begin);
}

Diagnostics unreadable(std::string_view text, const std::string& file) {
  if (text.size() > kMaxRecordBytes) {
    return {error("record-size",
                  fmt::format("expected a record of at most {} bytes, found {}", kMaxRecordBytes,
                              text.size()),
                  {}, {file, 0, 0})};
  }
  if (text.empty()) {
    return {error("record-empty", "the record is empty", kMoveAway, {file, 0, 0})};
  }
  return {};
}

/// A record of ours that ends before its entries begin.
bool is_torn_early(const Layout& layout) {
  const std::string_view first = layout.lines.front().text;
  return !layout.entries && !layout.sum &&
         (first.starts_with(kFirstLine) ||
          (layout.lines.size() == 1 && kFirstLine.starts_with(first)));
}

Diagnostic torn_early(const Layout& layout, const std::string& file) {
  Diagnostic d = error("record-torn", "the record is torn before its entries begin", kMoveAway,
                       {file, layout.lines.back().number, 1});
  d.source_line = quoted_line(layout.lines.back().text);
  return d;
}

}  // namespace

Result<Record> read_entries_only(std::string_view text, const std::string& file) {
  if (Diagnostics problems = unreadable(text, file); !problems.empty()) {
    return problems;
  }
  Record record;
  Diagnostics out;
  read_lines(lay_out(text), record, out, file);
  return {std::move(record), std::move(out)};
}

Result<Record> read_record(std::string_view text, const std::string& file, PlannedSeen* seen) {
  if (Diagnostics problems = unreadable(text, file); !problems.empty()) {
    return problems;
  }
  const Layout layout = lay_out(text);
  if (is_torn_early(layout)) {
    return torn_early(layout, file);
  }
  Result<Record> record = read_head(head_of(text, layout), file, seen);
  if (!record) {
    return record;
  }
  record->planned_edited = !layout.head_sound;
  if (record->planned_edited) {
    record.diagnostics().push_back(warning("record-edited",
                                           "the figures as planned were changed by hand or damaged",
                                           kAccept, {file, 0, 0}));
  }
  if (!layout.entries) {
    record->torn = true;
    record.diagnostics().push_back(warning("record-entries",
                                           "the line [entries] is missing; nothing can be added",
                                           layout.sum ? kPutsBack : kPutBack, {file, 0, 0}));
  }
  read_lines(layout, *record, record.diagnostics(), file);
  return record;
}

}  // namespace loopledger::records
