// SPDX-License-Identifier: MIT
#include "commands/list.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <utility>
#include <variant>

#include "base/text.h"
#include "commands/exit_code.h"
#include "commands/find_record.h"
#include "commands/outcome.h"
#include "motor/state.h"
#include "records/ledger.h"

namespace loopledger::commands {
namespace {

/// What a column sorts by; numbers that are not known come last either way.
using SortKey = std::variant<double, std::string>;

template <class Q>
SortKey known_or_last(const std::optional<Q>& q, double sign) {
  return q ? SortKey(sign * q->in_si()) : SortKey(HUGE_VAL);
}

struct SortColumn {
  const char* name;
  SortKey (*key)(const MotorRow&);
};

constexpr std::array<SortColumn, 11> kSortColumns{
    {{"id",
      [](const MotorRow& r) { return SortKey(fmt::format("{}{:08}", r.id.stem, r.id.number)); }},
     {"owner", [](const MotorRow& r) { return SortKey(lower_ascii(r.owner)); }},
     {"for", [](const MotorRow& r) { return SortKey(lower_ascii(r.purpose)); }},
     {"rule", [](const MotorRow& r) { return SortKey(lower_ascii(r.rule)); }},
     {"lot", [](const MotorRow& r) { return SortKey(lower_ascii(r.lot)); }},
     {"state", [](const MotorRow& r) { return SortKey(static_cast<double>(r.state)); }},
     {"washed", [](const MotorRow& r) { return known_or_last(r.washed, 1); }},
     {"loop", [](const MotorRow& r) { return SortKey(r.loop.in_si()); }},
     {"turns",
      [](const MotorRow& r) {
        return r.best ? SortKey(-r.best->turns.count()) : SortKey(HUGE_VAL);
      }},
     {"torque",
      [](const MotorRow& r) { return known_or_last(r.best ? r.best->torque : std::nullopt, -1); }},
     {"date", [](const MotorRow& r) { return SortKey(r.last); }}}};

/// @pre request.sort is one of list_columns()
void sort_rows(std::vector<MotorRow>& rows, const ListRequest& request) {
  const SortColumn& column = *std::ranges::find(kSortColumns, request.sort, &SortColumn::name);
  const bool down = (request.sort == "date") != request.reverse;
  std::ranges::stable_sort(rows, [&](const MotorRow& a, const MotorRow& b) {
    const SortKey ka = column.key(a);
    const SortKey kb = column.key(b);
    const bool a_known = ka != SortKey(HUGE_VAL);
    const bool b_known = kb != SortKey(HUGE_VAL);
    return a_known != b_known ? a_known : down ? kb < ka : ka < kb;
  });
}

Diagnostic unknown_word(const char* option, const std::vector<std::string>& words,
                        const std::string& found) {
  const std::vector<std::string_view> views(words.begin(), words.end());
  return usage_error("value",
                     fmt::format("{}: expected {}, found \"{}\"", option, either(views),
                                 printable(shortened(found, 40))),
                     {});
}

Diagnostics unknown_words(const ListRequest& request) {
  Diagnostics said;
  const std::vector<std::string> states = list_states();
  const std::vector<std::string> columns = list_columns();
  if (!request.state.empty() && std::ranges::count(states, request.state) == 0) {
    said.push_back(unknown_word("--state", states, request.state));
  }
  if (std::ranges::count(columns, request.sort) == 0) {
    said.push_back(unknown_word("--sort", columns, request.sort));
  }
  return said;
}

/// Why there are no rows; nothing where the list itself says so.
Diagnostics why_none(const ListRequest& request, const std::string& folder,
                     const std::vector<MotorId>& held, World& world) {
  if (held.empty() && !world.files.is_there(folder)) {
    return {error("none-record", fmt::format("no records are in {}", printable(folder)),
                  "--records names the folder; `loopledger print` opens records")};
  }
  if (request.only.text().empty()) {
    return {};
  }
  const auto any = [](const MotorRow&) { return true; };
  return request.only.none_has(read_motors(world, folder, held, any).rows);
}

}  // namespace

std::vector<std::string> list_states() {
  using motor::State;
  std::vector<std::string> words;
  for (const State state :
       {State::planned, State::tied, State::broken_in, State::flown, State::retired}) {
    words.emplace_back(word(state));
  }
  return words;
}

std::vector<std::string> list_columns() {
  std::vector<std::string> names;
  names.reserve(std::size(kSortColumns));
  for (const SortColumn& column : kSortColumns) {
    names.emplace_back(column.name);
  }
  return names;
}

ListAnswer list(const ListRequest& request, World& world) {
  ListAnswer answer;
  answer.said = unknown_words(request);
  if (!answer.said.empty()) {
    return answer;
  }
  const std::string folder = records_folder(request.records, {}, world);
  const auto state = motor::state_from(request.state);
  auto read = read_ledger(world, folder, [&](const MotorRow& row) {
    return request.only.takes(row) && (!state || *state == row.state) &&
           (!request.stale || row.stale);
  });
  answer.said = read.diagnostics();
  if (!read) {
    return answer;
  }
  if (read->rows.empty()) {
    append(answer.said, why_none(request, folder, read->ids, world));
    if (exit_code_of(answer.said) == kDone) {
      answer.none = fmt::format("{} in {}", read->ids.empty() ? "No records" : "No such motors",
                                printable(folder));
    }
  }
  sort_rows(read->rows, request);
  answer.motors = std::move(read->rows);
  return answer;
}

}  // namespace loopledger::commands
