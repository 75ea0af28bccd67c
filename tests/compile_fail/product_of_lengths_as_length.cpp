// SPDX-License-Identifier: MIT
// expect: conversion from .*Area.* requested | no viable conversion from '[a-z:]*Area'
#include "base/quantity.h"
using namespace loopledger;
const Length kWrong = Length::mm(3) * Length::mm(1);
