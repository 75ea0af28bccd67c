// SPDX-License-Identifier: MIT
#include "cli/log_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <utility>

#include "cli/doubt.h"
#include "cli/record_text.h"
#include "records/fields.h"

namespace loopledger::cli {
namespace {

using records::Entry;
using records::Kind;
using records::Record;

bool counts(Kind kind) {
  return kind == Kind::tied || kind == Kind::wound || kind == Kind::broke || kind == Kind::flown;
}

bool says_the_same(const Entry& a, const Entry& b) {
  return a.kind == b.kind && in_words(a, Units::metric) == in_words(b, Units::metric) &&
         std::ranges::equal(a.pairs, b.pairs, [](const auto& x, const auto& y) {
           return x.turns == y.turns && x.torque == y.torque;
         });
}

bool is_soon(const std::optional<Moment>& a, const Moment& b) {
  return a && static_cast<double>(std::abs(a->seconds - b.seconds)) <= kSoon.in_s();
}

}  // namespace

Diagnostics doubt_refusal(const Record& record, const Entry& entry) {
  const std::string doubt = hardly_true(record, entry);
  if (doubt.empty()) {
    return {};
  }
  return {error("log-doubt", fmt::format("{}: {}", printed(record.id), doubt),
                "if it is so all the same, say it with --sure")};
}

const Entry* said_before(const Record& record, const Entry& entry,
                         const std::optional<Moment>& at) {
  if (!counts(entry.kind) || !entry.corrects.empty()) {
    return nullptr;
  }
  for (const Entry* const e : records::standing(record.entries)) {
    if (says_the_same(*e, entry) && (!at || is_soon(records::moment_of_key(e->key), *at))) {
      return e;
    }
  }
  return nullptr;
}

Diagnostics again_warning(const Record& record, const Entry& entry,
                          const std::optional<Moment>& at) {
  const Entry* const before = said_before(record, entry, at);
  if (before == nullptr) {
    return {};
  }
  const auto when = records::moment_of_key(before->key);
  return {warning("log-again",
                  fmt::format("{}: the same as the entry{}, counted twice", printed(record.id),
                              when ? " of " + readable(*when) : std::string(" before")),
                  fmt::format("`loopledger log {} note twice corrects={}` takes it back",
                              printed(record.id), entry.key.substr(entry.key.size() - 4)))};
}

}  // namespace loopledger::cli
