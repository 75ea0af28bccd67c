// SPDX-License-Identifier: MIT
#include "pdf/tounicode.h"

#include <fmt/format.h>

#include <algorithm>

namespace loopledger::pdf {

std::string identity_to_unicode() {
  // A range may not run over the last byte of the code, and a block holds at most 100 of them.
  constexpr int kRanges = 256;
  constexpr int kBlock = 100;
  std::string map =
      "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
      "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
      "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
      "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n";
  for (int first = 0; first < kRanges; first += kBlock) {
    const int last = std::min(first + kBlock, kRanges);
    map += fmt::format("{} beginbfrange\n", last - first);
    for (int high = first; high < last; ++high) {
      map += fmt::format("<{0:02X}00> <{0:02X}FF> <{0:02X}00>\n", high);
    }
    map += "endbfrange\n";
  }
  map += "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
  return map;
}

}  // namespace loopledger::pdf
