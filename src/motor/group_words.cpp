// SPDX-License-Identifier: MIT
#include "motor/group_words.h"

#include <fmt/format.h>

namespace loopledger::motor {

std::string ids_text(const MotorId& first, int last) {
  return last == first.number ? printed(first) : fmt::format("{}…{:02}", printed(first), last);
}

std::string ids_text(const plan::MotorGroup& group) {
  return ids_text({group.stem.value, group.first.value}, group.first.value + group.count.value - 1);
}

}  // namespace loopledger::motor
