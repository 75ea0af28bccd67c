// SPDX-License-Identifier: MIT
#include "photo/grid_read.h"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "photo/bend.h"
#include "photo/grey_ops.h"
#include "photo/picture.h"
#include "photo/sample.h"

using namespace loopledger;
using namespace loopledger::photo;
using namespace loopledger::tag;

namespace {

const std::string kBagText = "AB-07-R MADE 1320T 52GFCM 1.512G 311MM L1 260131";

Grey bag() {
  Grey picture(420, 360, 230);
  test::paste(picture, test::drawn(kBagText, 6), 70, 50);
  return picture;
}

/// A paper that waves with an amplitude in pixels, 14 modules a wave.
Grey waved(const Grey& flat, double amplitude) {
  Grey made(flat.width, flat.height, 0);
  for (int y = 0; y < made.height; ++y) {
    for (int x = 0; x < made.width; ++x) {
      const double sx = x + amplitude * std::sin(y / 13.4);
      const double sy = y + amplitude * std::sin(x / 13.4 + 1);
      made.at(x, y) = static_cast<std::uint8_t>(std::lround(sample(flat, sx, sy)));
    }
  }
  return made;
}

std::string text_of(const std::vector<Symbol>& symbols) {
  return symbols.empty() ? "" : symbols.front().text;
}

std::vector<Symbol> by_grid(const Grey& picture) {
  Effort effort;
  return symbols_by_grid(picture, effort);
}

}  // namespace

TEST_CASE("a blur that hides single modules is worked back") {
  const Grey blurred = box_blurred(box_blurred(box_blurred(bag(), 3), 3), 3);
  CHECK(text_of(symbols_in(blurred)).empty());
  const auto read = by_grid(blurred);
  REQUIRE(text_of(read) == kBagText);
  CHECK(bounds(read.front()).contains(180, 160));
}

TEST_CASE("a symbol with a hidden corner square is read") {
  Grey covered = bag();
  fill(covered, {70 + 24, 50 + 24, 42, 42}, 90);
  CHECK(text_of(symbols_in(covered)).empty());
  CHECK(text_of(by_grid(covered)) == kBagText);
}

TEST_CASE("a label on a crinkled bag is read by following its waves") {
  const Grey wavy = waved(bag(), 2.8);
  CHECK(text_of(symbols_in(wavy)).empty());
  CHECK(text_of(by_grid(wavy)) == kBagText);
}

TEST_CASE("a flat label is found not to bend") {
  const Grey picture = bag();
  const auto grids = grids_in(picture, finders_in(picture));
  REQUIRE(!grids.empty());
  const Bend bend = bend_of(picture, grids.front(), {});
  for (const double at : {2.0, 14.0, 27.0}) {
    CHECK(std::hypot(bend.at(at, at).x, bend.at(at, at).y) < 0.35);
  }
}

TEST_CASE("no symbol, no text") {
  CHECK(by_grid(Grey(300, 300, 140)).empty());
  CHECK(by_grid(test::with_noise(Grey(300, 300, 128), 90, 5)).empty());
  CHECK(by_grid(Grey(10, 10, 0)).empty());
}
