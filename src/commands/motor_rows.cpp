// SPDX-License-Identifier: MIT
#include "commands/motor_rows.h"

#include <algorithm>
#include <future>
#include <iterator>
#include <memory>
#include <span>

#include "base/text.h"
#include "motor/advice.h"
#include "motor/motor_label.h"
#include "records/ledger.h"

namespace loopledger::commands {
namespace {

using records::Record;

MotorRow row_of(const Record& record) {
  const records::Planned& p = record.planned;
  const motor::Now now = motor::now_of(record);
  MotorRow row;
  row.id = record.id;
  row.owner = p.owner;
  row.purpose = p.purpose;
  row.rule = p.rule ? p.rule->name : std::string();
  row.strip = p.strip;
  row.lot = p.lot;
  row.scale_step = p.scale_step;
  row.state = now.state;
  row.washed = now.told_mass();
  row.loop = now.loop;
  row.loop_is = now.loop_is;
  row.best = now.best;
  row.wind_to = now.wind_to;
  row.full_winds = now.full_winds;
  row.last = now.last ? iso(*now.last) : std::string();
  row.mark = motor::mark_words(now);
  row.torn = record.torn;
  row.planned_edited = record.planned_edited;
  row.stale = motor::label_is_stale(record, now);
  return row;
}

/// Reads records; those that can't be read are named and passed over.
MotorRows read_some(records::Disk& disk, const std::string& folder, std::span<const MotorId> ids,
                    const std::function<bool(const MotorRow&)>& wanted) {
  records::Ledger ledger(disk, folder);
  MotorRows reading;
  for (const MotorId& id : ids) {
    auto record = ledger.read(id);
    for (Diagnostic d : record.diagnostics()) {
      d.severity = std::min(d.severity, Severity::warning);
      reading.problems.push_back(std::move(d));
    }
    if (!record) {
      continue;
    }
    if (MotorRow row = row_of(*record); wanted(row)) {
      reading.rows.push_back(std::move(row));
    }
  }
  return reading;
}

}  // namespace

bool is_of_lot(const std::string& lot, const std::string& strip, const std::string& asked) {
  return lower_ascii(trimmed(lot_name(lot, strip))) == lower_ascii(trimmed(asked));
}

MotorRows read_motors(World& world, const std::string& folder, const std::vector<MotorId>& ids,
                      const std::function<bool(const MotorRow&)>& wanted) {
  constexpr std::size_t kWorthAThread = 500;
  const std::unique_ptr<Progress> progress = world.watched("reading records", ids.size());
  const auto seen = [&](const MotorRow& row) {
    progress->step();
    return wanted(row);
  };
  const std::size_t threads =
      std::clamp<std::size_t>(ids.size() / kWorthAThread, 1, std::max(1U, world.threads));
  std::vector<std::future<MotorRows>> parts;
  for (std::size_t t = 0; t < threads; ++t) {
    const std::size_t from = ids.size() * t / threads;
    const std::size_t to = ids.size() * (t + 1) / threads;
    parts.push_back(
        std::async(threads > 1 ? std::launch::async : std::launch::deferred, [&, from, to] {
          return read_some(world.disk, folder, std::span(ids).subspan(from, to - from), seen);
        }));
  }
  MotorRows all;
  for (std::future<MotorRows>& part : parts) {
    MotorRows one = part.get();
    std::ranges::move(one.rows, std::back_inserter(all.rows));
    append(all.problems, one.problems);
  }
  return all;
}

Result<LedgerRows> read_ledger(World& world, const std::string& folder,
                               const std::function<bool(const MotorRow&)>& wanted) {
  auto held = records::Ledger(world.disk, folder).holding();
  if (!held) {
    return held.diagnostics();
  }
  MotorRows read = read_motors(world, folder, held->ids, wanted);
  Diagnostics said = std::move(held->passed_over);
  append(said, read.problems);
  return {LedgerRows{std::move(held->ids), std::move(read.rows)}, std::move(said)};
}

}  // namespace loopledger::commands
