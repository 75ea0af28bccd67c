// SPDX-License-Identifier: MIT
// expect: conversion from 'double' to non-scalar type .*Length | no viable conversion from 'double'
#include "base/quantity.h"
using namespace loopledger;
const Length kWrong = 12.5;
