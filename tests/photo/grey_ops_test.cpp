// SPDX-License-Identifier: MIT
#include "photo/grey_ops.h"

#include <doctest/doctest.h>

#include <cmath>

#include "photo/picture.h"

using namespace loopledger;
using namespace loopledger::photo;
using namespace loopledger::tag;

namespace {

Grey noise(int width, int height) { return test::with_noise(Grey(width, height, 128), 127, 9); }

/// The mean as its definition says: slow, but plainly right.
double slow_mean(const Grey& picture, int x, int y, int radius) {
  double sum = 0;
  int count = 0;
  for (int v = y - radius; v <= y + radius; ++v) {
    for (int u = x - radius; u <= x + radius; ++u) {
      if (u >= 0 && v >= 0 && u < picture.width && v < picture.height) {
        sum += picture.at(u, v);
        ++count;
      }
    }
  }
  return sum / count;
}

}  // namespace

TEST_CASE("a box blur is the mean of its square, cut at the edges") {
  for (const auto& [w, h] : {std::pair{40, 30}, {3, 50}, {50, 3}, {1, 1}}) {
    const Grey picture = noise(w, h);
    for (const int radius : {0, 1, 4, 20, 100}) {
      const Grey blurred = box_blurred(picture, radius);
      for (int y = 0; y < h; ++y) {
        for (int x = 0; x < w; ++x) {
          CHECK(std::abs(blurred.at(x, y) - slow_mean(picture, x, y, radius)) <= 0.51);
        }
      }
    }
  }
}

TEST_CASE("enlarging keeps plain areas, edges and the mean in place") {
  Grey picture(20, 10, 255);
  fill(picture, {0, 0, 10, 10}, 0);
  for (const int factor : {2, 3}) {
    const Grey large = enlarged(picture, factor);
    REQUIRE(large.width == 20 * factor);
    REQUIRE(large.height == 10 * factor);
    CHECK(large.at(0, 0) == 0);
    CHECK(large.at(9 * factor, 4) == 0);
    CHECK(large.at(11 * factor - 1, 4) == 255);
    CHECK(large.at(10 * factor - 1, 4) + large.at(10 * factor, 4) ==
          doctest::Approx(255).epsilon(0.01));
  }
  CHECK(enlarged(Grey(), 2).size() == 0);
}

TEST_CASE("reducing takes the mean of blocks and drops what does not fill one") {
  Grey picture(5, 4, 0);
  fill(picture, {0, 0, 1, 2}, 200);
  const Grey small = reduced(picture, 2);
  REQUIRE(small.width == 2);
  REQUIRE(small.height == 2);
  CHECK(small.at(0, 0) == 100);
  CHECK(small.at(1, 1) == 0);
}

TEST_CASE("crop and fill stay inside the picture wherever the area lies") {
  Grey picture = noise(10, 8);
  CHECK(crop(picture, {-5, -5, 100, 100}).pixels == picture.pixels);
  CHECK(crop(picture, {20, 20, 5, 5}).size() == 0);
  CHECK(crop(picture, {2, 2, -3, 4}).size() == 0);
  const Grey part = crop(picture, {8, 6, 5, 5});
  REQUIRE(part.width == 2);
  REQUIRE(part.height == 2);
  CHECK(part.at(1, 1) == picture.at(9, 7));
  fill(picture, {-5, -5, 100, 100}, 7);
  CHECK(picture.pixels == Grey(10, 8, 7).pixels);
}

TEST_CASE("sharpening leaves plain areas and steepens edges") {
  Grey picture(40, 10, 100);
  fill(picture, {20, 0, 20, 10}, 150);
  const Grey made = sharpened(picture, 4, 3);
  CHECK(made.at(2, 5) == 100);
  CHECK(made.at(37, 5) == 150);
  CHECK(made.at(19, 5) < 60);
  CHECK(made.at(20, 5) > 190);
}

TEST_CASE("a faint pattern is brought out by evening, plain paper is not") {
  Grey picture(60, 60, 128);
  for (int x = 0; x < 60; x += 8) {
    fill(picture, {x, 0, 4, 60}, 118);
  }
  const Grey even = evened(picture, 15);
  CHECK(even.at(33, 30) < 90);
  CHECK(even.at(37, 30) > 165);
  CHECK(evened(Grey(60, 60, 200), 15).pixels == Grey(60, 60, 128).pixels);
}
