// SPDX-License-Identifier: MIT
//
// `log ID KIND …`: adds one entry to a motor's record, says what it understood, and what follows
// from it.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <memory>
#include <ostream>

#include "base/text.h"
#include "cli/advice.h"
#include "cli/command.h"
#include "cli/command_line.h"
#include "cli/exit_code.h"
#include "cli/files.h"
#include "cli/json.h"
#include "cli/ledger_words.h"
#include "cli/log_checks.h"
#include "cli/log_file.h"
#include "cli/log_words.h"
#include "cli/posix_disk.h"
#include "cli/random_key.h"
#include "cli/record_text.h"
#include "cli/text_table.h"
#include "records/fields.h"
#include "records/write.h"

namespace loopledger::cli {
namespace {

using records::Entry;
using records::Kind;
using records::Record;

struct LogOptions {
  std::string from;  ///< a file of entries
  std::string id;
  std::string kind;
  std::vector<std::string> words;
  std::string at;
  std::string records;
  std::optional<Units> units;
  bool sure = false;
  bool json = false;
};

/// A key that the record does not have yet.
std::string new_key(Moment at, const Record& record) {
  std::string key;
  do {
    key = records::make_key(at, random_four());
  } while (std::ranges::any_of(record.entries, [&](const Entry& e) { return e.key == key; }));
  return key;
}

/// The key that `corrects` means: whole, or its last four characters.
Diagnostics resolve_correction(Entry& entry, const Record& record) {
  if (entry.corrects.empty()) {
    return {};
  }
  std::vector<std::string_view> found;
  std::vector<std::string_view> keys;
  for (const Entry& e : record.entries) {
    keys.push_back(e.key);
    if (e.key == entry.corrects || e.key.ends_with("-" + entry.corrects)) {
      found.push_back(e.key);
    }
  }
  if (found.size() == 1) {
    entry.corrects = std::string(found.front());
    return {};
  }
  const std::string_view near = nearest(entry.corrects, keys);
  return {error(
      "log-corrects",
      fmt::format("{} {} to correct with the key \"{}\"", printed(record.id),
                  found.empty() ? "has no entry" : "has several entries",
                  printable(shortened(entry.corrects, 40))),
      near.empty() ? "`loopledger show` lists the keys" : fmt::format("did you mean {}?", near))};
}

Result<Moment> moment_of(const LogOptions& options, const Context& context) {
  if (options.at.empty()) {
    return context.now();
  }
  const auto at = moment_from_text(options.at);
  if (!at) {
    return bad_time(options.at);
  }
  return *at;
}

/// What follows from a winding: against the best of the others, and against "do not pass".
void append_winding(const Record& before, const Entry& e, const Advice& now,
                    std::vector<std::string>& lines) {
  std::vector<Entry> others = before.entries;
  std::erase_if(others, [&e](const Entry& other) { return other.key == e.corrects; });
  const auto best = records::known_of(others).best_turns;
  if (best && *e.turns > *best) {
    lines.push_back(fmt::format("more than ever before: {} turns", rounded(best->count(), 6)));
  }
  if (*e.turns > now.do_not_pass) {
    lines.push_back(fmt::format("past \"do not pass\", {} turns", shown_at_most(now.do_not_pass)));
  } else if (now.state != records::State::retired) {
    lines.push_back(fmt::format("{} turns left before \"do not pass\", {}",
                                shown_at_most(now.do_not_pass - *e.turns),
                                shown_at_most(now.do_not_pass)));
  }
}

/// What follows from an entry, a line each.
std::vector<std::string> consequences(const Record& before, const Record& after, const Entry& e,
                                      Units units) {
  std::vector<std::string> lines;
  const records::Planned& p = after.planned;
  const Advice now = advice_for(after);
  if (const auto stage = records::stage_weighed(e)) {
    lines.push_back(verdict_text(
        p, calc::judge(p, *stage, *e.reading, {now.known.washed, now.known.tied, {}}), units));
    if (*stage == Stage::tied && now.known.washed &&
        (p.rings.value + p.adhesive_mass.value > Mass{} || p.tails > Length{})) {
      lines.push_back(
          tying_text(calc::check_tying(p, *now.known.washed, *e.reading), p.scale_step));
    }
  }
  const bool retired = now.state == records::State::retired;
  if (retired && (e.kind == Kind::wound || e.kind == Kind::break_in || e.kind == Kind::flown) &&
      records::state_of(before.entries) == now.state) {
    lines.emplace_back("it is retired, not to be wound; log it tied again when it has a new knot");
  } else if (e.kind == Kind::break_in && e.loop_after && now.growth) {
    lines.push_back(fmt::format("{}; wind to {} turns, do not pass {}", set_words(now),
                                shown_at_most(now.wind_to), shown_at_most(now.do_not_pass)));
  } else if (e.kind == Kind::wound && e.turns) {
    append_winding(before, e, now, lines);
  }
  if (records::state_of(before.entries) != now.state) {
    lines.push_back(fmt::format("it is now {}", spoken(now.state)));
  }
  return lines;
}

void tell(const LogOptions& options, const FoundRecord& found, const Entry& entry,
          Context& context) {
  if (options.json) {
    Json out = Json::object();
    out.set("format", 1).set("id", printed(found.id)).set("key", entry.key);
    context.out << out.text();
    return;
  }
  const Units units = options.units.value_or(Units::metric);
  Record after = found.record;
  after.entries.push_back(entry);
  context.out << wrapped(whose(found.record))
              << wrapped(fmt::format("  {}  {}", entry.key, in_words(entry, units)));
  for (const std::string& line : consequences(found.record, after, entry, units)) {
    context.out << wrapped("  " + printable(line));
  }
}

/// One entry of a file, checked against its motor's record.
struct Checked {
  const FileEntry* from = nullptr;
  Record* record = nullptr;
  Entry entry;
};

/// Whether the record has the same entry of the same time already: a file that is taken in again.
bool is_there(const Record& record, const Entry& entry, const std::optional<Moment>& at) {
  return at && std::ranges::any_of(record.entries, [&](const Entry& e) {
           return records::moment_of_key(e.key) == at && records::says_the_same(e, entry);
         });
}

/// Everything that can be wrong is found before the first entry is stored.
std::vector<Checked> checked(const std::vector<FileEntry>& entries, const LogOptions& options,
                             records::Ledger& ledger, std::map<MotorId, Record>& records,
                             std::size_t& there, Diagnostics& problems, const Context& context) {
  std::vector<Checked> all;
  for (const FileEntry& from : entries) {
    Diagnostics said;
    auto record = records.find(from.id);
    if (record == records.end()) {
      auto read = ledger.read(from.id);
      said = read.diagnostics();
      if (read) {
        record = records.emplace(from.id, std::move(*read)).first;
      }
    }
    const auto at = from.at ? Result<Moment>(*from.at) : moment_of(options, context);
    append(said, at.diagnostics());
    if (record != records.end()) {
      append(said, torn_refusal(record->second));
    }
    Checked one{&from, record == records.end() ? nullptr : &record->second, from.entry};
    if (one.record != nullptr && at && !has_errors(said)) {
      append(said, resolve_correction(one.entry, *one.record));
      if (is_there(*one.record, one.entry, from.at)) {
        ++there;
      } else {
        append(said, options.sure ? Diagnostics{} : doubt_refusal(*one.record, one.entry));
        one.entry.key = new_key(*at, *one.record);
        append(said, again_warning(*one.record, one.entry, from.at));
        one.record->entries.push_back(one.entry);  // so that later lines see it
        all.push_back(one);
      }
    }
    for (Diagnostic d : said) {
      d.place = d.place.file.empty() ? from.place : d.place;
      problems.push_back(std::move(d));
    }
  }
  return all;
}

void run_log_file(const LogOptions& options, Context& context) {
  const auto text = read_file(options.from, kMaxTextFile, context.in);
  const std::string name = options.from == "-" ? kStandardInput : options.from;
  const auto entries =
      text ? entries_from_file(*text, name) : Result<std::vector<FileEntry>>(Diagnostics{});
  Diagnostics problems = text.diagnostics();
  append(problems, entries.diagnostics());
  PosixDisk disk;
  records::Ledger ledger(disk, records_folder(options.records, {}, context));
  std::map<MotorId, Record> records;
  std::size_t there = 0;
  std::vector<Checked> all;
  if (entries) {
    all = checked(*entries, options, ledger, records, there, problems, context);
  }
  if (text) {
    add_source_lines(problems, name, *text);
  }
  context.exit_code = report_alone(context, problems, options.json && has_errors(problems));
  if (context.exit_code != kDone) {
    return;
  }
  const Units units = options.units.value_or(Units::metric);
  std::size_t stored = 0;
  for (const Checked& one : all) {
    const Diagnostics added = ledger.add(one.from->id, one.entry);
    context.exit_code = report_alone(context, added, options.json && has_errors(added));
    if (context.exit_code != kDone) {
      context.err << fmt::format(
          "{} of {} entries were stored before that; take the file again when "
          "the disk is right\n",
          stored, all.size());
      return;
    }
    ++stored;
    if (!options.json) {
      context.out << wrapped(fmt::format("{}  {}", whose(*one.record), in_words(one.entry, units)));
    }
  }
  if (options.json) {
    context.out << Json::object().set("format", 1).set("stored", stored).set("there", there).text();
  } else {
    context.out << fmt::format("{} entr{} stored{}\n", stored, stored == 1 ? "y" : "ies",
                               there > 0 ? fmt::format("; {} there already", there) : "");
  }
}

/// The words as an entry; cranks are turns as the motor's record has it.
Result<Entry> understood_words(const LogOptions& options, const Result<FoundRecord>& found) {
  const auto kind = records::kind_from(options.kind);
  const bool winds = kind == Kind::wound || kind == Kind::break_in || kind == Kind::broke;
  if (!winds || !found) {
    return entry_from_words(options.kind, options.words);
  }
  const auto words = cranks_as_turns(options.words, found->record.planned.winder_ratio);
  return words ? entry_from_words(options.kind, *words) : Result<Entry>(words.diagnostics());
}

void run_log(const LogOptions& options, Context& context) {
  const bool from_file = !options.from.empty();
  if (from_file ? !options.id.empty() : options.kind.empty()) {
    const std::string found = from_file ? ", found both" : "";
    context.exit_code = report_alone(
        context,
        {usage_error(from_file ? "both" : "missing", "expected ID and KIND, or --from FILE" + found,
                     from_file ? "each entry of the file names its motor"
                               : "loopledger log th1 weighed washed 1.498")},
        options.json);
    return;
  }
  if (from_file) {
    run_log_file(options, context);
    return;
  }
  PosixDisk disk;
  records::Ledger ledger(disk, records_folder(options.records, {}, context));
  auto at = moment_of(options, context);
  auto found = find_record(ledger, options.id);
  auto entry = understood_words(options, found);
  Diagnostics problems = found.diagnostics();
  append(problems, entry.diagnostics());
  append(problems, at.diagnostics());
  if (found && entry) {
    append(problems, resolve_correction(*entry, found->record));
    append(problems, options.sure ? Diagnostics{} : doubt_refusal(found->record, *entry));
  }
  if (has_errors(problems)) {
    context.exit_code = report_alone(context, problems, options.json);
    return;
  }
  (void)report(context, problems);
  if (!found->checked) {
    context.err << wrapped("no check character typed: taken for " + whose(found->record));
  }
  entry->key = new_key(*at, found->record);
  (void)report(context, again_warning(found->record, *entry, *at));
  const Diagnostics stored = ledger.add(found->id, *entry);
  context.exit_code = report_alone(context, stored, options.json && has_errors(stored));
  if (context.exit_code == kDone) {
    tell(options, *found, *entry, context);
  }
}

std::string kinds_help() {
  std::string out = "Kinds and their fields:\n";
  for (const std::string_view name : records::kind_words()) {
    std::vector<std::string_view> fields;
    const Kind kind = *records::kind_from(name);
    for (const records::Field& field : records::fields_of(kind)) {
      if (field.name != "note" && field.name != "corrects") {
        fields.push_back(field.name);
      }
    }
    out += fmt::format("  {:9} {}\n", name, fmt::join(fields, ", "));
  }
  return out +
         "All kinds take note=TEXT and corrects=KEY (the last four characters of the key will "
         "do).\n"
         "Examples:\n"
         "  loopledger log th1 weighed washed 1.498\n"
         "  loopledger log TH-01-T wound turns=1200 torque=\"41 gf.cm\" end=stopped\n"
         "  loopledger log th1 flown 7:31 turns_left=210\n"
         "  loopledger log --from evening.csv     (columns id, kind, at and the fields)\n";
}

}  // namespace

void add_log(CommandLine& line, Context& context) {
  auto options = std::make_shared<LogOptions>();
  line.add("log", "Add an entry to a motor's record")
      .option("ID", options->id, "The motor, such as th1 or TH-01-J")
      .option("KIND", options->kind, "What happened, such as weighed or wound")
      .words("FIELDS", options->words, "field=value, or values alone with their units")
      .option("--from", options->from, "Many entries from a TOML or CSV file, all or none")
      .option("--at", options->at, "When it happened, UTC: \"2026-05-01 10:00\"")
      .flag("--sure", options->sure, "Take values that can hardly be true")
      .records(options->records)
      .units(options->units)
      .json(options->json, "The new entry's key")
      .footer(kinds_help())
      .action([options, &context] { run_log(*options, context); });
}

}  // namespace loopledger::cli
