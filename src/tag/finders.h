// SPDX-License-Identifier: MIT
//
// Places in a picture that look like the corner squares of a QR symbol (its finder patterns,
// ISO/IEC 18004: dark 3 x 3, light ring, dark ring, light ring). Found by likeness, not by runs of
// dark and light along a line, so that blur, noise and a low contrast cost little.
#pragma once

#include <vector>

#include "tag/grey.h"
#include "tag/symbols.h"

namespace loopledger::tag {

struct Finder {
  Point at;             ///< centre, pixels
  double module = 0;    ///< pixels a module
  double likeness = 0;  ///< correlation with the pattern, 0 to 1
};

/// The most alike first, none within another. Modules of about 1.1 pixels and more.
[[nodiscard]] std::vector<Finder> finders_in(const Grey& picture);

}  // namespace loopledger::tag
