// SPDX-License-Identifier: MIT
//
// ISO/IEC 18004 (QR codes): capacities and sizes as published at qrcode.com and in tables of the
// standard. The version and level that our symbols get are held against them, and against what
// the encoder itself does.
#include <doctest/doctest.h>

#include <string>

#include "tag/qr.h"

using loopledger::tag::make_qr;
using loopledger::tag::qr_size;

namespace {

struct Capacity {
  int version;
  char level;
  std::size_t alphanumeric;
  std::size_t bytes;  ///< 0: not among the values read
};

// Alphanumeric at M and Q, bytes at M up to version 3: read. The others: computed from the data
// codewords of the standard.
constexpr Capacity kCapacities[] = {
    {1, 'M', 20, 14},   {1, 'Q', 16, 11},  {1, 'H', 10, 7},   {2, 'M', 38, 26},   {2, 'Q', 29, 20},
    {2, 'H', 20, 14},   {3, 'M', 61, 42},  {3, 'Q', 47, 32},  {3, 'H', 35, 24},   {4, 'M', 90, 62},
    {4, 'Q', 67, 46},   {4, 'H', 50, 34},  {5, 'M', 122, 84}, {5, 'Q', 87, 60},   {5, 'H', 64, 44},
    {6, 'M', 154, 106}, {6, 'Q', 108, 74}, {6, 'H', 84, 58},  {7, 'M', 178, 122}, {7, 'Q', 125, 86},
    {7, 'H', 93, 64},
};

/// What the table says for a text of this length: the smallest version at M, then the highest
/// level there.
std::pair<int, char> published(std::size_t length, bool alphanumeric) {
  const auto holds = [&](const Capacity& c) {
    return length <= (alphanumeric ? c.alphanumeric : c.bytes);
  };
  int version = 0;
  char level = 'M';
  for (const Capacity& c : kCapacities) {
    if (holds(c) && (version == 0 || c.version == version)) {
      version = c.version;
      level = c.level;
    }
  }
  return {version, level};
}

}  // namespace

TEST_CASE("ISO/IEC 18004: alphanumeric texts get the published version and level") {
  for (std::size_t length = 1; length <= 178; ++length) {
    const std::string text(length, 'K');
    const auto symbol = make_qr(text);
    REQUIRE(symbol.ok());
    const auto [version, level] = published(length, true);
    CHECK_MESSAGE(symbol->version == version, length);
    CHECK_MESSAGE(symbol->level == level, length);
    CHECK(symbol->modules == 17 + 4 * version);
    CHECK(qr_size(text)->version == version);
  }
}

TEST_CASE("ISO/IEC 18004: other texts are bytes and get the published version and level") {
  for (std::size_t length = 1; length <= 122; ++length) {
    const auto symbol = make_qr(std::string(length, 'k'));
    REQUIRE(symbol.ok());
    const auto [version, level] = published(length, false);
    CHECK_MESSAGE(symbol->version == version, length);
    CHECK_MESSAGE(symbol->level == level, length);
  }
}

TEST_CASE("qrcode.com: 50 alphanumeric characters at M are version 3, 29 modules a side") {
  const auto symbol = make_qr(std::string(50, 'A'));
  REQUIRE(symbol.ok());
  CHECK(symbol->version == 3);
  CHECK(symbol->level == 'M');
  // 400 dpi, 4 dots a module: 0.254 mm, 7.366 mm, with the quiet zone 9.398 mm.
  CHECK(symbol->modules * 0.254 == doctest::Approx(7.366));
  CHECK((symbol->modules + 2 * loopledger::tag::kQuietModules) * 0.254 == doctest::Approx(9.398));
}

TEST_CASE("texts beyond the table still get a symbol, and too long ones an error") {
  for (const std::size_t length : {262U, 263U, 300U, 1000U, 3391U}) {
    const auto symbol = make_qr(std::string(length, 'A'));
    REQUIRE_MESSAGE(symbol.ok(), length);
    CHECK(symbol->modules == 17 + 4 * symbol->version);
  }
  CHECK(make_qr(std::string(3392, 'A')).diagnostics().at(0).code == "qr-too-long");
  CHECK(make_qr("").diagnostics().at(0).code == "qr-empty");
  CHECK(make_qr("za\xc5\xbc\xc3\xb3\xc5\x82\xc4\x87").diagnostics().at(0).code == "qr-text");
}
