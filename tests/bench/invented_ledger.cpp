// SPDX-License-Identifier: MIT
#include "bench/invented_ledger.h"

#include <fmt/format.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>

#include "calc/work_out.h"
#include "motor/motor_label.h"
#include "motor/now.h"
#include "records/fields.h"
#include "records/write.h"
#include "support/plan_text.h"
#include "tag/id.h"

namespace loopledger::bench {
namespace {

using records::Entry;
using records::Kind;

constexpr int kBatch = 24;

MotorId id_of(int index) {
  const int batch = index / kBatch;
  std::string stem = "M";
  for (int place : {676, 26, 1}) {
    stem += static_cast<char>('A' + batch / place % 26);
  }
  return {stem, 1 + index % kBatch};
}

template <class T>
T good(Result<T> result) {
  if (!result) {
    std::fputs(render(result.diagnostics()).c_str(), stderr);
    std::exit(1);
  }
  return std::move(result).value();
}

records::Planned planned_of(int batch) {
  const std::string plan = fmt::format(
      R"(format = 1
title = "Invented night {0}"
date = 2026-02-05
bench = {{ scale_step = "1 mg", scale_error = "2 mg", winder_ratio = 15 }}
rules.club = {{ limit = "1.5 g", counts = ["rubber", "lubricant"] }}
strips.amber = {{ lot = "Amber {1}", width = "2.4 mm", samples = [["500 mm", "1.2{2:02} g"], ["750 mm", "1.8{2:02} g"], ["1000 mm", "2.4{2:02} g"]], talc = "0.9 % ± 0.3 %" }}
rings.tube = {{ weighed = 12, mass = "84 mg", spread = "0.4 mg" }}
lubricants.soap = {{ uptake = "1.3 % ± 0.4 %", left = "0.6 % ± 0.2 %" }}
recipes.evening = {{ steps = [{{ stretch = 4.5, hold = "6 min", rest = "10 min" }}, {{ turns = "50 %", torque = "60 %", hold = "2 min" }}, {{ turns = "70 %", torque = "75 %", hold = "2 min", repeat = 2 }}] }}
[[motors]]
id = "{3}"
for = "Lantern 46"
owner = "Owner {4}"
rings = "tube"
lubricant = "soap"
recipe = "evening"
mass = "limit"
hooks = "265 mm"
)",
      batch, batch / 5, batch % 100, id_of(batch * kBatch).stem, batch % 40);
  return good(calc::work_out(good(test::read(plan)))).motors.at(0).planned;
}

Entry entry(Kind kind, int index, int hours) {
  Entry made;
  made.kind = kind;
  made.key = records::make_key({1770000000 + 3600LL * (hours + index / kBatch)},
                               fmt::format("{:02}{:02}", index % 100, hours % 100));
  return made;
}

std::vector<Entry> life_of(int index, const records::Planned& planned) {
  const double little = index % 11;
  Entry weighed = entry(Kind::weighed, index, 1);
  weighed.stage = Stage::washed;
  weighed.reading = planned.aim + Mass::mg(little - 5);
  Entry tied = entry(Kind::tied, index, 2);
  tied.loop = planned.loop + Length::mm(little - 5);
  tied.reading = *weighed.reading + planned.rings.value;
  std::vector<Entry> life{weighed, tied};
  for (int step = 1; step <= 4; ++step) {
    Entry broken_in = entry(Kind::break_in, index, 3 + step);
    broken_in.step = step;
    if (step > 1) {
      broken_in.turns = Turns::of(std::round(planned.wind_to.count() * (0.5 + 0.1 * step)));
      broken_in.torque = Torque::gf_cm(20 + little);
    }
    life.push_back(broken_in);
  }
  for (int winding = 0; winding < 2; ++winding) {
    Entry wound = entry(Kind::wound, index, 100 + 24 * winding);
    wound.turns = Turns::of(std::round(planned.wind_to.count() * (0.9 + 0.02 * winding)));
    wound.torque = Torque::gf_cm(38 + little);
    wound.end = WindEnd::stopped;
    wound.temperature = Temperature::deg_c(19);
    life.push_back(wound);
  }
  return life;
}

/// That the bag's label was printed as things then stood.
Entry labelled(const records::Record& record, int index) {
  Entry made = entry(Kind::labelled, index, 200);
  made.tag = motor::label_tag(record, motor::now_of(record));
  return made;
}

}  // namespace

void write_ledger(const std::string& folder, int count) {
  records::Planned planned;
  for (int i = 0; i < count; ++i) {
    if (i % kBatch == 0) {
      planned = planned_of(i / kBatch);
    }
    records::Record record;
    record.id = id_of(i);
    record.planned = planned;
    record.entries = life_of(i, planned);
    record.check = tag::check_character(record.id);
    if (i % 2 == 0) {
      record.entries.push_back(labelled(record, i));
    }
    std::ofstream file(fmt::format("{}/{}.toml", folder, printed(record.id)), std::ios::binary);
    file << records::new_record_text({record.id, record.check, planned});
    for (const Entry& one : record.entries) {
      file << good(records::entry_line(one));
    }
  }
}

std::string id_in_ledger(int index) { return tag::with_check(id_of(index)); }

}  // namespace loopledger::bench
