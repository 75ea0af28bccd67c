// SPDX-License-Identifier: MIT
#include "commands/log_many.h"

#include <fmt/format.h>

#include <cstdlib>
#include <map>
#include <set>
#include <utility>

#include "base/text.h"
#include "commands/entry_file.h"
#include "commands/find_record.h"
#include "commands/outcome.h"
#include "commands/take_entry.h"
#include "commands/winder_today.h"
#include "motor/entry_checks.h"
#include "motor/words.h"
#include "records/fields.h"
#include "records/write.h"

namespace loopledger::commands {
namespace {

using records::Entry;
using records::Record;

/// A row without a time says the same as an entry that is there and not older: the file was taken
/// in already. Common sense, no source.
constexpr Duration kSameFile = Duration::h(24);

/// An evening's file: what follows from each row is told, asked for or not. Common sense, no
/// source.
constexpr std::size_t kAnEvening = 100;

constexpr std::size_t kMostTold = 10;  ///< of the rows that are there already, one by one

/// A motor's record with what the file adds to it so far.
struct Growing {
  Record record;
  std::size_t before = 0;        ///< entries that were there before the file
  std::set<std::string> passed;  ///< keys of those that a row said again
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
  /// @param claimed when what has no time of its own happened
  FileChecker(const LogManyRequest& request, const std::optional<double>& ratio,
              const std::optional<Moment>& claimed, records::Ledger& ledger, const World& world)
      : claimed_(claimed),
        sure_(request.sure),
        with_consequences_(request.with_consequences),
        ledger_(ledger),
        random_four_(world.random_four) {
    context_.now = world.now();
    context_.winder_ratio = ratio;
    context_.units = request.units;
  }

  /// Everything that can be wrong is found before the first entry is stored.
  LogManyAnswer all(const std::vector<FileEntry>& entries) {
    with_consequences_ = with_consequences_ || entries.size() <= kAnEvening;
    for (const FileEntry& from : entries) {
      Diagnostics said;
      if (Growing* const growing = motor_of(from.id, said);
          growing != nullptr && !has_errors(said)) {
        take(from, *growing, said);
      }
      for (Diagnostic d : said) {
        d.place = d.place.file.empty() ? from.place : d.place;
        out_.said.push_back(std::move(d));
      }
    }
    if (out_.there > kMostTold) {
      out_.said.push_back(
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
    append(said, torn_refusal(found->second.record));
    return &found->second;
  }

  void take(const FileEntry& from, Growing& growing, Diagnostics& said) {
    OfferedEntry offered{.entry = from.entry,
                         .claimed = from.at ? from.at : claimed_,
                         .context = context_,
                         .sure = sure_,
                         .undated = !from.at};
    offered.context.in_cranks = from.in_cranks;
    CheckedEntry checked = keyed_entry(growing.record, offered, random_four_);
    append(said, checked.said);
    if (has_errors(said)) {
      return;
    }
    const Moment at = offered.claimed.value_or(context_.now);
    if (const Entry* const there = there_already(growing, checked.entry, from.at, at)) {
      growing.passed.insert(there->key);
      pass_over(from, checked.entry, records::moment_of_key(there->key).value_or(at), said);
      return;
    }
    question(checked, growing.record, offered);
    append(said, motor::doubt_refusal(from.id, checked.doubts));
    append(said, checked.again);
    out_.rows.push_back({from.id, from.place, motor::whose(growing.record), checked.entry, {}});
    if (with_consequences_) {
      out_.rows.back().consequences =
          consequences_of(growing.record, checked.entry, context_.units);
    }
    growing.record.entries.push_back(std::move(checked.entry));  // so that later lines see it
  }

  void pass_over(const FileEntry& from, const Entry& entry, Moment when, Diagnostics& said) {
    if (++out_.there > kMostTold) {
      return;
    }
    said.push_back(
        note("log-there",
             fmt::format("{}: {} is there already, of {}; passed over", printed(from.id),
                         motor::in_words(entry, context_.units), readable(when)),
             from.at ? std::string() : "one more of the same gets its time in a column `at`"));
  }

  std::optional<Moment> claimed_;
  bool sure_;
  bool with_consequences_;
  records::Ledger& ledger_;
  const std::function<std::string()>& random_four_;
  motor::DoubtContext context_;
  std::map<MotorId, Growing> motors_;
  LogManyAnswer out_;
};

/// Stores all rows or none. Faults are placed at the row that they are about.
Diagnostics store(records::Ledger& ledger, const std::vector<LoggedRow>& rows) {
  std::vector<records::Ledger::Addition> additions;
  additions.reserve(rows.size());
  for (const LoggedRow& row : rows) {
    additions.push_back({row.id, row.entry});
  }
  std::size_t failed = 0;
  Diagnostics problems = ledger.add_all(additions, failed);
  if (!problems.empty()) {
    problems.push_back(
        note("log-none", "nothing of the file was stored",
             "take it in again when the record can be written to; what is there already is passed "
             "over",
             failed < rows.size() ? rows[failed].place : Place{}));
  }
  return problems;
}

}  // namespace

LogManyAnswer log_many(const LogManyRequest& request, World& world) {
  LogManyAnswer answer;
  if (!request.id.empty()) {
    answer.said = {usage_error("both", "expected ID and KIND, or --from FILE, found both",
                               "each entry of the file names its motor")};
    return answer;
  }
  const auto text = world.files.read(request.from, kMaxTextFile);
  const std::string name = request.from == "-" ? kStandardInput : request.from;
  const auto ratio = todays_winder_ratio(request.winder_ratio, nullptr, world);
  const auto claimed = claimed_time(request.at);
  Diagnostics problems = text.diagnostics();
  append(problems, ratio.diagnostics());
  append(problems, claimed.diagnostics());
  const auto entries = text && ratio ? entries_from_file(*text, name, *ratio)
                                     : Result<std::vector<FileEntry>>(Diagnostics{});
  append(problems, entries.diagnostics());
  records::Ledger ledger(world.disk, records_folder(request.records, {}, world));
  if (entries && claimed && ratio) {
    answer = FileChecker(request, *ratio, *claimed, ledger, world).all(*entries);
    append(problems, answer.said);
  }
  if (text) {
    add_source_lines(problems, name, *text);
  }
  if (!has_errors(problems)) {
    append(problems, store(ledger, answer.rows));
  }
  answer.said = std::move(problems);
  if (has_errors(answer.said)) {
    answer.rows.clear();
  }
  return answer;
}

}  // namespace loopledger::commands
