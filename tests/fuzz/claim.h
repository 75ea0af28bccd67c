// SPDX-License-Identifier: MIT
//
// How a fuzz target says what must hold.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

#include "base/result.h"

namespace loopledger::fuzz {

/// A claim that did not hold. Nothing catches it in the fuzzer, so that it counts as a crash.
struct Broken : std::logic_error {
  using std::logic_error::logic_error;
};

/// @param about what the claim failed on, shown with it
void claim(bool holds, std::string_view what, std::string_view about = {});

/// The text may go to a terminal as it is: well-formed UTF-8, no control and no mark of direction;
/// line feeds only where `lines`.
void claim_harmless(std::string_view text, bool lines = false);

/// What every reader's diagnostics must be: a code and a message in each, few for the size of the
/// input, each of bounded size, and harmless when printed. Without a value there is an error.
void claim_diagnostics(const Diagnostics& diagnostics, std::size_t input_bytes);

template <class T>
void claim_result(const Result<T>& result, std::size_t input_bytes) {
  claim_diagnostics(result.diagnostics(), input_bytes);
  claim(result.ok() || has_errors(result.diagnostics()), "no value and no error");
}

}  // namespace loopledger::fuzz
