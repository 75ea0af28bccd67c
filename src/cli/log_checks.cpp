// SPDX-License-Identifier: MIT
#include "cli/log_checks.h"

#include <fmt/format.h>

#include <cstdlib>
#include <utility>

#include "cli/doubt.h"
#include "records/fields.h"
#include "records/state.h"
#include "records/write.h"

namespace loopledger::cli {
namespace {

using records::Entry;
using records::Kind;
using records::Record;

bool counts(Kind kind) {
  return kind == Kind::tied || kind == Kind::wound || kind == Kind::broke || kind == Kind::flown;
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
  if (entry.kind == Kind::tied && records::state_of(record.entries) == records::State::retired) {
    return nullptr;  // a new knot, a new motor
  }
  for (const Entry* const e : records::this_life(record.entries)) {
    Entry known = *e;
    known.corrects.clear();  // what it replaced is not what it says
    if (records::says_the_same(std::move(known), entry) &&
        (!at || is_soon(records::moment_of_key(e->key), *at))) {
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
