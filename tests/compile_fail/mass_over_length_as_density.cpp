// SPDX-License-Identifier: MIT
// expect: conversion from .*LinearDensity.* requested | no viable conversion from .*LinearDensity
#include "base/quantity.h"
using namespace loopledger;
const Density kWrong = Mass::g(1.5) / Length::m(0.6);
