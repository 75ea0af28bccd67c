// SPDX-License-Identifier: MIT
#include "terminal/log_many.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <map>
#include <ostream>
#include <set>

#include "base/text.h"
#include "commands/exit_code.h"
#include "commands/find_record.h"
#include "commands/plan_input.h"
#include "commands/winder_today.h"
#include "json/json.h"
#include "motor/entry_checks.h"
#include "motor/typed_entry.h"
#include "motor/words.h"
#include "posix/files.h"
#include "posix/posix_disk.h"
#include "posix/random_key.h"
#include "records/fields.h"
#include "records/write.h"
#include "terminal/log_file.h"
#include "terminal/text_table.h"

namespace loopledger::terminal {
namespace {

using records::Entry;
using records::Record;

/// A row without a time says the same as an entry that is there and not older: the file was taken
/// in already. Common sense, no source.
constexpr Duration kSameFile = Duration::h(24);

constexpr std::size_t kMostTold = 10;  ///< of the rows that are there already, one by one

/// A motor's record with what the file adds to it so far.
struct Growing {
  Record record;
  std::size_t before = 0;        ///< entries that were there before the file
  std::set<std::string> passed;  ///< keys of those that a row said again
};

/// One row of the file, checked against its motor's record.
struct Row {
  const FileEntry* from = nullptr;
  Entry entry;
  std::string words;
};

struct Checked {
  std::vector<Row> rows;  ///< to be stored
  std::size_t there = 0;
  Diagnostics problems;
};

/// The entry that says the same already: of the same time, or, where the row has none, of the last
/// day, each of them once.
const Entry* there_already(const Growing& growing, const Entry& entry,
                           const std::optional<Moment>& given, Moment at) {
  for (std::size_t i = 0; i < growing.record.entries.size(); ++i) {
    const Entry& e = growing.record.entries[i];
    const auto then = records::moment_of_key(e.key);
    const bool near =
        given ? then == given
              : i < growing.before && !growing.passed.contains(e.key) && then &&
                    static_cast<double>(std::abs(then->seconds - at.seconds)) <= kSameFile.in_s();
    if (near && records::says_the_same(e, entry)) {
      return &e;
    }
  }
  return nullptr;
}

class FileChecker {
 public:
  FileChecker(const LogOptions& options, records::Ledger& ledger, motor::DoubtContext context,
              Moment at, const commands::World& world)
      : options_(options), ledger_(ledger), context_(context), at_(at), world_(world) {}

  /// Everything that can be wrong is found before the first entry is stored.
  Checked all(const std::vector<FileEntry>& entries) {
    for (const FileEntry& from : entries) {
      Diagnostics said;
      if (Growing* const growing = motor_of(from.id, said);
          growing != nullptr && !has_errors(said)) {
        take(from, *growing, said);
      }
      for (Diagnostic d : said) {
        d.place = d.place.file.empty() ? from.place : d.place;
        out_.problems.push_back(std::move(d));
      }
    }
    if (out_.there > kMostTold) {
      out_.problems.push_back(
          note("log-there", fmt::format("{} more rows are there already", out_.there - kMostTold)));
    }
    return std::move(out_);
  }

 private:
  Growing* motor_of(const MotorId& id, Diagnostics& said) {
    auto found = motors_.find(id);
    if (found == motors_.end()) {
      auto read = ledger_.read(id);
      said = read.diagnostics();
      if (!read) {
        return nullptr;
      }
      const std::size_t before = read->entries.size();
      found = motors_.emplace(id, Growing{std::move(*read), before, {}}).first;
    }
    append(said, commands::torn_refusal(found->second.record));
    return &found->second;
  }

  void take(const FileEntry& from, Growing& growing, Diagnostics& said) {
    Entry entry = from.entry;
    const bool timed = from.at || !options_.at.empty();
    append(said, motor::resolve_correction(entry, growing.record, timed));
    if (has_errors(said)) {
      return;
    }
    const Moment at = from.at.value_or(at_);
    if (const Entry* const there = there_already(growing, entry, from.at, at)) {
      growing.passed.insert(there->key);
      if (++out_.there > kMostTold) {
        return;
      }
      said.push_back(
          note("log-there",
               fmt::format("{}: {} is there already, of {}; passed over", printed(from.id),
                           motor::in_words(entry, context_.units),
                           readable(records::moment_of_key(there->key).value_or(at))),
               from.at ? std::string() : "one more of the same gets its time in a column `at`"));
      return;
    }
    entry.key = motor::new_key(at, timed, entry, growing.record, world_.random_four);
    motor::DoubtContext context = context_;
    context.in_cranks = from.in_cranks;
    append(said,
           options_.sure ? Diagnostics{} : motor::doubt_refusal(growing.record, entry, context));
    append(said, motor::again_warning(growing.record, entry, from.at));
    out_.rows.push_back({&from, entry,
                         fmt::format("{}  {}", motor::whose(growing.record),
                                     motor::in_words(entry, context_.units))});
    growing.record.entries.push_back(std::move(entry));  // so that later lines see it
  }

  const LogOptions& options_;
  records::Ledger& ledger_;
  motor::DoubtContext context_;
  Moment at_;
  const commands::World& world_;
  std::map<MotorId, Growing> motors_;
  Checked out_;
};

/// Stores all rows or none. Faults are placed at the row that they are about.
Diagnostics store(records::Ledger& ledger, const std::vector<Row>& rows) {
  std::vector<records::Ledger::Addition> additions;
  additions.reserve(rows.size());
  for (const Row& row : rows) {
    additions.push_back({row.from->id, row.entry});
  }
  std::size_t failed = 0;
  Diagnostics problems = ledger.add_all(additions, failed);
  if (!problems.empty()) {
    problems.push_back(
        note("log-none", "nothing of the file was stored",
             "take it in again when the record can be written to; what is there already is passed "
             "over",
             failed < rows.size() ? rows[failed].from->place : Place{}));
  }
  return problems;
}

void tell(const Checked& checked, bool json, Context& context) {
  const std::size_t stored = checked.rows.size();
  if (json) {
    context.out << json::Json::object()
                       .set("format", 1)
                       .set("stored", stored)
                       .set("there", checked.there)
                       .text();
    return;
  }
  for (const Row& row : checked.rows) {
    context.out << wrapped(row.words);
  }
  context.out << fmt::format(
      "{} entr{} stored{}\n", stored, stored == 1 ? "y" : "ies",
      checked.there > 0 ? fmt::format("; {} there already", checked.there) : "");
}

}  // namespace

void run_log_many(const LogOptions& options, Context& context) {
  const auto text = context.world.files.read(options.from, commands::kMaxTextFile);
  const std::string name = options.from == "-" ? commands::kStandardInput : options.from;
  const auto ratio = commands::todays_winder_ratio(options.winder_ratio, nullptr, context.world);
  const auto at =
      options.at.empty() ? std::optional(context.world.now()) : moment_from_text(options.at);
  Diagnostics problems = text.diagnostics();
  append(problems, ratio.diagnostics());
  if (!at) {
    problems.push_back(motor::bad_time(options.at));
  }
  const auto entries = text && ratio ? entries_from_file(*text, name, *ratio)
                                     : Result<std::vector<FileEntry>>(Diagnostics{});
  append(problems, entries.diagnostics());
  records::Disk& disk = context.world.disk;
  records::Ledger ledger(disk, commands::records_folder(options.records, {}, context.world));
  Checked checked;
  if (entries && at && ratio) {
    motor::DoubtContext doubt;
    doubt.now = context.world.now();
    doubt.winder_ratio = *ratio;
    doubt.units = options.units.value_or(Units::metric);
    checked = FileChecker(options, ledger, doubt, *at, context.world).all(*entries);
    append(problems, checked.problems);
  }
  if (text) {
    add_source_lines(problems, name, *text);
  }
  if (!has_errors(problems)) {
    append(problems, store(ledger, checked.rows));
  }
  context.exit_code = report_alone(context, problems, options.json && has_errors(problems));
  if (context.exit_code == commands::kDone) {
    tell(checked, options.json, context);
  }
}

}  // namespace loopledger::terminal
