// SPDX-License-Identifier: MIT
#include "posix/random_key.h"

#include <random>
#include <string_view>

namespace loopledger::posix {

std::string random_four() {
  constexpr std::string_view kCharacters = "abcdefghijklmnopqrstuvwxyz0123456789";
  std::random_device source;
  std::uniform_int_distribution<std::size_t> pick(0, kCharacters.size() - 1);
  std::string four;
  for (int i = 0; i < 4; ++i) {
    four += kCharacters[pick(source)];
  }
  return four;
}

}  // namespace loopledger::posix
