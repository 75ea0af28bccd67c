// SPDX-License-Identifier: MIT
#include "json/json.h"

#include <doctest/doctest.h>

#include <limits>

using loopledger::json::Json;

TEST_CASE("JSON members keep the order in which they were added") {
  Json j = Json::object();
  j.set("format", 1).set("id", "TH-01").set("torn", false).set("limit_g", Json());
  CHECK(j.compact() == R"({"format": 1, "id": "TH-01", "torn": false, "limit_g": null})");
}

TEST_CASE("JSON numbers read back to the same double, and what is not finite is null") {
  CHECK(Json(3.175).compact() == "3.175");
  CHECK(Json(0.1 + 0.2).compact() == "0.30000000000000004");
  CHECK(Json(1180.0).compact() == "1180");
  CHECK(Json(std::numeric_limits<double>::infinity()).compact() == "null");
  CHECK(Json(std::numeric_limits<double>::quiet_NaN()).compact() == "null");
  CHECK(Json(std::optional<double>{}).compact() == "null");
  CHECK(Json(std::optional<double>{1.5}).compact() == "1.5");
}

TEST_CASE("JSON text escapes quotes, controls and bidirectional marks, and keeps letters") {
  CHECK(Json("a\"b\\c\nd\te").compact() == R"("a\"b\\c\nd\te")");
  CHECK(Json("\x1b[2J\x7f").compact() == R"("\u001b[2J\u007f")");
  CHECK(Json("a\u202Eb\u0085").compact() == R"("a\u202eb\u0085")");
  CHECK(Json("żółw ½").compact() == "\"żółw ½\"");
}

TEST_CASE("an ill-formed byte becomes the replacement character in JSON") {
  CHECK(Json("a\xff"
             "b")
            .compact() == "\"a\uFFFDb\"");
}

TEST_CASE("JSON text breaks lines where they would be too long") {
  Json j = Json::object();
  j.set("entries", Json::array().push(Json::object().set("key", "k").set("turns", 1200.0)));
  j.set("empty", Json::array());
  CHECK(j.text() == "{\n  \"entries\": [{\"key\": \"k\", \"turns\": 1200}],\n  \"empty\": []\n}\n");
}

TEST_CASE("diagnostics carry null where they have no place") {
  const loopledger::Diagnostics one{loopledger::warning("rec-torn", "torn", "mend it")};
  CHECK(loopledger::json::to_json(one).compact() ==
        R"([{"file": null, "line": null, "column": null, "severity": "warning", )"
        R"("code": "rec-torn", "message": "torn", "hint": "mend it"}])");
}
