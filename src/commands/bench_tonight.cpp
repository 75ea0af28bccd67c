// SPDX-License-Identifier: MIT
//
// What the bench knows of the whole night: what each motor lacks, whose turn it is, what was typed
// last, what the check weight read.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "calc/error_parts.h"
#include "commands/bench_dialogue.h"
#include "commands/find_record.h"
#include "motor/bench_words.h"
#include "motor/summary.h"
#include "motor/typed_reading.h"
#include "motor/words.h"
#include "records/fields.h"

namespace loopledger::commands {
namespace {

using records::Entry;
using records::Kind;

/// "; tonight it errs from 0 to 1 mg, the plan takes ± 3 mg: …": by how much a check weight narrows
/// the scale's error; empty: by nothing.
std::string narrowed_words(const BenchSetup& setup, Mass nominal, Mass reading) {
  const auto left = calc::narrowed_by_check(setup.scale_error, setup.scale_step, nominal, reading);
  const Mass planned = setup.scale_error;
  if (!left || left->half_width.in_si() > planned.in_si() * (1 - 1e-9)) {
    return {};
  }
  const auto mg = [](Mass mass) {
    constexpr double kFine = 1e-6;  // mg: less is what binary fractions leave
    return rounded(std::fabs(mass.in_mg()) < kFine ? 0 : mass.in_mg(), 3);
  };
  const Mass low = left->offset - left->half_width;
  const Mass high = left->offset + left->half_width;
  const Mass most = std::max(-low, high);
  std::string out = fmt::format("; tonight it errs from {} to {} mg, the plan takes ± {} mg",
                                mg(low), mg(high), mg(planned));
  if (most.in_si() < planned.in_si() * (1 - 1e-9)) {
    out += fmt::format(": scale_error = \"{} mg\" in [bench] would do tonight", mg(most));
  }
  return out;
}

/// Until so long after it an entry is of tonight. Common sense, no source.
constexpr Duration kTonight = Duration::h(12);

bool is_typed_by_people(Kind kind) {
  return kind != Kind::labelled && kind != Kind::planned && kind != Kind::piece;
}

}  // namespace

/// The newest entry of the plan's motors that counts, by the time in its key.
std::optional<BenchDialogue::Done> BenchDialogue::newest_of_tonight() {
  const Moment now = world_.now();
  std::optional<Done> newest;
  Moment newest_at{};
  for (const MotorId& id : setup_.motors) {
    const auto record = ledger_.read(id);
    if (!record) {
      continue;
    }
    const auto standing = motor::standing_of(record->entries);
    for (const motor::Standing& s : standing.entries) {
      const Entry& e = *s.entry;
      const auto at = records::moment_of_key(e.key);
      const bool took_back = e.kind == Kind::note && !e.corrects.empty();
      const bool tonight =
          at && *at <= now && static_cast<double>(now.seconds - at->seconds) <= kTonight.in_s();
      if (tonight && !took_back && is_typed_by_people(e.kind) && (!newest || *at >= newest_at)) {
        newest = Done{id, e.key,
                      fmt::format("{}, of {}", motor::in_words(e, setup_.units), readable(*at))};
        newest_at = *at;
      }
    }
  }
  return newest;
}

/// The next motor that lacks something of the owner whose name was typed.
std::optional<MotorId> BenchDialogue::owners_next(const std::vector<std::string>& words) {
  const std::string name = lower_ascii(fmt::format("{}", fmt::join(words, " ")));
  const auto at = current_ ? std::ranges::find(setup_.motors, *current_) : setup_.motors.end();
  const std::size_t count = setup_.motors.size();
  const std::size_t from =
      at == setup_.motors.end() ? 0 : static_cast<std::size_t>(at - setup_.motors.begin()) + 1;
  std::optional<MotorId> any;
  for (std::size_t i = 0; i < count; ++i) {
    const MotorId& id = setup_.motors[(from + i) % count];
    const auto record = ledger_.read(id);
    if (!record || lower_ascii(record->planned.owner) != name) {
      continue;
    }
    if (motor::next_want(*record, motor::now_of(*record))) {
      return id;
    }
    any = any ? any : id;
  }
  return any;
}

BenchDialogue::Answer BenchDialogue::show(const std::vector<std::string>& words) {
  if (words.size() == 1 && !current_) {
    return {.said = {error("bench-motor", "which motor?", "show th3")}};
  }
  const auto found = find_record(ledger_, words.size() > 1 ? words[1] : printed(*current_));
  if (!found) {
    return Answer{.said = found.diagnostics()};
  }
  motor::Today today;
  today.winder_ratio = setup_.winder_ratio.value_or(1);
  return Answer{.summary = motor::summary_lines(found->record, today, setup_.units)};
}

BenchDialogue::Answer BenchDialogue::list() {
  std::string out;
  for (const MotorId& id : setup_.motors) {
    const auto record = ledger_.read(id);
    if (!record) {
      continue;
    }
    const motor::Now now = motor::now_of(*record);
    const auto want = motor::next_want(*record, now);
    const std::string lacks = want                                 ? motor::short_question(*want)
                              : now.state == motor::State::retired ? "retired"
                                                                   : "nothing is missing";
    out += fmt::format("{}{}: {}", out.empty() ? "" : "\n", motor::bench_name(*record), lacks);
  }
  return {.text = out};
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
    return {.said = {error("bench-check", "expected what the check weight reads",
                           "check 1.001 for a 1 g weight, or check 5 g 5.002 g")}};
  }
  check_note_ = fmt::format("check weight {} read {}", exact(*nominal), exact(*reading));
  const Mass off = *reading - *nominal;
  const bool wrong = std::fabs(off.in_si()) > setup_.scale_error.in_si() * (1 + 1e-9);
  return {.text = fmt::format(
              "check weight: {} mg off{}", rounded(off.in_mg(), 3),
              wrong ? fmt::format(", more than the scale's {} mg: set it right "
                                  "before you weigh",
                                  rounded(setup_.scale_error.in_mg(), 3))
                    : ", as good as the plan says" + narrowed_words(setup_, *nominal, *reading))};
}

}  // namespace loopledger::commands
