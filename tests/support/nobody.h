// SPDX-License-Identifier: MIT
//
// Somebody who may not write what root may.
#pragma once

#include <unistd.h>

#include <cstdlib>

namespace loopledger::test {

/// As such a one while it lives, where the test runs as root; else nothing changes.
class Nobody {
 public:
  Nobody() : user_(::geteuid()) { changed_ = user_ == 0 && ::seteuid(65534) == 0; }
  Nobody(const Nobody&) = delete;
  Nobody& operator=(const Nobody&) = delete;
  ~Nobody() {
    if (changed_ && ::seteuid(user_) != 0) {
      std::abort();
    }
  }

 private:
  uid_t user_;
  bool changed_ = false;
};

}  // namespace loopledger::test
