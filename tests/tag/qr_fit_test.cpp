// SPDX-License-Identifier: MIT
#include "tag/qr_fit.h"

#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

using namespace loopledger;
using namespace loopledger::tag;

namespace {

const std::vector<std::string> kTexts{"TH-01-K MADE 1180T 44GFCM 1.496G 303MM L1 260131",
                                      "TH-01-K 1180T 44GFCM", "TH-01-K"};

QrFit fit(double room_mm, int dpi = 0) {
  auto result = qr_fit(kTexts, Length::mm(room_mm), dpi);
  REQUIRE(result.ok());
  return std::move(result).value();
}

}  // namespace

TEST_CASE("with room, the longest text is taken, with modules up to 0.80 mm and 22 mm in all") {
  const QrFit wide = fit(40);
  CHECK(wide.text == kTexts[0]);
  CHECK(wide.modules == 29);
  CHECK(wide.module.in_mm() == doctest::Approx(22.0 / 29));
  const std::vector<std::string> id{"TH-01-K"};
  const auto one = qr_fit(id, Length::mm(40), 0);
  REQUIRE(one.ok());
  CHECK(one->module.in_mm() == doctest::Approx(0.80));
}

TEST_CASE("the size that it tells without encoding is the symbol's") {
  const std::string address =  // longer than the table of sizes goes
      "https://example.org/motors/" + std::string(165, 'x') + "/TH-01-K";
  for (const std::string& text : {kTexts[0], kTexts[1], kTexts[2], address}) {
    const auto found = qr_fit(std::vector<std::string>{text}, Length::mm(60), 0);
    REQUIRE(found.ok());
    const auto symbol = make_qr(found->text);
    REQUIRE(symbol.ok());
    CHECK(found->modules == symbol->modules);
  }
}

TEST_CASE("the symbol with its quiet zone never passes the room") {
  for (double room = 11; room < 40; room += 0.25) {
    const QrFit found = fit(room);
    CHECK(found.side().in_mm() <= room + 1e-6);
    CHECK(found.module >= kModuleMin * (1 - 1e-9));
    CHECK(found.module <= kModuleMax);
  }
}

TEST_CASE("a shorter text is taken where the longer one's modules would be under 0.45 mm") {
  CHECK(fit(37 * 0.45).text == kTexts[0]);
  CHECK(fit(37 * 0.45 - 0.1).text == kTexts[1]);
  CHECK(fit(29 * 0.45 - 0.1).text == kTexts[1]);  // the id alone would be no larger
}

TEST_CASE("a label printer's modules are whole dots") {
  for (const int dpi : {203, 300, 600}) {
    for (double room = 14; room < 30; room += 0.5) {
      const QrFit found = fit(room, dpi);
      const double dots = found.module.in_in() * dpi;
      CHECK(dots == doctest::Approx(std::round(dots)));
      CHECK(found.side().in_mm() <= room + 1e-6);
      CHECK(found.module >= kModuleMin * (1 - 1e-9));
    }
  }
}

TEST_CASE("too little room is an error that names both sizes") {
  const auto result = qr_fit(kTexts, Length::mm(9), 0);
  REQUIRE_FALSE(result.ok());
  CHECK(result.diagnostics()[0].code == "qr-room");
  CHECK(result.diagnostics()[0].message ==
        "the QR code needs a square of 10.2 mm, and the label leaves 9.0 mm");
  CHECK_FALSE(qr_fit(kTexts, Length::mm(0), 300).ok());
  CHECK_FALSE(qr_fit(kTexts, Length::mm(-5), 0).ok());
  CHECK(qr_fit({}, Length::mm(20), 0).diagnostics()[0].code == "qr-empty");
}
