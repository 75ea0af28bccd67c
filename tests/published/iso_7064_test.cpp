// SPDX-License-Identifier: MIT
//
// ISO/IEC 7064, hybrid systems. The worked value for MOD 37,36 and the strings of MOD 11,10 were
// read in public pages on the standard; what the standard promises about slips is counted here.
#include <doctest/doctest.h>

#include <string>
#include <utility>

#include "tag/id.h"

using loopledger::MotorId;
using loopledger::tag::check_character;
using loopledger::tag::id_from;
using loopledger::tag::with_check;

namespace {

constexpr std::string_view kAlphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";

/// Whether the last character is the check of those before it.
bool is_right(const std::string& row) {
  return check_character(row.substr(0, row.size() - 1)) == row.back();
}

/// The id with its check, without hyphens.
std::string row_of(const MotorId& id) {
  std::string row;
  for (const char c : with_check(id)) {
    if (c != '-') {
      row += c;
    }
  }
  return row;
}

}  // namespace

TEST_CASE("ISO/IEC 7064 MOD 37,36: A12425GABC1234002 has the check character M") {
  CHECK(check_character("A12425GABC1234002") == 'M');
}

TEST_CASE("ISO/IEC 7064 MOD 37,36: every single wrong character is caught") {
  int slips = 0;
  int missed = 0;
  for (int number = 1; number <= 999; ++number) {
    const std::string right = row_of({"TH", number});
    for (std::size_t i = 0; i < right.size(); ++i) {
      for (const char c : kAlphabet) {
        std::string row = right;
        row[i] = c;
        slips += row == right ? 0 : 1;
        missed += row != right && is_right(row) ? 1 : 0;
      }
    }
  }
  CHECK(slips == 35 * (5 * 99 + 6 * 900));
  CHECK(missed == 0);
}

TEST_CASE("ISO/IEC 7064 MOD 37,36: swaps of neighbours are caught but for the known few") {
  // Over all pairs of different neighbours behind every state of the sum. With p the state, a pair
  // (a, b) slips through when both orders lead to the same next state.
  int swaps = 0;
  int missed = 0;
  for (const char before : kAlphabet) {
    for (const char a : kAlphabet) {
      for (const char b : kAlphabet) {
        if (a == b) {
          continue;
        }
        ++swaps;
        missed +=
            check_character(std::string{before, a, b}) == check_character(std::string{before, b, a})
                ? 1
                : 0;
      }
    }
  }
  CHECK(swaps == 36 * 36 * 35);
  CHECK(missed == 72);  // two for each character before them
}

TEST_CASE("no single wrong character in a typed id is read as another id with a right check") {
  int slips = 0;
  int missed = 0;
  int unchecked = 0;  // 0 and 1 as check are accepted for O and I, but do not count as checked
  for (int number = 1; number <= 99; ++number) {
    const MotorId id{"TH", number};
    const std::string right = with_check(id);
    for (std::size_t i = 0; i < right.size(); ++i) {
      for (const char c : kAlphabet) {
        std::string typed = right;
        if (right[i] == '-' || right[i] == c) {
          continue;
        }
        typed[i] = c;
        ++slips;
        const auto read = id_from(typed);
        const bool other = read.ok() && read->id != id;
        missed += other && read->checked ? 1 : 0;
        unchecked += other && !read->checked ? 1 : 0;
      }
    }
  }
  CHECK(slips == 99 * 5 * 35);
  CHECK(missed == 0);
  CHECK(unchecked == 31);
}
