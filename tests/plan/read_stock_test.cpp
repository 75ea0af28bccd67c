// SPDX-License-Identifier: MIT
#include "plan/read_stock.h"

#include <doctest/doctest.h>

using namespace loopledger;
using plan::read_stock;

TEST_CASE("a stock without columns is plain paper") {
  const auto stock = read_stock("paper = [\"210 mm\", \"297 mm\"]\n", "a4.toml", "a4");
  REQUIRE(stock.ok());
  CHECK_FALSE(stock->is_labels());
  CHECK(stock->paper_height == Length::mm(297));
}

TEST_CASE("a grid is read whole; pitch is the label's size when not given") {
  const auto stock = read_stock(
      "paper = [\"210 mm\", \"297 mm\"]\ncolumns = 3\nrows = 8\nlabel = [\"70 mm\", \"37 mm\"]\n"
      "top = \"0.5 mm\"\n",
      "s.toml", "s");
  REQUIRE_MESSAGE(stock.ok(), render(stock.diagnostics()));
  CHECK(stock->per_sheet() == 24);
  CHECK(stock->pitch_x == Length::mm(70));
  CHECK(stock->left == Length::mm(0));
}

TEST_CASE("labels that don't close on their sheet are an error with the sum") {
  const auto stock = read_stock(
      "paper = [\"210 mm\", \"297 mm\"]\ncolumns = 3\nrows = 8\nlabel = [\"70 mm\", \"37 mm\"]\n"
      "left = \"1 mm\"\ntop = \"2 mm\"\n",
      "s.toml", "s");
  REQUIRE_FALSE(stock.ok());
  CHECK(stock.diagnostics().front().message ==
        "across: 1 mm + 2 x 70 mm + 70 mm = 211 mm passes the paper's 210 mm");
  CHECK(stock.diagnostics().back().message ==
        "down: 2 mm + 7 x 37 mm + 37 mm = 298 mm passes the paper's 297 mm");
}

TEST_CASE("an empty pair is a fault, and one pair is told once") {
  const auto stock = read_stock(
      "paper = [\"210 mm\", \"297 mm\"]\ncolumns = 3\nrows = 8\nlabel = [\"70 mm\", \"37 mm\"]\n"
      "pitch = []\n",
      "s.toml", "s");
  REQUIRE_FALSE(stock.ok());
  REQUIRE(stock.diagnostics().size() == 1);
  CHECK(stock.diagnostics().front().message == "pitch: expected two lengths, across and down");
}

TEST_CASE("labels that overlap are an error") {
  const auto stock = read_stock(
      "paper = [\"210 mm\", \"297 mm\"]\ncolumns = 2\nrows = 1\nlabel = [\"70 mm\", \"37 mm\"]\n"
      "pitch = [\"60 mm\", \"37 mm\"]\n",
      "s.toml", "s");
  REQUIRE_FALSE(stock.ok());
  CHECK(stock.diagnostics().front().message ==
        "across: a pitch of 60 mm is less than the label's 70 mm");
}

TEST_CASE("half a grid says what is missing") {
  const auto stock = read_stock("paper = [\"210 mm\", \"297 mm\"]\ncolumns = 2\n", "s.toml", "s");
  REQUIRE_FALSE(stock.ok());
  CHECK(stock.diagnostics().front().message == "stock \"s\": expected the key `rows`, found none");
}
