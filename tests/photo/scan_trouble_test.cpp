// SPDX-License-Identifier: MIT
#include "photo/scan_trouble.h"

#include <doctest/doctest.h>

#include <cmath>

#include "photo/grey_ops.h"
#include "photo/picture.h"

using namespace loopledger;
using namespace loopledger::photo;
using namespace loopledger::tag;

namespace {

/// A label on a darker table, paper at 215.
Grey a_photo() {
  Grey picture(500, 400, 120);
  fill(picture, {60, 60, 380, 280}, 215);
  Grey symbol = test::drawn("TH-01-J 1180T 44GFCM", 6);
  for (std::uint8_t& pixel : symbol.pixels) {
    pixel = static_cast<std::uint8_t>(30 + pixel * 185 / 255);
  }
  test::paste(picture, symbol, 200, 110);
  return picture;
}

Trouble trouble(const Grey& picture) {
  const Scan scan = scan_picture(picture);
  REQUIRE(scan.labels.empty());
  return trouble_in(picture, scan);
}

}  // namespace

TEST_CASE("the photo itself reads, so that what is said of its ills is about the ills") {
  CHECK(scan_picture(a_photo()).labels.size() == 1);
}

TEST_CASE("a blurred photo is called blurred") {
  CHECK(trouble(box_blurred(box_blurred(a_photo(), 7), 7)) == Trouble::blurred);
}

TEST_CASE("light over the code is called glare") {
  Grey picture = a_photo();
  for (int y = 0; y < picture.height; ++y) {
    for (int x = 0; x < picture.width; ++x) {
      if (std::hypot(x - 290, (y - 200) * 1.4) < 85) {
        picture.at(x, y) = 255;
      }
    }
  }
  CHECK(trouble(picture) == Trouble::glare);
}

TEST_CASE("a dark photo and a faint one are told apart") {
  Grey dark = box_blurred(a_photo(), 12);
  Grey faint = dark;
  for (std::uint8_t& pixel : dark.pixels) {
    pixel = static_cast<std::uint8_t>(pixel / 5);
  }
  for (std::uint8_t& pixel : faint.pixels) {
    pixel = static_cast<std::uint8_t>(140 + pixel / 9);
  }
  CHECK(trouble(dark) == Trouble::dark);
  CHECK(trouble(faint) == Trouble::faint);
}

TEST_CASE("a tiny picture is called small") { CHECK(trouble(Grey(60, 60, 200)) == Trouble::small); }

TEST_CASE("the message says what was seen instead of a label") {
  Grey empty(300, 300, 200);
  CHECK(why_unread(empty, scan_picture(empty)).message == "no label was read");
  CHECK(why_unread(empty, scan_picture(empty)).code == "none-label");
  Grey other(300, 300, 255);
  test::paste(other, test::drawn("HELLO", 6), 40, 40);
  CHECK(why_unread(other, scan_picture(other)).message ==
        "no label was read, only codes that are not labels of ours");
  Grey newer(400, 400, 255);
  test::paste(newer, test::drawn("TH-01-J MADE 1180T L2", 6), 40, 40);
  CHECK(why_unread(newer, scan_picture(newer)).message ==
        "no label was read, but one of a layout that this version can't read");
}
