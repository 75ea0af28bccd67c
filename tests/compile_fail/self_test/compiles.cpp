// SPDX-License-Identifier: MIT
// expect: no match for 'operator+' | invalid operands to binary expression
#include "base/quantity.h"
static_assert(loopledger::Mass::g(1) + loopledger::Mass::g(1) > loopledger::Mass::g(1));
