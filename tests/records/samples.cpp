// SPDX-License-Identifier: MIT
#include "samples.h"

#include <doctest/doctest.h>

#include "records/fields.h"
#include "records/write.h"

namespace loopledger::test {

using records::Entry;
using records::Kind;
using records::Planned;

Planned small_planned() {
  Planned p;
  p.strip = "supple 1/8";
  p.strands = 2;
  p.linear_density = {LinearDensity::g_per_m(2.4263), LinearDensity::g_per_m(0.0042)};
  p.density = Density::g_per_cm3(0.93);
  p.section = Area::mm2(5.2178);
  p.knot = Length::mm(16);
  p.allowance = Length::mm(10);
  p.scale_step = Mass::mg(1);
  p.scale_error = Mass::mg(1);
  p.ruler_step = Length::mm(1);
  p.confidence = Share::percent(95);
  p.aim = Mass::g(1.4935);
  p.window = Mass::mg(3);
  p.windows.of(Stage::washed) = {Mass::g(1.492), Mass::g(1.495), Mass::mg(1.21)};
  p.stays = Length::mm(615.54);
  p.cut = Length::mm(625.54);
  p.cut_u = Length::mm(1.07);
  p.loop = Length::mm(299.77);
  p.turns_factor = 11;
  p.turns_factor_u = 0.08;
  p.torque_factor = Pressure::mpa(0.6);
  p.torque_factor_u = 0.25;
  p.turns_max = {Turns::of(1443.6), Turns::of(1234.1), Turns::of(1688.7)};
  p.wind_to = Turns::of(1154.9);
  p.torque_max = {Torque::gf_cm(72.9), Torque::gf_cm(44.6), Torque::gf_cm(119)};
  p.winder_ratio = 1;
  return p;
}

Planned full_planned() {
  Planned p = small_planned();
  p.title = "Club night, \"Thursday\" \\ żółw";
  p.date = Date{2026, 1, 31};
  p.purpose = "Heron";
  p.owner = "ANNA";
  p.lot = "May";
  p.piece = "a";
  p.width = Length::in(3.0 / 32);
  p.slit = true;
  p.tails = Length::mm(20);
  p.talc = {Share::percent(0.8), Share::percent(0.3)};
  p.ring = "small";
  p.ring_count = 2;
  p.rings = {Mass::mg(12), Mass::mg(0.43)};
  p.lubricant = "silicone";
  p.uptake = {Share::percent(1.2), Share::percent(0.4)};
  p.left = {Share::percent(0.5), Share::percent(0.2)};
  p.adhesive = "dot";
  p.adhesive_mass = {Mass::mg(1), Mass::mg(0.5)};
  p.rule =
      records::PlannedRule{"hall",
                           Mass::g(1.5),
                           {.rubber = true, .lubricant = true, .rings = false, .adhesive = true},
                           Weighed::rested,
                           Mass::mg(2)};
  p.aim_is_limit = true;
  p.loop_given = true;
  p.windows.of(Stage::as_cut).low = Mass::g(1.521);
  p.windows.about = Mass::g(1.53);
  p.windows.of(Stage::tied) = {Mass::g(1.505), Mass::g(1.508), Mass::mg(1.3)};
  p.windows.of(Stage::finished) = {Mass::g(1.523), Mass::g(1.526), Mass::mg(2.5)};
  p.hooks = Length::mm(260);
  p.part = 0.5;
  p.spacer = Length::mm(130);
  p.ballast = Mass::g(0.75);
  p.turns_factor_fitted = true;
  p.torque_factor_given = true;
  p.winder_ratio = 10;
  p.recipe = "gentle";
  records::BreakInStep stretch;
  stretch.stretch = Length::mm(1500);
  stretch.hold = Duration::min(5);
  records::BreakInStep wind;
  wind.turns = Turns::of(721.8);
  wind.cranks = 72;
  wind.stop_torque = Torque::gf_cm(54.7);
  wind.hold = Duration::min(2);
  wind.rest = Duration::h(1);
  wind.repeat = 2;
  p.break_in = {stretch, wind};
  return p;
}

Entry entry_of(const std::string& key, Kind kind,
               const std::vector<std::pair<std::string, std::string>>& fields) {
  Entry entry;
  entry.key = key;
  entry.kind = kind;
  for (const auto& given : fields) {
    const std::string& name = given.first;  // clang 14 captures no structured bindings
    const std::string& text = given.second;
    const records::Field* const field = records::find_field(kind, name);
    REQUIRE_MESSAGE(field != nullptr, name);
    REQUIRE_MESSAGE(records::set_field(entry, *field, text).empty(), name << " " << text);
  }
  return entry;
}

std::vector<Entry> one_of_each() {
  return {
      entry_of("20260131T190000Z-aaaa", Kind::planned, {{"note", "first sheet"}}),
      entry_of("20260201T190100Z-aaab", Kind::weighed,
               {{"stage", "washed"}, {"reading", "1.494 g"}}),
      entry_of("20260201T190200Z-aaac", Kind::tied,
               {{"loop", "11 13/16 in"}, {"reading", "1507 mg"}}),
      entry_of("20260202T190300Z-aaad", Kind::break_in,
               {{"step", "1"},
                {"turns", "720"},
                {"torque", "0.75 ozf.in"},
                {"loop_before", "300 mm"},
                {"loop_after", "309 mm"},
                {"temperature", "68 degF"}}),
      entry_of("20260501T100000Z-b7k2", Kind::wound,
               {{"turns", "1200"},
                {"torque", "41 gf.cm"},
                {"pairs", "1000: 30 gf.cm, 1200: 41 gf.cm"},
                {"end", "stopped"},
                {"backed_off_to", "1100"},
                {"temperature", "21.5 degC"},
                {"note", "smooth, \"no\" bunching #1"}}),
      entry_of("20260501T101000Z-b7k3", Kind::broke,
               {{"turns", "1310.5"}, {"torque", "44 gf.cm"}, {"where", "knot"}}),
      entry_of("20260501T102000Z-b7k4", Kind::flown,
               {{"time", "7:31"}, {"turns_left", "210"}, {"temperature", "20 °C"}}),
      entry_of("20260501T103000Z-b7k5", Kind::labelled, {{"tag", "TH-01-T 1180T 44GFCM"}}),
      entry_of("20260501T104000Z-b7k6", Kind::piece, {{"tag", "a"}}),
      entry_of("20260501T105000Z-b7k7", Kind::note,
               {{"text", "żółw, \", sum = \", \t end\\"}, {"corrects", "20260131T190000Z-aaaa"}}),
      entry_of("20260501T110000Z-b7k8", Kind::retired, {{"why", "perished"}}),
  };
}

std::string sample_text() {
  std::string text = records::new_record_text({{"TH", 1}, 'T', full_planned()});
  for (const Entry& entry : one_of_each()) {
    const auto line = records::entry_line(entry);
    REQUIRE(line);
    text += *line;
  }
  return text;
}

}  // namespace loopledger::test
