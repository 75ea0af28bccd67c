// SPDX-License-Identifier: MIT
// expect: conversion from .*Area.* requested | no viable conversion from '[a-z:]*Area'
#include "base/quantity.h"
using namespace loopledger;
const Length kWrong = Area::mm2(5);
