// SPDX-License-Identifier: MIT
#include "photo/grid.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "photo/grey_ops.h"
#include "photo/picture.h"
#include "tag/qr.h"

using namespace loopledger;
using namespace loopledger::photo;
using namespace loopledger::tag;

namespace {

constexpr int kModulePixels = 6;
const std::string kLabelText = "TH-01-J MADE 1180T 44GFCM 1.496G 303MM L1 260131";

/// A symbol of version 3 with its top left module at (84, 64).
Grey symbol_on_table() {
  Grey picture(420, 360, 210);
  test::paste(picture, test::drawn(kLabelText, kModulePixels), 60, 40);
  return picture;
}

double apart(Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y); }

}  // namespace

TEST_CASE("what is known of a symbol is what the encoder draws, versions 1 to 6") {
  std::string text = "TH-01-J";
  std::vector<bool> seen(7, false);
  for (; text.size() < 160; text += "7") {
    const auto symbol = make_qr(text);
    REQUIRE(symbol.ok());
    if (symbol->version > 6) {
      break;
    }
    seen.at(static_cast<std::size_t>(symbol->version)) = true;
    for (const KnownModule& k : known_modules(symbol->modules)) {
      const bool inside =
          k.column >= 0 && k.row >= 0 && k.column < symbol->modules && k.row < symbol->modules;
      CAPTURE(symbol->version);
      CAPTURE(k.column);
      CAPTURE(k.row);
      CHECK((inside && symbol->at(k.column, k.row)) == k.dark);
    }
  }
  CHECK(std::count(seen.begin(), seen.end(), true) == 6);
}

TEST_CASE("the three finders of a symbol are the places most like one, at any angle") {
  for (const double degrees : {0.0, 10.0, 45.0, 200.0}) {
    CAPTURE(degrees);
    const Grey picture = test::turned(symbol_on_table(), degrees, 210);
    const auto finders = finders_in(picture);
    REQUIRE(finders.size() >= 3);
    std::array<double, 3> sides{apart(finders[0].at, finders[1].at),
                                apart(finders[1].at, finders[2].at),
                                apart(finders[2].at, finders[0].at)};
    std::sort(sides.begin(), sides.end());
    const double side = (29 - 7) * kModulePixels;
    CHECK(sides[0] == doctest::Approx(side).epsilon(0.02));
    CHECK(sides[1] == doctest::Approx(side).epsilon(0.02));
    CHECK(sides[2] == doctest::Approx(side * std::sqrt(2)).epsilon(0.02));
    CHECK(finders[0].module == doctest::Approx(kModulePixels).epsilon(0.06));
    CHECK(finders[2].likeness > 0.9);
  }
}

TEST_CASE("a grid lies on its symbol, also when one of its finders is hidden") {
  for (const int hidden : {-1, 0, 1, 2}) {
    CAPTURE(hidden);
    Grey picture = symbol_on_table();
    const int far = 84 + 22 * kModulePixels;
    const int low = 64 + 22 * kModulePixels;
    if (hidden >= 0) {
      fill(picture, {hidden == 1 ? far : 84, hidden == 2 ? low : 64, 42, 42}, 90);
    }
    const auto grids = grids_in(picture, finders_in(picture));
    REQUIRE(!grids.empty());
    CHECK(grids[0].modules == 29);
    const double end = 29 * kModulePixels;
    CHECK(apart(grids[0].plane().at(0, 0), {83.5, 63.5}) < 2.5);
    CHECK(apart(grids[0].plane().at(29, 0), {83.5 + end, 63.5}) < 2.5);
    CHECK(apart(grids[0].plane().at(0, 29), {83.5, 63.5 + end}) < 2.5);
    CHECK(apart(grids[0].plane().at(29, 29), {83.5 + end, 63.5 + end}) < 2.5);
  }
}

TEST_CASE("small and empty pictures hold no finders") {
  CHECK(finders_in(Grey(1, 1, 0)).empty());
  CHECK(finders_in(Grey(29, 500, 255)).empty());
  CHECK(finders_in(Grey(200, 200, 128)).empty());
  CHECK(grids_in(Grey(50, 50, 0), {}).empty());
}
