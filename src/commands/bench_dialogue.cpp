// SPDX-License-Identifier: MIT
#include "commands/bench_dialogue.h"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

#include "base/text.h"
#include "commands/find_record.h"
#include "motor/bench_words.h"
#include "motor/typed_reading.h"
#include "motor/words.h"
#include "records/fields.h"
#include "tag/id.h"

namespace loopledger::commands {
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

BenchDialogue::BenchDialogue(World& world, records::Ledger ledger, BenchSetup setup)
    : world_(world), ledger_(std::move(ledger)), setup_(std::move(setup)) {
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
std::optional<MotorId> BenchDialogue::named(const std::vector<std::string>& words) {
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
Diagnostics BenchDialogue::wrong_id(const std::vector<std::string>& words) {
  const auto typed = tag::id_from(words.front());
  if (!typed) {
    const bool slip = typed.diagnostics().front().code == "id-check";
    return slip ? typed.diagnostics() : Diagnostics{};
  }
  if (words.size() < 2 || number_from(words.front())) {
    return {};
  }
  const std::string near = nearest_held(ledger_, typed->id);
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
    Pending pending = *std::exchange(pending_, std::nullopt);
    if (words.size() == 1 && is_one_of(words[0], {"y", "yes"})) {
      pending.offered.sure = true;
      return take_entry(pending.id, std::move(pending.offered));
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
    return Answer{.text = motor::bench_help(setup_.long_help)};
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
  return take_entry(id, {.entry = std::move(typed->entry),
                         .context = {.winder_ratio = setup_.winder_ratio,
                                     .units = setup_.units,
                                     .just_typed = is_newest_here(*record),
                                     .stage_inferred = typed->stage_inferred,
                                     .in_cranks = typed->in_cranks,
                                     .turns_are = typed->turns_are}});
}

/// Stores it, or asks it back; one that was asked back is offered again, `sure`.
BenchDialogue::Answer BenchDialogue::take_entry(const MotorId& id, OfferedEntry offered) {
  const auto record = ledger_.read(id);
  if (!record) {
    return {.said = record.diagnostics()};
  }
  offered.context.now = world_.now();
  CheckedEntry checked = check_entry(*record, offered, world_.random_four);
  if (has_errors(checked.said)) {
    return {.said = std::move(checked.said)};
  }
  if (checked.doubts.empty()) {
    return store(*record, std::move(checked));
  }
  pending_ = Pending{id, std::move(offered)};
  return ask_back(*record, checked);
}

BenchDialogue::Answer BenchDialogue::ask_back(const Record& record,
                                              const CheckedEntry& checked) const {
  // A number that looks like a mass is kept as turns: that is said, for a "yes" may be meant
  // otherwise.
  const bool is_turns = checked.entry.turns && checked.doubts.front().slip == motor::Slip::point;
  const std::string keeps =
      is_turns ? fmt::format(" (y keeps {})", motor::in_words(checked.entry, setup_.units)) : "";
  return {.text = printable(fmt::format("{}: {}{}", motor::bench_name(record),
                                        motor::question(checked.doubts), keeps))};
}

BenchDialogue::Answer BenchDialogue::store(const Record& record, CheckedEntry checked) {
  if (checked.entry.kind == Kind::weighed && checked.entry.text.empty()) {
    checked.entry.text = check_note_;
  }
  auto taken = add_entry(ledger_, record, std::move(checked.entry), setup_.units);
  if (!taken) {
    return {.said = taken.diagnostics()};
  }
  const MotorId& id = record.id;
  done_.push_back({id, taken->entry.key, motor::in_words(taken->entry, setup_.units)});
  skipped_.erase(printed(id));
  Answer answer{.text = motor::bench_answer(record, taken->entry, setup_.units)};
  if (!checked.again.empty()) {
    answer.text += "; the same again, undo takes it back";
  }
  go_on_from(id, taken->entry);
  answer.taken = std::move(*taken);
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
  CheckedEntry checked =
      check_entry(*record, {.entry = entry, .context = {.now = world_.now()}, .sure = true},
                  world_.random_four);
  if (has_errors(checked.said)) {
    return {.said = std::move(checked.said)};
  }
  auto taken = add_entry(ledger_, *record, std::move(checked.entry), setup_.units);
  if (!taken) {
    return {.said = taken.diagnostics()};
  }
  if (!done_.empty()) {
    done_.pop_back();
  }
  current_ = last->id;
  return {.text = fmt::format("{}: {}", printed(last->id), entry.text), .taken = std::move(*taken)};
}

BenchDialogue::Answer BenchDialogue::skip() {
  const auto at = current_ ? std::ranges::find(setup_.motors, *current_) : setup_.motors.end();
  propose_after(at == setup_.motors.end()
                    ? std::nullopt
                    : std::optional(static_cast<std::size_t>(at - setup_.motors.begin())));
  return {.text = current_ ? std::string{} : "nothing is missing", .stop = false, .said = {}};
}

}  // namespace loopledger::commands
