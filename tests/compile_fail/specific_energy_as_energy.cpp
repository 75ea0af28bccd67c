// SPDX-License-Identifier: MIT
// expect: conversion from .*SpecificEnergy.* requested | no viable conversion from .*Specific
#include "base/quantity.h"
using namespace loopledger;
const Energy kWrong = SpecificEnergy::joule_per_g(9);
