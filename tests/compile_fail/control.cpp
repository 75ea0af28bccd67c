// SPDX-License-Identifier: MIT
// The right mixes: this one must compile with the flags that refuse all the others.
#include "base/quantity.h"
using namespace loopledger;

static_assert(Torque::mnm(1) + Torque::gf_cm(40) > Torque::mnm(4));
static_assert(work(Torque::mnm(1), Turns::of(100)) + Energy::joule(1) > Energy::joule(1.6));
static_assert(LinearDensity::g_per_m(2.4) * Length::mm(600) + Mass::g(1.5) * Share::percent(2) >
              Mass::g(1.4));
static_assert((Mass::g(1.5) / LinearDensity::g_per_m(2.5) - Length::mm(16)) / 2 < Length::mm(293));
static_assert(Length::mm(3) * Length::mm(1) * Density::g_per_cm3(0.93) <
              LinearDensity::g_per_m(2.8));
static_assert(Length::mm(30) / Length::mm(10) > 2.99);
Length side() { return sqrt(LinearDensity::g_per_m(2.4) / Density::g_per_cm3(0.93)); }
