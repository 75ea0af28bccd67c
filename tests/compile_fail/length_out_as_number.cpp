// SPDX-License-Identifier: MIT
// expect: cannot convert .*Length.* to 'const double' | no viable conversion from .*Length
#include "base/quantity.h"
using namespace loopledger;
const double kWrong = Length::mm(12.5);
