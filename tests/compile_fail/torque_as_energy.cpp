// SPDX-License-Identifier: MIT
// expect: conversion from .*Torque.* requested | no viable conversion from '[a-z:]*Torque'
#include "base/quantity.h"
using namespace loopledger;
const Energy kWrong = Torque::mnm(1);
