// SPDX-License-Identifier: MIT
#include "calc/libraries.h"

#include <fmt/format.h>

#include <boost/version.hpp>

namespace loopledger::calc {

std::vector<Library> libraries() {
  return {{"Boost", fmt::format("{}.{}.{}", BOOST_VERSION / 100000, BOOST_VERSION / 100 % 1000,
                                BOOST_VERSION % 100)}};
}

}  // namespace loopledger::calc
