// SPDX-License-Identifier: MIT
// expect: no match for 'operator+' | invalid operands to binary expression
#include "base/quantity.h"
using namespace loopledger;
const auto kWrong = Uncertain<Mass>{} + Uncertain<Mass>{};
