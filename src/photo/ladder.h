// SPDX-License-Identifier: MIT
//
// The rungs of the ladder: ways to prepare a picture so that a symbol in it can be read, the most
// fruitful first. Chosen on pictures of labels degraded in many ways: each rung reads some that
// the rungs before it do not.
#pragma once

#include <span>

#include "photo/grey.h"
#include "photo/symbols.h"

namespace loopledger::photo {

struct Rung {
  Grey (*prepare)(const Grey&);
  int scale;  ///< how much larger the prepared picture is
  Threshold threshold;
};

/// All rungs above the picture as it is.
[[nodiscard]] std::span<const Rung> ladder();

/// The symbols that a rung finds, in the coordinates of `picture`.
[[nodiscard]] std::vector<Symbol> symbols_by(const Rung& rung, const Grey& picture, Effort& effort);

}  // namespace loopledger::photo
