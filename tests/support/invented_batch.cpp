// SPDX-License-Identifier: MIT
#include "support/invented_batch.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "plan/read_label_layout.h"
#include "plan/read_stock.h"

namespace loopledger::test {
namespace {

struct Owner {
  const char* stem;
  const char* name;
  const char* purpose;
};

constexpr std::array kOwners{
    Owner{"TH", "Anna", "Quay cup, first round"},
    Owner{"ZL", "Żaneta Źdźbłowicz-Łączyńska", "Mistrzostwa latarni morskiej, runda druga"},
    Owner{"RZ", "Řehoř Žluťoučký-Křepelka", "Přístavní pohár"},
    Owner{"PS", "Ευανθία Ψαροκαπνίδου", "Αγώνας του φάρου"},
    Owner{"SH", "Щавель Ёжиков-Журавлёв", "Кубок маяка, второй тур"},
};

constexpr double kGramPerMetre = 2.42;

void fill_shelf(plan::Plan& plan) {
  plan.file = "plan.toml";
  plan.title = "Harbour evening (invented)";
  plan.date = {.value = {2026, 1, 31}, .place = {}, .given = true};
  plan.bench.scale_step = {.value = Mass::mg(1), .place = {}, .given = true};
  plan.bench.scale_error = {.value = Mass::mg(1), .place = {}};
  plan.bench.winder_ratio = {.value = 10, .place = {}, .given = true};

  plan::Rule rule;
  rule.name = "quay";
  rule.limit = {.value = Mass::g(1.5), .place = {}, .given = true};
  rule.counts = {.value = {.lubricant = true}, .place = {}, .given = true};
  plan.rules.push_back(rule);

  plan::Strip strip;
  strip.name = "amber";
  strip.lot = "amber 3/25";
  strip.width = {.value = Length::in(3.0 / 32), .place = {}, .given = true};
  strip.thickness = {.value = Length::mm(1.05), .place = {}, .given = true};
  strip.samples = {{Length::mm(500), Mass::g(1.214), {}}, {Length::mm(800), Mass::g(1.940), {}}};
  strip.talc = {.value = {Share::percent(0.8), Share::percent(0.3)}, .place = {}, .given = true};
  plan.strips.push_back(strip);

  plan::Rings rings;
  rings.name = "pearl";
  rings.weighed = {.value = 10, .place = {}, .given = true};
  rings.mass = {.value = Mass::mg(60), .place = {}, .given = true};
  plan.rings.push_back(rings);
  plan::Lubricant oil;
  oil.name = "clear oil";
  oil.uptake = {.value = {Share::percent(1.2), Share::percent(0.4)}, .place = {}, .given = true};
  oil.left = oil.uptake;
  oil.left.given = false;
  plan.lubricants.push_back(oil);
  plan::Adhesive dot;
  dot.name = "knot dot";
  dot.mass = {.value = {Mass::mg(1), Mass::mg(0.5)}, .place = {}, .given = true};
  plan.adhesives.push_back(dot);
  plan::Recipe recipe;
  recipe.name = "two evenings";
  recipe.steps.resize(2);
  plan.recipes.push_back(recipe);
}

plan::MotorGroup group_for(const Owner& owner, int count, int round) {
  plan::MotorGroup group;
  group.stem = {.value = owner.stem, .place = {}, .given = true};
  group.count = {.value = count, .place = {}, .given = true};
  group.first = {.value = 1, .place = {}, .given = round > 0};
  group.purpose = owner.purpose;
  group.owner = owner.name;
  group.rule = 0;
  group.rings = 0;
  group.lubricant = 0;
  group.adhesive = 0;
  group.recipe = 0;
  group.mass_is_limit = true;
  group.window = {.value = Mass::mg(3), .place = {}};
  return group;
}

void fill_windows(records::Planned& p, double low_g) {
  const double added = 0.013;
  p.windows.of(Stage::as_cut) = {.low = Mass::g(low_g + 0.021), .high = {}, .guard = {}};
  p.windows.about = Mass::g(low_g + 0.040);
  p.windows.of(Stage::washed) = {Mass::g(low_g), Mass::g(low_g + 0.003), Mass::mg(11.2)};
  p.windows.of(Stage::tied) = {Mass::g(low_g + added), Mass::g(low_g + added + 0.003),
                               Mass::mg(11.2)};
  p.windows.of(Stage::finished) = {Mass::g(low_g + added + 0.018), Mass::g(low_g + added + 0.021),
                                   Mass::mg(2.9)};
}

records::Planned planned_for(const plan::Plan& plan, const plan::MotorGroup& group) {
  records::Planned p;
  p.title = plan.title;
  p.date = plan.date.value;
  p.purpose = group.purpose;
  p.owner = group.owner;
  p.strip = plan.strips[0].name;
  p.lot = plan.strips[0].lot;
  p.width = plan.strips[0].width.value;
  p.linear_density = {LinearDensity::g_per_m(kGramPerMetre), LinearDensity::g_per_m(0.004)};
  p.density = plan.strips[0].density.value;
  p.section = 2.0 * (p.linear_density.value / p.density);
  p.knot = Length::mm(16);
  p.allowance = Length::mm(10);
  p.talc = plan.strips[0].talc.value;
  p.ring = "pearl";
  p.ring_count = 2;
  p.rings = {Mass::mg(12), Mass::mg(0.4)};
  p.lubricant = "clear oil";
  p.uptake = plan.lubricants[0].uptake.value;
  p.left = p.uptake;
  p.adhesive = "knot dot";
  p.adhesive_mass = plan.adhesives[0].mass.value;
  p.rule = records::PlannedRule{.name = "quay",
                                .limit = Mass::g(1.5),
                                .counts = plan.rules[0].counts.value,
                                .weighed = Weighed::fresh,
                                .official_error = Mass::mg(0)};
  p.scale_step = Mass::mg(1);
  p.scale_error = Mass::mg(1);
  p.ruler_step = Length::mm(1);
  p.confidence = Share::percent(95);
  p.aim_is_limit = true;
  p.aim = Mass::g(1.4695);
  p.window = Mass::mg(3);
  fill_windows(p, 1.468);
  p.stays = p.aim / p.linear_density.value;
  p.cut = p.stays + p.allowance;
  p.cut_u = p.stays * (0.004 / kGramPerMetre);
  p.loop = (p.stays - p.knot) / 2;
  p.hooks = Length::mm(260);
  p.turns_factor = 11;
  p.turns_factor_u = 0.08;
  p.torque_factor = Pressure::mpa(0.6);
  p.torque_factor_u = 0.25;
  const double turns = 11 * (p.loop / sqrt(p.section));
  p.turns_max = {Turns::of(turns), Turns::of(turns * 0.855), Turns::of(turns * 1.17)};
  p.wind_to = Turns::of(0.8 * turns);
  p.torque_max = {Torque::gf_cm(72), Torque::gf_cm(44), Torque::gf_cm(118)};
  p.winder_ratio = 10;
  p.recipe = "two evenings";
  p.break_in = {{.stretch = p.loop * 5.0,
                 .turns = {},
                 .cranks = {},
                 .stop_torque = {},
                 .hold = Duration::min(5),
                 .rest = {}},
                {.stretch = {},
                 .turns = Turns::of(turns / 2),
                 .cranks = static_cast<int>(std::lround(turns / 20)),
                 .stop_torque = Torque::gf_cm(54),
                 .hold = Duration::min(2),
                 .rest = Duration::h(1),
                 .repeat = 2,
                 .note = "slowly, and stop where it stiffens; 1 of the group counts aloud"}};
  return p;
}

/// Seven motors from each piece of 4.7 m.
void cut_up(plan::Plan& plan, calc::Batch& batch) {
  constexpr std::size_t kPerPiece = 7;
  batch.cutting.made = true;
  batch.cutting.proven = true;
  plan.strips[0].ends = {.value = Length::mm(5), .place = {}, .given = true};
  for (std::size_t first = 0; first < batch.motors.size(); first += kPerPiece) {
    calc::PieceCuts cuts;
    cuts.piece = plan.strips[0].pieces.size();
    const std::string tag(1, static_cast<char>('a' + cuts.piece % 26));
    cuts.length = Length::m(cuts.piece % 2 == 0 ? 4.7 : 4.36);
    plan.strips[0].pieces.push_back({.tag = tag, .length = cuts.length, .mass = {}, .place = {}});
    cuts.ends = Length::mm(5);
    cuts.left = cuts.length - cuts.ends;
    for (std::size_t i = first; i < std::min(first + kPerPiece, batch.motors.size()); ++i) {
      cuts.motors.push_back(i);
      cuts.left -= batch.motors[i].planned.cut;
      batch.motors[i].planned.piece = tag;
    }
    cuts.scrap = cuts.left < Length::mm(250);
    batch.cutting.pieces.push_back(cuts);
  }
}

}  // namespace

InventedBatch invented_batch(int motors) {
  InventedBatch made;
  fill_shelf(made.plan);
  const int per_group = std::max(1, (motors + 4) / static_cast<int>(kOwners.size()));
  for (int done = 0; done < motors;) {
    const std::size_t index = made.plan.motors.size();
    const int count = std::min(per_group, motors - done);
    made.plan.motors.push_back(group_for(kOwners[index % kOwners.size()], count,
                                         static_cast<int>(index / kOwners.size())));
    const records::Planned planned = planned_for(made.plan, made.plan.motors.back());
    for (int i = 0; i < count; ++i) {
      calc::MotorFigures motor;
      motor.id = {made.plan.motors.back().stem.value, 1 + i};
      motor.group = index;
      motor.planned = planned;
      motor.energy = {Energy::joule(6.1), Energy::joule(3.6), Energy::joule(10.3)};
      made.batch.motors.push_back(std::move(motor));
    }
    done += count;
  }
  cut_up(made.plan, made.batch);
  return made;
}

plan::Stock stock(const std::string& name) {
  const std::string path = std::string(LOOPLEDGER_SOURCE_DIR "/templates/stock/") + name + ".toml";
  std::ifstream file(path, std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  const Result<plan::Stock> read = plan::read_stock(text, path, name);
  return read.ok() ? read.value() : plan::Stock{};
}

std::vector<plan::Stock> label_stocks() {
  std::vector<std::string> names;
  for (const auto& file :
       std::filesystem::directory_iterator(LOOPLEDGER_SOURCE_DIR "/templates/stock")) {
    names.push_back(file.path().stem().string());
  }
  std::sort(names.begin(), names.end());
  std::vector<plan::Stock> stocks;
  for (const std::string& name : names) {
    stocks.push_back(stock(name));
  }
  return stocks;
}

plan::LabelLayout layout(const std::string& name) {
  const std::string path =
      std::string(LOOPLEDGER_SOURCE_DIR "/templates/layouts/") + name + ".toml";
  std::ifstream file(path, std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  const Result<plan::LabelLayout> read = plan::read_label_layout(text, path, name);
  return read.ok() ? read.value() : plan::LabelLayout{};
}

plan::LabelLayouts layouts() { return {layout("slip"), layout("bag"), layout("remnant")}; }

}  // namespace loopledger::test
