// SPDX-License-Identifier: MIT
// expect: has no member named 'in_g' | no member named 'in_g'
#include "base/quantity.h"
using namespace loopledger;
const double kWrong = Length::mm(300).in_g();
