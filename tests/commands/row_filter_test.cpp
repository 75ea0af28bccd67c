// SPDX-License-Identifier: MIT
#include "commands/row_filter.h"

#include <doctest/doctest.h>

using namespace loopledger;
using commands::MotorRow;
using commands::RowFilter;

namespace {

MotorRow row_with(const std::string& owner, const std::string& rule, const std::string& lot) {
  MotorRow row;
  row.owner = owner;
  row.rule = rule;
  row.lot = lot;
  row.strip = "tan";
  return row;
}

}  // namespace

TEST_CASE("an empty filter takes every motor, and has no text") {
  CHECK(RowFilter{}.takes(row_with("ANNA", "club", "May")));
  CHECK(RowFilter{}.takes(row_with("", "", "")));
  CHECK(RowFilter{}.text().empty());
}

TEST_CASE("all words of a filter must be those of the motor") {
  const MotorRow row = row_with("ANNA", "club", "May");
  CHECK(RowFilter{"anna", "CLUB", "may"}.takes(row));
  CHECK_FALSE(RowFilter{"anna", "CLUB", "June"}.takes(row));
  CHECK_FALSE(RowFilter{"anna", "open", "may"}.takes(row));
  CHECK_FALSE(RowFilter{"ann", "", ""}.takes(row));
}

TEST_CASE("marks of letters may be left out, in what was typed and in what the record has") {
  CHECK(RowFilter{"zaneta", "", ""}.takes(row_with("Žaněta", "", "")));
  CHECK(RowFilter{"Žaneta", "", ""}.takes(row_with("zaneta", "", "")));
  CHECK(RowFilter{"z\u030caneta", "", ""}.takes(row_with("Žaneta", "", "")));  // as two characters
  CHECK_FALSE(RowFilter{"Los", "", ""}.takes(row_with("Łos", "", "")));  // no letter with a mark
}

TEST_CASE("a strip without a lot is the lot of its name") {
  CHECK(RowFilter{"", "", "TAN"}.takes(row_with("", "", "")));
  CHECK_FALSE(RowFilter{"", "", "TAN"}.takes(row_with("", "", "May")));
}

TEST_CASE("the text of a filter is as it was typed") {
  CHECK(RowFilter{"Anna", "", "May"}.text() == "--owner Anna --lot May");
  CHECK(RowFilter{"", "club", ""}.text() == "--class club");
}

TEST_CASE("a word that no motor has is told with the nearest there is, or all") {
  const std::vector<MotorRow> rows{row_with("ANNA", "club", "May"), row_with("Žaněta", "", "May")};
  CHECK(RowFilter{"zaneta", "club", "may"}.none_has(rows).empty());
  const Diagnostics begun = RowFilter{"an", "", ""}.none_has(rows);
  REQUIRE(begun.size() == 1);
  CHECK(begun.front().severity == Severity::warning);
  CHECK(begun.front().code == "list-none");
  CHECK(begun.front().message == "no motor has the owner \"an\"");
  CHECK(begun.front().hint == "did you mean \"ANNA\"?");
  CHECK(RowFilter{"zanetta", "", ""}.none_has(rows).front().hint == "did you mean \"Žaněta\"?");
  CHECK(RowFilter{"Ben", "", ""}.none_has(rows).front().hint == "there are \"ANNA\", \"Žaněta\"");
  CHECK(RowFilter{"", "", "October"}.none_has(rows).front().hint == "there is \"May\"");
  CHECK(RowFilter{"Ben", "open", "October"}.none_has(rows).size() == 3);
}

TEST_CASE("of many owners eight are named, and long or wild words are cut and made harmless") {
  std::vector<MotorRow> rows;
  for (char c = 'a'; c <= 'j'; ++c) {
    rows.push_back(row_with(std::string(6, c), "", ""));
  }
  const std::string hint = RowFilter{"Ben", "", ""}.none_has(rows).front().hint;
  CHECK(hint.find("\"hhhhhh\", …") != std::string::npos);
  CHECK(hint.find("iiiiii") == std::string::npos);
  const std::string wild =
      RowFilter{std::string(100, 'x') + "\x1b[2J", "", ""}.none_has(rows).front().message;
  CHECK(wild.size() < 80);
  CHECK(RowFilter{"\x1b[2J", "", ""}.none_has(rows).front().message.find('\x1b') ==
        std::string::npos);
}

TEST_CASE("nothing is said of a ledger whose motors have no such word at all") {
  CHECK(RowFilter{"Ben", "", ""}.none_has({row_with("", "club", "May")}).empty());
  CHECK(RowFilter{"Ben", "", ""}.none_has({}).empty());
}
