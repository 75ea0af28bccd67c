// SPDX-License-Identifier: MIT
#include "terminal/bench_dialogue.h"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

#include "base/text.h"
#include "commands/find_record.h"
#include "motor/bench_words.h"
#include "motor/consequences.h"
#include "motor/doubts.h"
#include "motor/entry_checks.h"
#include "motor/words.h"
#include "records/fields.h"
#include "tag/id.h"

namespace loopledger::terminal {
namespace {

using records::Entry;
using records::Kind;
using records::Record;

constexpr std::size_t kMaxLine = 300;  ///< bytes; a tag or a value is never longer
/// Words between blanks; quotes, as a shell would want them, are of no use here.
std::vector<std::string> words_of(std::string_view line) {
  std::vector<std::string> words;
  std::string plain(line);
  std::erase(plain, '"');
  std::istringstream stream{plain};
  for (std::string word; stream >> word;) {
    words.push_back(std::move(word));
  }
  return words;
}

bool is_one_of(const std::string& word, std::initializer_list<std::string_view> of) {
  const std::string key = lower_ascii(word);
  return std::ranges::find(of, key) != of.end();
}

}  // namespace

BenchDialogue::BenchDialogue(records::Ledger& ledger, BenchSetup setup)
    : ledger_(ledger), setup_(std::move(setup)) {
  propose_after(std::nullopt);
}

std::string BenchDialogue::prompt() {
  if (pending_) {
    return "y keeps it, or type it again> ";
  }
  if (!current_) {
    return "> ";
  }
  const auto record = ledger_.read(*current_);
  if (!record) {
    return "> ";
  }
  const motor::Now now = motor::now_of(*record);
  const auto want = motor::next_want(*record, now);
  return want ? fmt::format("{}: {}> ", motor::bench_name(*record),
                            motor::question(*want, *record, now, setup_.units))
              : motor::bench_name(*record) + "> ";
}

/// The next motor in the plan's order, around its end, that lacks something and was not skipped.
void BenchDialogue::propose_after(std::optional<std::size_t> from) {
  const std::size_t count = setup_.motors.size();
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t at = from ? (*from + 1 + i) % count : i;
    const MotorId& id = setup_.motors[at];
    if (skipped_.contains(printed(id))) {
      continue;
    }
    const auto record = ledger_.read(id);
    if (record && motor::next_want(*record, motor::now_of(*record))) {
      current_ = id;
      return;
    }
  }
  current_.reset();
}

/// The motor that the first word names: one of the bench's, or one that the ledger holds.
std::optional<MotorId> BenchDialogue::named(const std::vector<std::string>& words) const {
  const auto id = tag::id_from(words.front());
  if (!id) {
    return std::nullopt;
  }
  const bool has_letter = std::ranges::any_of(
      words.front(), [](char c) { return (c | 0x20) >= 'a' && (c | 0x20) <= 'z'; });
  const bool here = std::ranges::find(setup_.motors, id->id) != setup_.motors.end();
  return here || (has_letter && ledger_.read(id->id)) ? std::optional(id->id) : std::nullopt;
}

/// What is wrong with a first word that was meant as an id; empty when it was none.
Diagnostics BenchDialogue::wrong_id(const std::vector<std::string>& words) const {
  const auto typed = tag::id_from(words.front());
  if (!typed) {
    const bool slip = typed.diagnostics().front().code == "id-check";
    return slip ? typed.diagnostics() : Diagnostics{};
  }
  if (words.size() < 2 || number_from(words.front())) {
    return {};
  }
  const std::string near = commands::nearest_held(ledger_, typed->id);
  return {error("none-record",
                fmt::format("neither the plan nor the ledger has {}", printed(typed->id)),
                near.empty() ? "nothing was stored" : near + " nothing was stored")};
}

BenchDialogue::Answer BenchDialogue::take(std::string_view line) {
  if (line.size() > kMaxLine) {
    return {
        .text = {},
        .stop = false,
        .said = {error("bench-line", "the line is too long", "a motor and a value: th3 1.776")}};
  }
  const std::vector<std::string> words = words_of(line);
  if (pending_) {
    const Pending pending = *std::exchange(pending_, std::nullopt);
    if (words.size() == 1 && is_one_of(words[0], {"y", "yes"})) {
      return store(pending.id, pending.entry);
    }
    if (words.empty() || (words.size() == 1 && is_one_of(words[0], {"n", "no"}))) {
      return {.text = "not stored", .stop = false, .said = {}};
    }
    if (words.size() == 1 && is_one_of(words[0], {"u", "undo"})) {
      return {.text = done_.empty() ? "not stored"
                                    : fmt::format("not stored; undo again takes back {}: {}",
                                                  printed(done_.back().id), done_.back().words),
              .stop = false,
              .said = {}};
    }
  }
  if (words.empty()) {
    return skip();
  }
  return take_words(words);
}

/// A word of the bench itself; empty: it is none.
std::optional<BenchDialogue::Answer> BenchDialogue::take_command(
    const std::vector<std::string>& words) {
  const bool alone = words.size() == 1;
  if (alone && is_one_of(words[0], {"stop", "quit", "exit", "q"})) {
    return Answer{.stop = true};
  }
  if (alone && is_one_of(words[0], {"undo", "u"})) {
    return undo();
  }
  if (alone && is_one_of(words[0], {"skip", "s"})) {
    if (current_) {
      skipped_.insert(printed(*current_));
    }
    return skip();
  }
  if (alone && is_one_of(words[0], {"?", "help"})) {
    return Answer{.text = motor::bench_help(setup_.terminal)};
  }
  if (alone && is_one_of(words[0], {"list"})) {
    return list();
  }
  if (words.size() <= 2 && is_one_of(words[0], {"show"})) {
    return show(words);
  }
  if (is_one_of(words[0], {"check"}) && words.size() > 1) {
    return check_weight(words);
  }
  return std::nullopt;
}

BenchDialogue::Answer BenchDialogue::take_words(const std::vector<std::string>& words) {
  if (auto answer = take_command(words)) {
    return std::move(*answer);
  }
  std::vector<std::string> values = words;
  if (const auto id = named(words)) {
    current_ = *id;
    values.erase(values.begin());
    // A scanner types the whole tag: what stands behind the id are its figures, not readings.
    if (values.empty() || is_one_of(values[0], {"est", "made", "wind"})) {
      return {};
    }
  } else if (const auto next = owners_next(words)) {
    current_ = *next;
    return {};
  } else if (Diagnostics wrong = wrong_id(words); has_errors(wrong)) {
    return {.said = std::move(wrong)};
  }
  if (!current_) {
    return {.said = {error("bench-motor", "which motor? nothing was stored",
                           "type it before the value: th3 1.776")}};
  }
  return take_values(*current_, values);
}

bool BenchDialogue::is_newest_here(const Record& record) const {
  return !record.entries.empty() && std::ranges::any_of(done_, [&](const Done& done) {
    return done.id == record.id && done.key == record.entries.back().key;
  });
}

BenchDialogue::Answer BenchDialogue::take_values(const MotorId& id,
                                                 const std::vector<std::string>& words) {
  const auto record = ledger_.read(id);
  if (!record) {
    return {.said = record.diagnostics()};
  }
  auto typed =
      motor::understand(*record, motor::now_of(*record), words, setup_.units, setup_.winder_ratio);
  if (!typed) {
    return {.said = typed.diagnostics()};
  }
  Entry& entry = typed->entry;
  if (Diagnostics wrong = motor::resolve_correction(entry, *record, false); has_errors(wrong)) {
    return {.said = std::move(wrong)};
  }
  entry.key = motor::new_key(setup_.now(), false, entry, *record, setup_.random_four);
  const auto doubts = motor::doubts_of(*record, entry,
                                       {.now = setup_.now(),
                                        .winder_ratio = setup_.winder_ratio,
                                        .units = setup_.units,
                                        .just_typed = is_newest_here(*record),
                                        .stage_inferred = typed->stage_inferred,
                                        .in_cranks = typed->in_cranks,
                                        .turns_are = typed->turns_are});
  if (doubts.empty()) {
    return store(id, std::move(entry));
  }
  pending_ = Pending{id, std::move(entry)};
  // A number that looks like a mass is kept as turns: that is said, for a "yes" may be meant
  // otherwise.
  const bool is_turns = pending_->entry.turns && doubts.front().slip == motor::Slip::point;
  const std::string keeps =
      is_turns ? fmt::format(" (y keeps {})", motor::in_words(pending_->entry, setup_.units)) : "";
  return {.text = printable(
              fmt::format("{}: {}{}", motor::bench_name(*record), motor::question(doubts), keeps))};
}

BenchDialogue::Answer BenchDialogue::store(const MotorId& id, Entry entry) {
  const auto record = ledger_.read(id);
  if (!record) {
    return {.said = record.diagnostics()};
  }
  entry.key = motor::new_key(setup_.now(), false, entry, *record, setup_.random_four);
  if (entry.kind == Kind::weighed && entry.text.empty()) {
    entry.text = check_note_;
  }
  if (Diagnostics problems = ledger_.add(id, entry); has_errors(problems)) {
    return {.said = std::move(problems)};
  }
  done_.push_back({id, entry.key, motor::in_words(entry, setup_.units)});
  skipped_.erase(printed(id));
  Answer answer{.text = motor::bench_answer(*record, entry, setup_.units)};
  if (motor::said_before(*record, entry, records::moment_of_key(entry.key)) != nullptr) {
    answer.text += "; the same again, undo takes it back";
  }
  go_on_from(id, entry);
  return answer;
}

/// Stays with a motor that was weighed until it is washed, and with one that has to be trimmed;
/// else goes on in the plan's order.
void BenchDialogue::go_on_from(const MotorId& id, const Entry& entry) {
  const auto after = ledger_.read(id);
  if (const auto stage = motor::stage_weighed(entry); stage && after) {
    const motor::Now now = motor::now_of(*after);
    const auto want = motor::next_want(*after, now);
    const bool unwashed = want && want->what == motor::Asked::washed;
    if (unwashed ||
        calc::judge(after->planned, *stage, *entry.reading, now.read.together()).verdict ==
            calc::Verdict::over) {
      current_ = id;
      return;
    }
  }
  if (const auto at = std::ranges::find(setup_.motors, id); at != setup_.motors.end()) {
    propose_after(static_cast<std::size_t>(at - setup_.motors.begin()));
  }
}

BenchDialogue::Answer BenchDialogue::undo() {
  const auto last = done_.empty() ? newest_of_tonight() : std::optional(done_.back());
  const auto record = last ? ledger_.read(last->id) : Result<Record>(Diagnostics{});
  if (!last) {
    return {.text = "nothing to take back"};
  }
  if (!record) {
    return {.said = record.diagnostics()};
  }
  Entry entry;
  entry.kind = Kind::note;
  entry.text = "taken back: " + last->words;
  entry.corrects = last->key;
  entry.key = motor::new_key(setup_.now(), false, entry, *record, setup_.random_four);
  if (Diagnostics problems = ledger_.add(last->id, entry); has_errors(problems)) {
    return {.said = std::move(problems)};
  }
  if (!done_.empty()) {
    done_.pop_back();
  }
  current_ = last->id;
  return {.text = fmt::format("{}: {}", printed(last->id), entry.text)};
}

BenchDialogue::Answer BenchDialogue::skip() {
  const auto at = current_ ? std::ranges::find(setup_.motors, *current_) : setup_.motors.end();
  propose_after(at == setup_.motors.end()
                    ? std::nullopt
                    : std::optional(static_cast<std::size_t>(at - setup_.motors.begin())));
  return {.text = current_ ? std::string{} : "nothing is missing", .stop = false, .said = {}};
}

}  // namespace loopledger::terminal
