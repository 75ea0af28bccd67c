// SPDX-License-Identifier: MIT
#include "calc/own_curve.h"

#include <doctest/doctest.h>

#include <initializer_list>
#include <utility>
#include <vector>

using namespace loopledger;
using doctest::Approx;
using records::Entry;

namespace {

Entry winding(const char* key, double turns, double gf_cm,
              std::initializer_list<std::pair<double, double>> pairs) {
  Entry e;
  e.key = key;
  e.kind = records::Kind::wound;
  if (turns > 0) {
    e.turns = Turns::of(turns);
    e.torque = Torque::gf_cm(gf_cm);
  }
  for (const auto& [n, q] : pairs) {
    e.pairs.push_back({Turns::of(n), Torque::gf_cm(q)});
  }
  return e;
}

}  // namespace

TEST_CASE("falling turns were read while unwinding, from the winding's own turns down") {
  const auto own = calc::own_curve_of(winding("a", 1000, 40, {{950, 30}, {900, 25}, {800, 17}}));
  REQUIRE(own.has_value());
  CHECK(own->unwinding);
  CHECK(own->points == 4);
  CHECK(own->curve.top_torque().in_gf_cm() == Approx(40));
  CHECK(own->curve.torque_at(Turns::of(900)).in_gf_cm() == Approx(25));
}

TEST_CASE("rising turns were read while winding") {
  const auto own = calc::own_curve_of(winding("a", 1000, 40, {{800, 22}, {900, 30}}));
  REQUIRE(own.has_value());
  CHECK_FALSE(own->unwinding);
  CHECK(own->points == 3);
  CHECK(own->curve.torque_at(Turns::of(900)).in_gf_cm() == Approx(30));
}

TEST_CASE("up and down again: what was read while unwinding makes the curve") {
  const auto own = calc::own_curve_of(
      winding("a", 1000, 40, {{800, 22}, {900, 30}, {950, 28}, {900, 23}, {700, 12}}));
  REQUIRE(own.has_value());
  CHECK(own->unwinding);
  CHECK(own->curve.torque_at(Turns::of(900)).in_gf_cm() == Approx(23));
  CHECK(own->curve.top_torque().in_gf_cm() == Approx(40));
  // One reading on the way down is too few: then the way up serves.
  const auto up = calc::own_curve_of(winding("a", 1000, 40, {{800, 22}, {900, 30}, {900, 24}}));
  REQUIRE(up.has_value());
  CHECK_FALSE(up->unwinding);
}

TEST_CASE("pairs that hold the top themselves need no other, and too few make nothing") {
  const auto own = calc::own_curve_of(winding("a", 0, 0, {{1000, 40}, {900, 25}, {800, 17}}));
  REQUIRE(own.has_value());
  CHECK(own->curve.top_turns().count() == 1000);
  CHECK_FALSE(calc::own_curve_of(winding("a", 0, 0, {{1000, 40}, {900, 25}})).has_value());
  CHECK_FALSE(calc::own_curve_of(winding("a", 1000, 40, {})).has_value());
  CHECK_FALSE(calc::own_curve_of(winding("a", 0, 0, {})).has_value());
}

TEST_CASE("of several windings the newest that has a curve gives it") {
  const Entry first = winding("first", 1000, 40, {{900, 25}, {800, 17}});
  const Entry second = winding("second", 1100, 44, {{1000, 28}, {900, 19}});
  const Entry bare = winding("bare", 1150, 46, {});
  const std::vector<const Entry*> life{&first, &second, &bare};
  const auto own = calc::own_curve(life);
  REQUIRE(own.has_value());
  CHECK(own->key == "second");
  CHECK_FALSE(calc::own_curve(std::vector<const Entry*>{&bare}).has_value());
}
