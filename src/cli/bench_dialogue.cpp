// SPDX-License-Identifier: MIT
#include "cli/bench_dialogue.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <sstream>

#include "base/text.h"
#include "calc/weigh.h"
#include "cli/advice.h"
#include "cli/doubt.h"
#include "cli/ledger_words.h"
#include "cli/log_checks.h"
#include "cli/record_text.h"
#include "records/fields.h"
#include "tag/id.h"

namespace loopledger::cli {
namespace {

using records::Entry;
using records::Kind;
using records::Record;

constexpr std::size_t kMaxLine = 300;  ///< bytes; a tag or a value is never longer
constexpr const char* kHelp =
    "th3 1.512, th3 loop 302, th3 1180 41 gf.cm; Enter: next motor; undo, skip, stop, check 1.001";

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

/// What a motor lighter than its window still is within; empty when there is nothing to say.
std::string light_words(const records::Planned& p, Stage stage, Mass reading) {
  const auto good = still_good_for(p, stage, reading);
  if (!good || stage == Stage::as_cut || *good >= p.rule->limit - Mass::mg(0.001)) {
    return {};
  }
  // Planned well under its limit, it needs no lower one to be of use.
  const auto expected = expected_reading(p, stage);
  const auto planned_for = expected ? still_good_for(p, stage, *expected) : std::nullopt;
  if (planned_for && *planned_for < p.rule->limit - Mass::mg(0.001)) {
    return fmt::format(" for what was planned, within the limit of {}", exact(p.rule->limit));
  }
  return fmt::format(", still good for {}", exact(*good));
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

std::string BenchDialogue::who(const Record& record) const {
  std::string out = printed(record.id);
  if (!record.planned.owner.empty()) {
    out += " " + record.planned.owner;
  }
  return printable(out);
}

std::string BenchDialogue::prompt() {
  if (pending_) {
    return "y keeps it, or type it again> ";
  }
  if (!current_) {
    return "> ";
  }
  const auto record = ledger_.read(*current_);
  const auto want = record ? next_want(*record) : std::nullopt;
  if (!want) {
    return record ? who(*record) + "> " : "> ";
  }
  return fmt::format("{}: {}> ", who(*record), question(*want, *record, setup_.units));
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
    if (record && next_want(*record)) {
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
        .said = {error("bench-line", "the line is too long", "a motor and a value: th3 1.512")}};
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

BenchDialogue::Answer BenchDialogue::take_words(const std::vector<std::string>& words) {
  if (words.size() == 1 && is_one_of(words[0], {"stop", "quit", "exit", "q"})) {
    return {.text = {}, .stop = true, .said = {}};
  }
  if (words.size() == 1 && is_one_of(words[0], {"undo", "u"})) {
    return undo();
  }
  if (words.size() == 1 && is_one_of(words[0], {"skip", "s"})) {
    if (current_) {
      skipped_.insert(printed(*current_));
    }
    return skip();
  }
  if (words.size() == 1 && is_one_of(words[0], {"?", "help"})) {
    return {.text = kHelp, .stop = false, .said = {}};
  }
  if (is_one_of(words[0], {"check"}) && words.size() > 1) {
    return check_weight(words);
  }
  std::vector<std::string> values = words;
  if (const auto id = named(words)) {
    current_ = *id;
    values.erase(values.begin());
    // A scanner types the whole tag: what stands behind the id are its figures, not readings.
    if (values.empty() || is_one_of(values[0], {"est", "made"})) {
      return {.text = {}, .stop = false, .said = {}};
    }
  } else if (Diagnostics wrong = wrong_id(words); has_errors(wrong)) {
    return {.text = {}, .stop = false, .said = std::move(wrong)};
  }
  if (!current_) {
    return {.text = {},
            .stop = false,
            .said = {error("bench-motor", "which motor? nothing was stored",
                           "type it before the value: th3 1.512")}};
  }
  return take_values(*current_, values);
}

BenchDialogue::Answer BenchDialogue::take_values(const MotorId& id,
                                                 const std::vector<std::string>& words) {
  const auto record = ledger_.read(id);
  if (!record) {
    return {.text = {}, .stop = false, .said = record.diagnostics()};
  }
  auto understood = understand(*record, words, setup_.units);
  if (!understood) {
    return {.text = {}, .stop = false, .said = understood.diagnostics()};
  }
  if (!understood->doubt.empty()) {
    pending_ = Pending{id, std::move(understood->entry)};
    const std::string doubt = printable(understood->doubt);
    return {.text = fmt::format("{}: {}{}", who(*record), doubt, doubt.ends_with('?') ? "" : "?"),
            .stop = false,
            .said = {}};
  }
  return store(id, std::move(understood->entry));
}

/// What was stored and what to do, in one line.
std::string BenchDialogue::told(const Record& record, const Entry& entry) const {
  const records::Planned& p = record.planned;
  std::string out = fmt::format("{}: {}", who(record), in_words(entry, setup_.units));
  if (const auto stage = records::stage_weighed(entry)) {
    const records::Known before = records::known_of(record.entries);
    const calc::Judgement j =
        calc::judge(p, *stage, *entry.reading, {before.washed, before.tied, {}});
    const auto mg = [&](Mass mass) {
      return fixed(mass.in_mg(), std::max(0, gram_decimals(p.scale_step) - 3));
    };
    const std::string said = fmt::format(
        "{} {}{}", spoken(*stage), shown(*entry.reading, p.scale_step), with_tails(*stage, p));
    if (j.verdict == calc::Verdict::over) {
      out = fmt::format("{}: {} mg over, snip {} ({})", who(record), mg(j.over),
                        shown(j.trim, setup_.units), said);
    } else if (j.verdict == calc::Verdict::light) {
      out = fmt::format("{}: too light by {} mg{} ({})", who(record), mg(j.light),
                        light_words(p, *stage, *entry.reading), said);
    } else {
      const bool to_spare = j.margin && *j.margin >= Mass{} && *stage != Stage::as_cut;
      out = fmt::format("{}: OK, {} ({}{})", who(record),
                        *stage == Stage::as_cut ? "long enough" : "within its window", said,
                        to_spare ? fmt::format(", {} mg to spare", mg(*j.margin)) : "");
    }
  }
  Record after = record;
  after.entries.push_back(entry);
  const Advice now = advice_for(after);
  if (now.state == records::State::retired) {
    return out;
  }
  if (entry.loop_after && now.growth) {
    out += fmt::format("; {}, wind to {}", set_words(now), shown_at_most(now.wind_to));
  }
  if (entry.turns && *entry.turns > now.do_not_pass) {
    out += fmt::format("; past \"do not pass\" {}", shown_at_most(now.do_not_pass));
  }
  return out;
}

BenchDialogue::Answer BenchDialogue::store(const MotorId& id, Entry entry) {
  const auto record = ledger_.read(id);
  if (!record) {
    return {.text = {}, .stop = false, .said = record.diagnostics()};
  }
  do {
    entry.key = records::make_key(setup_.now(), setup_.random_four());
  } while (
      std::ranges::any_of(record->entries, [&](const Entry& e) { return e.key == entry.key; }));
  if (entry.kind == Kind::weighed && entry.text.empty()) {
    entry.text = check_note_;
  }
  if (Diagnostics problems = ledger_.add(id, entry); has_errors(problems)) {
    return {.text = {}, .stop = false, .said = std::move(problems)};
  }
  done_.push_back({id, entry.key, in_words(entry, setup_.units)});
  skipped_.erase(printed(id));
  Answer answer{.text = told(*record, entry), .stop = false, .said = {}};
  if (said_before(*record, entry, records::moment_of_key(entry.key)) != nullptr) {
    answer.text += "; the same again, undo takes it back";
  }
  // Stay with a motor that has to be trimmed; else go on in the plan's order.
  const auto after = ledger_.read(id);
  const auto at = std::ranges::find(setup_.motors, id);
  const auto over = [&] {
    const records::Known known = records::known_of(after->entries);
    return calc::judge(after->planned, *entry.stage, *entry.reading, {known.washed, known.tied, {}})
               .verdict == calc::Verdict::over;
  };
  const bool again = entry.reading && entry.stage && after && over();
  if (again) {
    current_ = id;
  } else if (at != setup_.motors.end()) {
    propose_after(static_cast<std::size_t>(at - setup_.motors.begin()));
  }
  return answer;
}

BenchDialogue::Answer BenchDialogue::undo() {
  if (done_.empty()) {
    return {.text = "nothing to take back", .stop = false, .said = {}};
  }
  const Done last = done_.back();
  Entry entry;
  entry.kind = Kind::note;
  entry.text = "taken back: " + last.words;
  entry.corrects = last.key;
  entry.key = records::make_key(setup_.now(), setup_.random_four());
  if (Diagnostics problems = ledger_.add(last.id, entry); has_errors(problems)) {
    return {.text = {}, .stop = false, .said = std::move(problems)};
  }
  done_.pop_back();
  current_ = last.id;
  return {.text = fmt::format("{}: {}", printed(last.id), entry.text), .stop = false, .said = {}};
}

BenchDialogue::Answer BenchDialogue::skip() {
  const auto at = current_ ? std::ranges::find(setup_.motors, *current_) : setup_.motors.end();
  propose_after(at == setup_.motors.end()
                    ? std::nullopt
                    : std::optional(static_cast<std::size_t>(at - setup_.motors.begin())));
  return {.text = current_ ? std::string{} : "nothing is missing", .stop = false, .said = {}};
}

/// "check 1.001" (a 1 g weight) or "check 5 g 5.002 g".
BenchDialogue::Answer BenchDialogue::check_weight(const std::vector<std::string>& words) {
  std::string all;
  for (std::size_t i = 1; i < words.size(); ++i) {
    const bool unit = !number_from(words[i]) && !all.empty();
    all += (all.empty() || unit ? "" : "|") + words[i];
  }
  const std::size_t bar = all.find('|');
  const auto mass_of = [](const std::string& text) {
    const auto number = number_from(text);
    return number ? Result<Mass>(Mass::g(*number)) : mass_from(text);
  };
  const auto nominal =
      bar == std::string::npos ? Result<Mass>(Mass::g(1)) : mass_of(all.substr(0, bar));
  const auto reading = mass_of(bar == std::string::npos ? all : all.substr(bar + 1));
  if (!nominal || !reading) {
    return {.text = {},
            .stop = false,
            .said = {error("bench-check", "expected what the check weight reads",
                           "check 1.001 for a 1 g weight, or check 5 g 5.002 g")}};
  }
  check_note_ = fmt::format("check weight {} read {}", exact(*nominal), exact(*reading));
  const Mass off = *reading - *nominal;
  const bool wrong = std::fabs(off.in_si()) > setup_.scale_error.in_si() * (1 + 1e-9);
  return {.text = fmt::format("check weight: {} mg off{}", rounded(off.in_mg(), 3),
                              wrong ? fmt::format(", more than the scale's {} mg: set it right "
                                                  "before you weigh",
                                                  rounded(setup_.scale_error.in_mg(), 3))
                                    : ", as good as the plan says"),
          .stop = false,
          .said = {}};
}

}  // namespace loopledger::cli
