// SPDX-License-Identifier: MIT
// expect: could not convert .*Turns.* to .*Torque | no matching function for call to 'work'
#include "base/quantity.h"
using namespace loopledger;
const Energy kWrong = work(Turns::of(100), Torque::mnm(3));
