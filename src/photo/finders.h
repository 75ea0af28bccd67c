// SPDX-License-Identifier: MIT
//
// Places in a picture that look like the corner squares of a QR symbol (its finder patterns,
// ISO/IEC 18004: dark 3 x 3, light ring, dark ring, light ring). Found by likeness, not by runs of
// dark and light along a line, so that blur, noise and a low contrast cost little.
#pragma once

#include <cstddef>
#include <vector>

#include "photo/grey.h"
#include "photo/symbols.h"

namespace loopledger::photo {

struct Finder {
  Point at;             ///< centre, pixels
  double module = 0;    ///< pixels a module
  double likeness = 0;  ///< correlation with the pattern, 0 to 1
};

struct FinderSearch {
  std::size_t most = 14;      ///< finders given
  bool small_modules = true;  ///< from 1.1 pixels a module on; else from 2, in half the time
};

/// The most alike first, none within another.
[[nodiscard]] std::vector<Finder> finders_in(const Grey& picture, const FinderSearch& how = {});

}  // namespace loopledger::photo
