// SPDX-License-Identifier: MIT
//
// What came of a program that ran.
#pragma once

#include <string>

namespace loopledger::test {

struct Ran {
  int code = -1;
  std::string out;
  std::string err;
};

}  // namespace loopledger::test
