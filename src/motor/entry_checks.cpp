// SPDX-License-Identifier: MIT
#include "motor/entry_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <utility>
#include <vector>

#include "base/text.h"
#include "motor/now.h"
#include "records/fields.h"
#include "records/write.h"

namespace loopledger::motor {
namespace {

using records::Entry;
using records::Kind;
using records::Record;

bool counts(Kind kind) {
  return kind == Kind::tied || kind == Kind::wound || kind == Kind::broke || kind == Kind::flown;
}

bool is_near_to(const std::optional<Moment>& a, const Moment& b) {
  return a && static_cast<double>(std::abs(a->seconds - b.seconds)) <= motor::kSoon.in_s();
}

}  // namespace

Diagnostics doubt_refusal(const MotorId& id, const std::vector<Doubt>& doubts) {
  Diagnostics refused;
  for (const Doubt& doubt : doubts) {
    refused.push_back(
        error("log-doubt", fmt::format("{}: {}", printed(id), statement(doubt)),
              fmt::format("{}if it is so all the same, say it with --sure",
                          doubt.type.empty() ? "" : fmt::format("type {}; ", doubt.type))));
  }
  return refused;
}

const Entry* said_before(const Record& record, const Entry& entry,
                         const std::optional<Moment>& at) {
  if (!counts(entry.kind) || !entry.corrects.empty()) {
    return nullptr;
  }
  const motor::Now now = motor::now_of(record);
  if (entry.kind == Kind::tied && now.state == motor::State::retired) {
    return nullptr;  // a new knot, a new motor
  }
  for (const motor::Standing& s : now.life().entries) {
    Entry known = *s.entry;
    known.corrects.clear();  // what it replaced is not what it says
    if (records::says_the_same(std::move(known), entry) && (!at || is_near_to(s.at, *at))) {
      return s.entry;
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

Diagnostics resolve_correction(Entry& entry, const Record& record, bool time_given) {
  if (entry.corrects.empty()) {
    return {};
  }
  if (time_given) {
    return {error("log-corrects",
                  fmt::format("{}: a correction stands at the time of what it replaces, found a "
                              "time of its own",
                              printed(record.id)),
                  "to change a time: take the entry back with a note that corrects it, and log it "
                  "anew")};
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

std::string new_key(Moment at, bool is_claimed, const Entry& entry, const Record& record,
                    const std::function<std::string()>& random_four) {
  for (const Entry& e : record.entries) {
    // A clock that went back puts nothing before what was logged, nor a correction before another.
    const bool stands_before =
        (!is_claimed && !e.edited) || (!entry.corrects.empty() && e.corrects == entry.corrects);
    if (const auto other = stands_before ? records::moment_of_key(e.key) : std::nullopt;
        other && *other > at) {
      at = *other;
    }
  }
  std::string key;
  do {
    key = records::make_key(at, random_four());
  } while (std::ranges::any_of(record.entries, [&](const Entry& e) { return e.key == key; }));
  return key;
}

}  // namespace loopledger::motor
