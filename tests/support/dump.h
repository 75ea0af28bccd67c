// SPDX-License-Identifier: MIT
//
// A document as text, one item a line with millimetres to a hundredth: what tests compare and what
// a developer reads to see where something stands.
#pragma once

#include <string>

#include "page/page.h"

namespace loopledger::test {

[[nodiscard]] std::string dump(const page::Document& document);

}  // namespace loopledger::test
