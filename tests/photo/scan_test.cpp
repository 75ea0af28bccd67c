// SPDX-License-Identifier: MIT
#include "photo/scan.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <ctime>
#include <numbers>
#include <random>
#include <string>

#include "photo/grey_ops.h"
#include "photo/picture.h"
#include "photo/scan_trouble.h"
#include "support/sanitized.h"
#include "tag/id.h"

using namespace loopledger;
using namespace loopledger::photo;
using namespace loopledger::tag;

namespace {

std::string label_text(int number) {
  return tag_texts({MotorId{"TH", number}, TagState::made, Turns::of(1180 + number),
                    Torque::gf_cm(44), Mass::g(1.490 + number * 0.001), Length::mm(300 + number),
                    Date{2026, 1, 31}})
      .front();
}

/// A sheet of 3 x 8 labels, each with a symbol on the right and bars like text on the left.
Grey sheet(int module) {
  const int width = 160 * module;
  const int height = 84 * module;
  Grey picture(3 * width, 8 * height, 255);
  std::mt19937 random(24);
  for (int i = 0; i < 24; ++i) {
    const int x = i % 3 * width;
    const int y = i / 3 * height;
    test::paste(picture, test::drawn(label_text(i + 1), module), x + 100 * module, y + 20 * module);
    for (int line = 0; line < 8; ++line) {
      const int length = 30 * module + static_cast<int>(random() % 50U) * module;
      fill(picture, {x + 8 * module, y + (10 + 8 * line) * module, length, 3 * module}, 40);
    }
  }
  return picture;
}

/// Corner squares side by side, `period` modules apart; `lines`: as lines that cross, which draw
/// one at each crossing.
Grey lattice(int side, double module, int period, double degrees, bool lines) {
  const double angle = degrees * std::numbers::pi / 180;
  Grey picture(side, side, 255);
  const auto step = [&](double at) {
    const double in = std::fmod(at / module, period);
    return static_cast<int>(in < 0 ? in + period : in);
  };
  const auto on_line = [](int i) { return i == 0 || (i >= 2 && i <= 4) || i == 6; };
  for (int y = 0; y < side; ++y) {
    for (int x = 0; x < side; ++x) {
      const int u = step(std::cos(angle) * x + std::sin(angle) * y);
      const int v = step(std::cos(angle) * y - std::sin(angle) * x);
      const int ring = std::max(std::abs(u - 3), std::abs(v - 3));
      const bool dark = lines ? on_line(u) && on_line(v) : ring <= 3 && ring != 2;
      picture.at(x, y) = dark ? 0 : 255;
    }
  }
  return picture;
}

/// Many labels close together, as in a box of bags.
Grey boxful(int columns, int rows, int module) {
  const int cell = 50 * module;
  Grey picture(columns * cell, rows * cell, 255);
  for (int i = 0; i < columns * rows; ++i) {
    test::paste(picture, test::drawn(label_text(i + 1), module), i % columns * cell,
                i / columns * cell);
  }
  return picture;
}

std::vector<std::string> texts(const Scan& scan) {
  std::vector<std::string> found;
  for (const FoundLabel& label : scan.labels) {
    found.push_back(label.text);
  }
  std::sort(found.begin(), found.end());
  return found;
}

std::vector<std::string> all_labels() {
  std::vector<std::string> expected;
  for (int i = 1; i <= 24; ++i) {
    expected.push_back(label_text(i));
  }
  std::sort(expected.begin(), expected.end());
  return expected;
}

}  // namespace

TEST_CASE("a label is read with its figures and place") {
  Grey picture(800, 500, 200);
  test::paste(picture, test::drawn(label_text(1), 6), 300, 100);
  const Scan scan = scan_picture(picture);
  REQUIRE(scan.labels.size() == 1);
  CHECK(scan.labels[0].text == label_text(1));
  CHECK(scan.labels[0].figures.id == MotorId{"TH", 1});
  CHECK(scan.labels[0].figures.turns->count() == 1181);
  CHECK(bounds(scan.labels[0].symbol).contains(410, 210));
  CHECK(scan.foreign.empty());
  CHECK(scan.unread.empty());
}

TEST_CASE("a label is read at any angle, small, blurred, and with noise") {
  for (const double degrees : {0.0, 17.0, 90.0, 133.0, 180.0, 270.0, 341.0}) {
    Grey picture(400, 400, 255);
    test::paste(picture, test::drawn(label_text(7), 5), 100, 100);
    CHECK_MESSAGE(texts(scan_picture(test::turned(picture, degrees, 128))).size() == 1, degrees);
  }
  const Grey label = test::drawn(label_text(7), 6);
  CHECK(texts(scan_picture(reduced(label, 3))).size() == 1);
  CHECK(texts(scan_picture(box_blurred(label, 4))).size() == 1);
  CHECK(texts(scan_picture(test::with_noise(label, 120, 3))).size() == 1);
  Grey faint = label;
  for (std::uint8_t& pixel : faint.pixels) {
    pixel = static_cast<std::uint8_t>(120 + pixel / 16);
  }
  CHECK(texts(scan_picture(faint)).size() == 1);
}

TEST_CASE("a picture of a whole sheet gives all 24 labels") {
  SUBCASE("as scanned") { CHECK(texts(scan_picture(sheet(4))) == all_labels()); }
  SUBCASE("turned a little and blurred") {
    const Grey photo = test::with_noise(box_blurred(test::turned(sheet(6), 3, 90), 2), 12, 5);
    CHECK(texts(scan_picture(photo)) == all_labels());
  }
  SUBCASE("from far away") {
    CHECK(texts(scan_picture(reduced(test::turned(sheet(5), -2, 90), 2))) == all_labels());
  }
}

TEST_CASE("a picture full of corner squares is given up, soon") {
  // Each takes seconds to minutes when all of it is read; the library's time goes with the third
  // power of the squares. Three seconds for a release build, the least of the tests' machines.
  const auto from = std::clock();
  std::vector<Grey> pictures{lattice(600, 4, 8, 0, true), lattice(300, 1, 9, 0, false),
                             lattice(900, 3, 11, 45, false), lattice(1200, 4, 9, 17, false)};
  pictures.resize(static_cast<std::size_t>(test::cases(4, 2)));
  for (const Grey& picture : pictures) {
    const Scan scan = scan_picture(picture);
    CHECK(scan.labels.empty());
    CHECK(scan.crowded);
    CHECK(why_unread(picture, scan).message.find("looks like the corner of a code") !=
          std::string::npos);
  }
  CHECK(static_cast<double>(std::clock() - from) / CLOCKS_PER_SEC < 40);
}

TEST_CASE("of a picture with more labels than are looked for it is said how many more") {
  const Scan few = scan_picture(boxful(8, 8, 4));
  CHECK(few.labels.size() == 64);
  CHECK(few.more == 0);
  const Scan many = scan_picture(boxful(16, 16, 3));
  CHECK(many.labels.size() >= 1);
  CHECK(many.labels.size() + many.more >= 200);
}

TEST_CASE("two labels that say the same are one, and labels come from the top down") {
  Grey picture(600, 1000, 255);
  test::paste(picture, test::drawn(label_text(2), 5), 50, 50);
  test::paste(picture, test::drawn(label_text(1), 5), 200, 350);
  test::paste(picture, test::drawn(label_text(2), 5), 50, 650);
  const Scan scan = scan_picture(picture);
  REQUIRE(scan.labels.size() == 2);
  CHECK(scan.labels[0].text == label_text(2));
  CHECK(scan.labels[1].text == label_text(1));
}

TEST_CASE("other symbols are kept apart, and later layouts too") {
  Grey picture(1200, 500, 255);
  test::paste(picture, test::drawn("HELLO WORLD", 6), 20, 60);
  test::paste(picture, test::drawn(with_check({"TH", 1}) + " MADE 1180T L2", 6), 300, 60);
  test::paste(picture, test::drawn(label_text(3), 6), 700, 60);
  const Scan scan = scan_picture(picture);
  CHECK(texts(scan) == std::vector<std::string>{label_text(3)});
  CHECK(scan.foreign == std::vector<std::string>{"HELLO WORLD"});
  CHECK(scan.other_layout.size() == 1);
}

TEST_CASE("noise, stripes and empty pictures read as nothing") {
  for (unsigned seed = 0; seed < 12; ++seed) {
    const Grey noise = test::with_noise(Grey(160, 120, 128), 127, seed);
    const Scan scan = scan_picture(noise);
    CHECK(scan.labels.empty());
    CHECK(scan.foreign.empty());
    const Scan coarse = scan_picture(enlarged(reduced(noise, 3), 4));
    CHECK(coarse.labels.empty());
    CHECK(coarse.foreign.empty());
  }
  Grey stripes(300, 300, 255);
  for (int x = 0; x < 300; x += 14) {
    fill(stripes, {x, 0, 7, 300}, 0);
  }
  CHECK(scan_picture(stripes).labels.empty());
  for (const auto& [w, h] : {std::pair{0, 0}, {1, 1}, {1, 500}, {500, 1}, {20, 20}, {21, 21}}) {
    CHECK(scan_picture(Grey(w, h, 255)).labels.empty());
    CHECK(scan_picture(Grey(w, h, 0)).labels.empty());
  }
}

TEST_CASE("a white on black symbol is not ours: labels are dark on light") {
  Grey picture = test::drawn(label_text(1), 5);
  for (std::uint8_t& pixel : picture.pixels) {
    pixel = static_cast<std::uint8_t>(255 - pixel);
  }
  CHECK(scan_picture(picture).foreign.empty());
}

TEST_CASE("labels too blurred for a plain reading are found beside one that is not") {
  Grey box(1500, 500, 230);
  test::paste(box, test::drawn(label_text(1), 6), 60, 120);
  int at = 380;
  for (const int number : {2, 3, 4}) {
    Grey one(360, 360, 230);
    test::paste(one, test::drawn(label_text(number), 6), 70, 70);
    one = test::turned(one, 25.0 * (number - 1), 230);
    test::paste(box, box_blurred(box_blurred(box_blurred(one, 3), 3), 3), at, 70);
    at += 370;
  }
  CHECK(symbols_in(box).size() < 4);  // one with the library's version 1.4, three with 2.3
  CHECK(texts(scan_picture(box)) ==
        std::vector<std::string>{label_text(1), label_text(2), label_text(3), label_text(4)});
}
