// SPDX-License-Identifier: MIT
//
// Runs that must have done what they were asked, where their exit code is not the matter of the
// test: without that, "it is not in the text" would hold after any failure too.
#pragma once

#include <doctest/doctest.h>

#include "support/cli_run.h"

namespace loopledger::test {

/// What ran, which must have ended with exit code 0.
inline Ran done(Ran ran) {
  REQUIRE_MESSAGE(ran.code == 0, ran.err);
  return ran;
}

}  // namespace loopledger::test
