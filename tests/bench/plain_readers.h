// SPDX-License-Identifier: MIT
//
// The two libraries for QR codes called plainly on a picture: one call, their own settings, QR
// codes alone. What bench_scan holds the ladder against.
#pragma once

#include <string>
#include <vector>

#include "photo/grey.h"

namespace loopledger::bench {

[[nodiscard]] std::vector<std::string> texts_by_zxing(const photo::Grey& picture);

/// Whether zbar's header and library were there when this was built.
[[nodiscard]] bool has_zbar();
[[nodiscard]] std::vector<std::string> texts_by_zbar(const photo::Grey& picture);

}  // namespace loopledger::bench
