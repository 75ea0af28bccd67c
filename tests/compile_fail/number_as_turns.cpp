// SPDX-License-Identifier: MIT
// expect: could not convert .*double.* to .*Turns | no matching function for call to 'work'
#include "base/quantity.h"
using namespace loopledger;
const Energy kWrong = work(Torque::mnm(3), 100.0);
