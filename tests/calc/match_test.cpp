// SPDX-License-Identifier: MIT
#include "calc/match.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <random>

using namespace loopledger;
using calc::MatchBy;
using calc::MatchFigures;
using doctest::Approx;

namespace {

using Motors = std::vector<MatchFigures>;
using Set = std::vector<std::size_t>;

MatchFigures motor(double mg, double mm, double gf_cm) {
  return {Mass::mg(mg), Length::mm(mm), Torque::gf_cm(gf_cm)};
}

// ---- the definition, written down a second time
// ------------------------------------------------------------------

double deviation_of(const std::vector<double>& values) {
  double sum = 0;
  for (const double v : values) {
    sum += v;
  }
  const double mean = sum / static_cast<double>(values.size());
  double squares = 0;
  for (const double v : values) {
    squares += (v - mean) * (v - mean);
  }
  return std::sqrt(squares / static_cast<double>(values.size() - 1));
}

std::vector<std::vector<double>> figures_asked(const Motors& motors, MatchBy by) {
  std::vector<std::vector<double>> all(3);
  for (const MatchFigures& m : motors) {
    all[0].push_back(m.mass.in_mg());
    all[1].push_back(m.loop.in_mm());
    all[2].push_back(m.torque.in_gf_cm());
  }
  std::vector<std::vector<double>> asked;
  const bool wanted[] = {by.mass, by.loop, by.torque};
  for (std::size_t f = 0; f < 3; ++f) {
    if (wanted[f]) {
      asked.push_back(all[f]);
    }
  }
  return asked;
}

double spread_of(const std::vector<std::vector<double>>& figures, const Set& set) {
  double sum = 0;
  for (const std::vector<double>& values : figures) {
    double low = HUGE_VAL;
    double high = -HUGE_VAL;
    for (const std::size_t m : set) {
      low = std::min(low, values[m]);
      high = std::max(high, values[m]);
    }
    const double deviation = deviation_of(values);
    sum += deviation > 1e-9 ? (high - low) / deviation : 0;
  }
  return sum;
}

struct Brute {
  double least = HUGE_VAL;
  Set first;
};

/// All subsets, in the order in which ties are broken.
Brute by_trying_all(const Motors& motors, MatchBy by, std::size_t wanted) {
  const auto figures = figures_asked(motors, by);
  std::vector<std::pair<double, Set>> all;
  Brute brute;
  for (unsigned bits = 0; bits < 1U << motors.size(); ++bits) {
    Set set;
    for (std::size_t m = 0; m < motors.size(); ++m) {
      if ((bits >> m & 1U) != 0) {
        set.push_back(m);
      }
    }
    if (set.size() == wanted) {
      const double sum = spread_of(figures, set);
      brute.least = std::min(brute.least, sum);
      all.emplace_back(sum, std::move(set));
    }
  }
  for (const auto& [sum, set] : all) {
    if (sum <= brute.least + calc::kMatchTie && (brute.first.empty() || set < brute.first)) {
      brute.first = set;
    }
  }
  return brute;
}

/// `steps` values of each figure: few of them make many ties.
Motors random_ledger(std::mt19937& random, std::size_t count, unsigned steps) {
  const auto value = [&] { return static_cast<double>(random() % steps); };
  Motors motors;
  for (std::size_t i = 0; i < count; ++i) {
    const double mass = value();
    const double loop = value();
    motors.push_back(motor(1490 + mass, 300 + loop, 35 + 0.5 * value()));
  }
  return motors;
}

MatchBy by_bits(unsigned long bits) { return {(bits & 1) != 0, (bits & 2) != 0, (bits & 4) != 0}; }

}  // namespace

TEST_CASE("small ledgers: the set and its spread are those of trying all subsets") {
  std::mt19937 random(20260207);
  for (int ledger = 0; ledger < 600; ++ledger) {
    const unsigned steps = std::vector<unsigned>{2, 3, 5, 20, 100000}[random() % 5];
    const Motors motors = random_ledger(random, 2 + random() % 8, steps);
    const MatchBy by = by_bits(1 + random() % 7);
    for (std::size_t wanted = 2; wanted <= motors.size(); ++wanted) {
      const Brute brute = by_trying_all(motors, by, wanted);
      const auto match = calc::most_alike(motors, by, wanted);
      REQUIRE(match.has_value());
      CAPTURE(ledger);
      CAPTURE(steps);
      CAPTURE(wanted);
      CHECK(match->spread == Approx(brute.least).epsilon(1e-9));
      CHECK(match->motors == brute.first);
      CHECK(match->proven);
    }
  }
}

TEST_CASE("larger ledgers: the set is that of trying all, for pairs and threes") {
  std::mt19937 random(5);
  for (const unsigned steps : {4U, 30U, 100000U}) {
    const Motors motors = random_ledger(random, 18, steps);
    for (std::size_t wanted = 2; wanted <= 4; ++wanted) {
      const Brute brute = by_trying_all(motors, {}, wanted);
      const auto match = calc::most_alike(motors, {}, wanted);
      REQUIRE(match.has_value());
      CHECK(match->spread == Approx(brute.least).epsilon(1e-9));
      CHECK(match->motors == brute.first);
    }
  }
}

TEST_CASE("shifting a figure or changing its unit leaves the set as it is") {
  std::mt19937 random(17);
  for (int ledger = 0; ledger < 200; ++ledger) {
    const Motors motors = random_ledger(random, 12, ledger % 2 == 0 ? 4 : 40);
    Motors moved = motors;
    for (MatchFigures& m : moved) {
      m.mass = m.mass * (1 / 0.028349523125) + Mass::g(0.7);
      m.loop = m.loop * (1 / 25.4) + Length::in(1);
      m.torque = m.torque * 72.0077887375 - Torque::gf_cm(3);
    }
    const auto match = calc::most_alike(motors, {}, 4);
    const auto same = calc::most_alike(moved, {}, 4);
    REQUIRE(match.has_value());
    REQUIRE(same.has_value());
    CAPTURE(ledger);
    CHECK(match->motors == same->motors);
    CHECK(match->spread == Approx(same->spread).epsilon(1e-9));
  }
}

TEST_CASE("a value typed in two units is one value: the earlier motors win") {
  const Mass a = Mass::g(1.497);
  const Mass b = Mass::oz(1.497 / 28.349523125);
  const Motors motors{{Mass::g(1.4), {}, {}}, {a, {}, {}}, {b, {}, {}}, {a, {}, {}}};
  const auto match = calc::most_alike(motors, {true, false, false}, 2);
  REQUIRE(match.has_value());
  CHECK(match->motors == Set{1, 2});
  CHECK(match->within.mass == Mass{});
  CHECK(match->spread == 0);
}

TEST_CASE("identical motors: the first ones, and no spread") {
  const Motors motors(7, motor(1497, 303, 41));
  const auto match = calc::most_alike(motors, {}, 3);
  REQUIRE(match.has_value());
  CHECK(match->motors == Set{0, 1, 2});
  CHECK(match->spread == 0);
  CHECK(match->ledger.mass == Mass{});
  CHECK(match->proven);
}

TEST_CASE("all of them: the spread is the ledger's whole range") {
  const Motors motors{motor(1490, 300, 40), motor(1494, 302, 40), motor(1498, 301, 40)};
  const auto match = calc::most_alike(motors, {}, 3);
  REQUIRE(match.has_value());
  CHECK(match->motors == Set{0, 1, 2});
  CHECK(match->within.mass.in_mg() == Approx(8));
  CHECK(match->ledger.mass.in_mg() == Approx(4));
  CHECK(match->shares.mass == Approx(2));
  CHECK(match->within.loop.in_mm() == Approx(2));
  CHECK(match->shares.loop == Approx(2));
  CHECK(match->shares.torque == 0);  // the same in all counts nothing
  CHECK(match->spread == Approx(4));
}

TEST_CASE("a figure that is not asked for does not count") {
  const Motors motors{motor(1490, 300, 40), motor(1491, 390, 20), motor(1497, 301, 40)};
  const auto match = calc::most_alike(motors, {true, false, false}, 2);
  REQUIRE(match.has_value());
  CHECK(match->motors == Set{0, 1});
  CHECK(match->within.loop == Length{});
  CHECK(calc::most_alike(motors, {}, 2)->motors == Set{0, 2});
}

TEST_CASE("too few motors, none wanted or no figure: there is no set") {
  const Motors motors(3, motor(1497, 303, 41));
  CHECK_FALSE(calc::most_alike(motors, {}, 4).has_value());
  CHECK_FALSE(calc::most_alike(motors, {}, 0).has_value());
  CHECK_FALSE(calc::most_alike(motors, {false, false, false}, 2).has_value());
  CHECK_FALSE(calc::most_alike({}, {}, 2).has_value());
}

TEST_CASE("when the effort is used up, a set comes back that is not called proven") {
  std::mt19937 random(3);
  const Motors motors = random_ledger(random, 300, 100000);
  const auto proven = calc::most_alike(motors, {}, 6);
  const auto quick = calc::most_alike(motors, {}, 6, 100);
  REQUIRE(proven.has_value());
  REQUIRE(quick.has_value());
  CHECK(proven->proven);
  CHECK_FALSE(quick->proven);
  CHECK(quick->motors.size() == 6);
  CHECK(std::ranges::is_sorted(quick->motors));
  CHECK(quick->spread >= proven->spread);
  CHECK(quick->spread < 3 * proven->spread);  // neighbours are no bad beginning
}
