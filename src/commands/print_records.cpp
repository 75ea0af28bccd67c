// SPDX-License-Identifier: MIT
#include "commands/print_records.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string>

#include "base/text.h"
#include "records/differences.h"
#include "tag/id.h"

namespace loopledger::commands {
namespace {

/// The first few; a motor with another mass differs in a dozen figures that follow from it.
std::string first_few(const std::vector<std::string>& parts) {
  constexpr std::size_t kNamed = 3;
  std::string out;
  for (std::size_t i = 0; i < parts.size() && i < kNamed; ++i) {
    out += (out.empty() ? "" : "; ") + parts[i];
  }
  return parts.size() > kNamed ? fmt::format("{}; and {} more", out, parts.size() - kNamed) : out;
}

/// 'the plan says owner "Eva", the record "Ava"'; empty when they say the same.
std::string renamed_words(const records::Planned& record, const records::Planned& now) {
  std::string words;
  const auto compare = [&words](const char* what, const std::string& was, const std::string& is) {
    if (is != was) {
      words +=
          fmt::format("{}the plan says {} \"{}\", the record \"{}\"", words.empty() ? "" : "; ",
                      what, printable(shortened(is, 30)), printable(shortened(was, 30)));
    }
  };
  compare("owner", record.owner, now.owner);
  compare("for", record.purpose, now.purpose);
  return words;
}

using Renamed = std::map<std::string, std::vector<MotorId>>;  ///< by renamed_words

Diagnostics told_renamed(const Renamed& renamed) {
  Diagnostics said;
  for (const auto& [words, ids] : renamed) {
    said.push_back(warning(
        "print-renamed", fmt::format("{}: {}", named(ids), words),
        "a record keeps what it was opened with, and so do `show`, `list` and later labels"));
  }
  return said;
}

/// A night's motors are not printed for a record that can't be written to.
void refuse_links(Diagnostics& problems) {
  for (Diagnostic& d : problems) {
    if (d.code == "disk-link") {
      d.severity = Severity::error;
      d.hint =
          "put the file itself there in its place, or name the ledger that holds it: --records";
    }
  }
}

}  // namespace

Result<RecordWork> compare_with_ledger(calc::Batch& batch, const plan::Plan& plan,
                                       records::Ledger& ledger, bool alone) {
  auto held = ledger.holding();
  if (!held) {
    return held.diagnostics();
  }
  Diagnostics problems = held->passed_over;
  RecordWork work;
  std::map<std::size_t, std::vector<MotorId>> differing;  // by group
  std::map<std::size_t, std::string> how;
  Renamed renamed;
  for (calc::MotorFigures& motor : batch.motors) {
    if (!motor.cut) {
      continue;
    }
    if (!std::ranges::binary_search(held->ids, motor.id)) {
      work.to_open.push_back({motor.id, tag::check_character(motor.id), motor.planned});
      continue;
    }
    auto record = ledger.read(motor.id);
    append(problems, record.diagnostics());
    refuse_links(problems);
    if (!record) {
      continue;
    }
    ++work.kept;
    if (std::string words = renamed_words(record->planned, motor.planned); !words.empty()) {
      renamed[std::move(words)].push_back(motor.id);
    }
    const auto differences = records::differences(record->planned, motor.planned);
    if (!differences.empty()) {
      differing[motor.group].push_back(motor.id);
      how.try_emplace(motor.group, first_few(differences));
    } else {
      work.again.take(motor, *record);
    }
  }
  append(problems, told_renamed(renamed));
  append(problems, work.again.told());
  for (const auto& [group, ids] : differing) {
    const auto free = ledger.next_free(ids.front().stem);
    problems.push_back(
        error("print-differs",
              fmt::format("{} {} with other figures: {}", named(ids),
                          ids.size() == 1 ? "has a record" : "have records", how[group]),
              free ? fmt::format("an id is never given twice; the next free one is {}: first = {}",
                                 printed(*free), free->number)
                   : std::string{},
              plan.motors[group].place));
    if (alone) {
      problems.push_back(note(
          "print-alone", "with --only these are planned by themselves, maybe from other pieces",
          fmt::format("`loopledger label {}` prints a label as the record has it",
                      printed(ids.front()))));
    }
  }
  if (has_errors(problems)) {
    return problems;
  }
  return {std::move(work), std::move(problems)};
}

}  // namespace loopledger::commands
