// SPDX-License-Identifier: MIT
//
// The weighing against a seeded simulation: a motor left exactly at the upper end of a stage's
// window must be within its limit as often as the plan asked for. Every error is drawn anew, the
// true masses are put together from them, and what the rule counts is added up directly, without
// any of the formulas under test.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "calc/linear_density.h"
#include "calc/plan_motor.h"
#include "calc/turns_torque.h"
#include "calc/weigh.h"
#include "support/small_plan.h"

using namespace loopledger;
using test::given;

namespace {

constexpr int kMotors = 100000;
constexpr double kHalfPoint = 0.005;  // standard error of a share of 95 %: 0.0007

struct Case {
  std::string name;
  Counts counts;
  Weighed weighed = Weighed::fresh;
  Share confidence = Share::percent(95);
  Mass official_error;
  Mass step = Mass::mg(1);
  Mass error = Mass::mg(2);
  Mass ring_spread = Mass::mg(0.3);
};

/// Scales and rings whose errors are of different shapes, each at the four claims: a step that is
/// nothing beside the error, a step as large as it, and rings in more doubt than both.
std::vector<Case> shapes() {
  std::vector<Case> all;
  for (const double percent : {90.0, 95.0, 99.0, 99.9}) {
    Case c;
    c.confidence = Share::percent(percent);
    const std::string named = std::to_string(percent) + " %";
    c.name = "fine step, " + named;
    c.step = Mass::mg(0.1);
    all.push_back(c);
    c.name = "step as the error, " + named;
    c.step = c.error = Mass::mg(1);
    all.push_back(c);
    c.name = "rings rule, " + named;
    c.error = Mass::mg(0.5);
    c.ring_spread = Mass::mg(3);
    all.push_back(c);
    c.name = "the event's scale as bad as one's own, " + named;
    c.error = c.official_error = Mass::mg(2);
    c.ring_spread = Mass::mg(0.3);
    c.step = Mass::mg(0.1);
    all.push_back(c);
  }
  return all;
}

std::vector<Case> cases() {
  std::vector<Case> all;
  for (const bool rings : {false, true}) {
    for (const bool lubricant : {false, true}) {
      for (const Weighed weighed : {Weighed::fresh, Weighed::rested}) {
        Case c;
        c.counts = {.rubber = true, .lubricant = lubricant, .rings = rings, .adhesive = rings};
        c.weighed = weighed;
        c.name = std::string(rings ? "rings and adhesive counted" : "rings left out") +
                 (lubricant ? ", lubricant counted " : ", lubricant left out ") +
                 std::string(word(weighed));
        all.push_back(c);
      }
    }
  }
  Case strict = all.back();
  strict.name = "99 %, rings counted, with an error of the event's scale";
  strict.confidence = Share::percent(99);
  strict.official_error = Mass::mg(2);
  all.push_back(strict);
  Case even = all.front();
  even.name = "50 %: no guard band";
  even.confidence = Share::percent(50);
  all.push_back(even);
  return all;
}

/// 1.5 g with everything a motor can have on it, each with a generous uncertainty.
records::Planned motor_of(const Case& c) {
  plan::Plan plan = test::small_plan(test::section_strip(Length::mm(2.4), Length::mm(1.05)));
  plan.bench.scale_step = given(c.step);
  plan.bench.scale_error = given(c.error);
  plan.bench.confidence = given(c.confidence);
  plan.rings.push_back(test::ten_rings());
  plan.rings[0].spread = given(c.ring_spread);
  plan.lubricants.push_back({});
  plan.lubricants[0].uptake = given(Uncertain<Share>{Share::percent(1.2), Share::percent(0.4)});
  plan.lubricants[0].left = given(Uncertain<Share>{Share::percent(0.5), Share::percent(0.2)});
  plan.adhesives.push_back({});
  plan.adhesives[0].mass = given(Uncertain<Mass>{Mass::mg(1), Mass::mg(0.5)});
  plan.rules.push_back(test::rule(Mass::g(1.5), c.counts, c.weighed));
  plan.rules[0].official_error = given(c.official_error);
  plan::MotorGroup& group = plan.motors[0];
  group.rule = 0;
  group.rings = 0;
  group.lubricant = 0;
  group.adhesive = 0;
  group.mass_is_limit = true;
  auto motor = calc::plan_motor(plan, group, calc::linear_density(plan.strips[0], plan.bench));
  REQUIRE(motor.ok());
  return *motor;
}

/// Errors as [gum] takes them, one seed for each run.
class Draw {
 public:
  explicit Draw(unsigned seed) : engine_(seed) {}
  double operator()(double mean, double u) { return mean + u * normal_(engine_); }
  double within(double half_width) { return half_width * even_(engine_); }
  /// A reading and its zero, each to the nearest step.
  double steps(double step) { return within(step / 2) + within(step / 2); }

 private:
  std::mt19937 engine_;
  std::normal_distribution<double> normal_;
  std::uniform_real_distribution<double> even_{-1, 1};
};

/// One motor that reads exactly `reading` at the stage: its true masses, and what counts of them.
double true_counted(const records::Planned& p, Stage stage, double reading, Draw& draw) {
  // The scale's error, and what the event's own scale will say differently.
  const double scale = draw.within(p.scale_error.in_si()) + draw.steps(p.scale_step.in_si());
  const double event = draw.within(p.rule->official_error.in_si());
  const double rings = draw(p.rings.value.in_si(), p.rings.u.in_si());
  const double glue = draw(p.adhesive_mass.value.in_si(), p.adhesive_mass.u.in_si());
  const double uptake = draw(p.uptake.value.as_ratio(), p.uptake.u.as_ratio());
  const double left = draw(p.left.value.as_ratio(), p.left.u.as_ratio());

  const double on_scale = reading - scale;
  double rubber = on_scale;
  if (stage != Stage::washed) {
    rubber -= rings + glue;
  }
  if (stage == Stage::finished) {
    rubber /= 1 + uptake;
  }
  double counted = rubber + event;
  if (p.rule->counts.rings) {
    counted += rings;
  }
  if (p.rule->counts.adhesive) {
    counted += glue;
  }
  if (p.rule->counts.lubricant) {
    counted += rubber * (p.rule->weighed == Weighed::rested ? left : uptake);
  }
  return counted;
}

double share_within(const records::Planned& p, Stage stage, Mass reading, unsigned seed,
                    int motors = kMotors) {
  Draw draw(seed);
  int within = 0;
  for (int i = 0; i < motors; ++i) {
    if (true_counted(p, stage, reading.in_si(), draw) <= p.rule->limit.in_si()) {
      ++within;
    }
  }
  return static_cast<double>(within) / motors;
}

/// One motor made from strip that was cut long enough: at each stage it is weighed with an error of
/// its own beside the scale's, and trimmed until the scale shows a reading within the stage's
/// window. Whether the event then finds it within the limit. Everything true is drawn; nothing is
/// taken from the calculator but the windows that the sheet prints.
bool built_within(const records::Planned& p, Draw& draw) {
  const double scale = draw.within(p.scale_error.in_si());
  const double rings = draw(p.rings.value.in_si(), p.rings.u.in_si());
  const double glue = draw(p.adhesive_mass.value.in_si(), p.adhesive_mass.u.in_si());
  const double uptake = draw(p.uptake.value.as_ratio(), p.uptake.u.as_ratio());
  const double left = draw(p.left.value.as_ratio(), p.left.u.as_ratio());
  double rubber = draw(p.linear_density.value.in_si(), p.linear_density.u.in_si()) * p.cut.in_si();
  for (const Stage stage : {Stage::washed, Stage::tied, Stage::finished}) {
    const double oil = stage == Stage::finished ? 1 + uptake : 1;
    const double parts = stage == Stage::washed ? 0 : rings + glue;
    const double error = scale + draw.steps(p.scale_step.in_si());
    const double high = p.windows.of(stage).high->in_si();
    // Snipped only when it is over: down to the window's upper end, the worst that is allowed.
    rubber = std::min(rubber, (high - error - parts) / oil);
  }
  double counted = rubber + draw.within(p.rule->official_error.in_si());
  counted += p.rule->counts.rings ? rings : 0;
  counted += p.rule->counts.adhesive ? glue : 0;
  if (p.rule->counts.lubricant) {
    counted += rubber * (p.rule->weighed == Weighed::rested ? left : uptake);
  }
  return counted <= p.rule->limit.in_si();
}

/// The stage whose weighing decides a stage's upper end: itself, or an earlier one that knew more.
Stage deciding(const records::Planned& p, Stage stage) {
  const calc::UpperEnd end = *calc::upper_end(p, stage);
  const Mass own_guard = calc::counted(p, stage, end.reading).errors.guard(p.confidence);
  const Mass own_top = calc::counted(p, stage, end.reading).mass + own_guard;
  const bool own = std::fabs((own_top - p.rule->limit).in_mg()) < 1e-6;
  if (own || stage == Stage::washed) {
    return stage;
  }
  return deciding(p, stage == Stage::finished ? Stage::tied : Stage::washed);
}

}  // namespace

TEST_CASE("a motor at the upper end is within its limit as often as the plan asked for") {
  unsigned seed = 20260131;
  for (const Case& c : cases()) {
    CAPTURE(c.name);
    const records::Planned motor = motor_of(c);
    for (const Stage stage : {Stage::washed, Stage::tied, Stage::finished}) {
      CAPTURE(word(stage));
      const Stage by = deciding(motor, stage);
      const Mass reading = calc::upper_end(motor, by)->reading;
      const double share = share_within(motor, by, reading, ++seed);
      CHECK(std::fabs(share - c.confidence.as_ratio()) <= kHalfPoint);
    }
  }
}

TEST_CASE("the claim holds within half a point whatever the error's shape, from 90 to 99.9 %") {
  unsigned seed = 106;
  for (const Case& c : shapes()) {
    CAPTURE(c.name);
    const records::Planned motor = motor_of(c);
    for (const Stage stage : {Stage::washed, Stage::tied, Stage::finished}) {
      CAPTURE(word(stage));
      const calc::UpperEnd own = calc::own_upper_end(motor, stage);
      const double share = share_within(motor, stage, own.reading, ++seed, 2 * kMotors);
      CHECK(std::fabs(share - c.confidence.as_ratio()) <= kHalfPoint);
    }
  }
}

TEST_CASE("anywhere inside its window a motor is within its limit at least as often") {
  constexpr int kFewer = 25000;
  constexpr double kChance = 0.0045;  // three standard errors of the simulation
  unsigned seed = 777;
  for (const Case& c : cases()) {
    CAPTURE(c.name);
    const records::Planned motor = motor_of(c);
    for (const Stage stage : {Stage::washed, Stage::tied, Stage::finished}) {
      CAPTURE(word(stage));
      const records::Window& w = motor.windows.of(stage);
      const Stage by = deciding(motor, stage);
      // A stage that an earlier one decides holds only for motors that came through that one.
      const Mass since =
          calc::reading_of(motor, stage, Mass{}) - calc::reading_of(motor, by, Mass{});
      for (const double at : {0.0, 0.5, 1.0}) {
        CAPTURE(at);
        const Mass reading = *w.low + (*w.high - *w.low) * at;
        if (by == stage) {
          CHECK(share_within(motor, stage, reading, ++seed, kFewer) >=
                c.confidence.as_ratio() - kChance);
        } else if (stage == Stage::tied) {
          CHECK(share_within(motor, by, reading - since, ++seed, kFewer) >=
                c.confidence.as_ratio() - kChance);
        }
      }
    }
  }
}

TEST_CASE("the whole bench: cut, washed, trimmed into each window, tied, oiled, and the event") {
  unsigned seed = 4711;
  for (const Case& c : cases()) {
    CAPTURE(c.name);
    const records::Planned motor = motor_of(c);
    Draw draw(++seed);
    int within = 0;
    constexpr int kBuilt = 60000;
    for (int i = 0; i < kBuilt; ++i) {
      within += built_within(motor, draw) ? 1 : 0;
    }
    CHECK(static_cast<double>(within) / kBuilt >= c.confidence.as_ratio() - 0.003);
  }
}

TEST_CASE("an end that an earlier stage decides is that stage's end with what came on since") {
  // Rings left out: the washed reading knows more than the tied one, where the rings are in doubt.
  const records::Planned left_out = motor_of(cases().front());
  CHECK(deciding(left_out, Stage::tied) == Stage::washed);
  CHECK(deciding(left_out, Stage::finished) == Stage::washed);
  const Mass washed = calc::upper_end(left_out, Stage::washed)->reading;
  const calc::UpperEnd tied = *calc::upper_end(left_out, Stage::tied);
  CHECK(tied.reading.in_mg() ==
        doctest::Approx((washed + left_out.rings.value + left_out.adhesive_mass.value).in_mg()));
  CHECK(tied.guard.in_mg() ==
        doctest::Approx(calc::upper_end(left_out, Stage::washed)->guard.in_mg()));
  // Rings counted: once they are on the scale nothing about them is in doubt.
  for (const Case& c : cases()) {
    if (c.counts.rings) {
      CAPTURE(c.name);
      CHECK(deciding(motor_of(c), Stage::tied) == Stage::tied);
    }
  }
}

TEST_CASE("the probability in a judgement is the simulated share, wherever the reading lies") {
  for (const Case& c : cases()) {
    CAPTURE(c.name);
    const records::Planned motor = motor_of(c);
    for (const Stage stage : {Stage::washed, Stage::tied, Stage::finished}) {
      CAPTURE(word(stage));
      const Mass reading = calc::upper_end(motor, stage)->reading + Mass::mg(2);
      const calc::Judgement judged = calc::judge(motor, stage, reading);
      REQUIRE(judged.within.has_value());
      CHECK(std::fabs(share_within(motor, stage, reading, 42) - judged.within->as_ratio()) <=
            kHalfPoint);
    }
  }
}
