// SPDX-License-Identifier: MIT
//
// The last rung: a symbol read module by module. What each module was is worked back from the
// blurred picture (least squares, for several widths of blur), what is known of the symbol is put
// in place, and the clean symbol is given to the library to decode, error correction and all.
#pragma once

#include <vector>

#include "photo/grey.h"
#include "photo/symbols.h"

namespace loopledger::photo {

/// Decoded symbols only, in the coordinates of `picture`; none when the effort is used up.
[[nodiscard]] std::vector<Symbol> symbols_by_grid(const Grey& picture, Effort& effort);

}  // namespace loopledger::photo
