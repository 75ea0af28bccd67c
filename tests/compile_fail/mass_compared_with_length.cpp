// SPDX-License-Identifier: MIT
// expect: no match for 'operator<' | invalid operands to binary expression
#include "base/quantity.h"
using namespace loopledger;
const bool kWrong = Mass::g(1.5) < Length::mm(300);
