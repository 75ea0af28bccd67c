// SPDX-License-Identifier: MIT
#include "posix/interrupt.h"

#include <unistd.h>

#include <algorithm>
#include <atomic>

namespace loopledger::posix {
namespace {

constexpr std::array kTaken{SIGINT, SIGTERM, SIGHUP};

// A signal's handler reaches nothing but globals, and of those only what no lock guards.
std::atomic<bool> is_idle{false};
std::atomic<int> came{0};
std::array<char, 400> farewell_text{};
std::atomic<std::size_t> farewell_size{0};
static_assert(std::atomic<bool>::is_always_lock_free && std::atomic<int>::is_always_lock_free &&
              std::atomic<std::size_t>::is_always_lock_free);

void end_by(int number) {
  // Nothing can be done about a terminal that is gone.
  (void)!::write(STDERR_FILENO, farewell_text.data(), farewell_size);
  std::signal(number, SIG_DFL);
  (void)::raise(number);
}

void take_signal(int number) {
  if (is_idle) {
    end_by(number);
  } else {
    came = number;
  }
}

}  // namespace

Interrupt::Interrupt() {
  came = 0;
  is_idle = false;
  struct sigaction action {};
  action.sa_handler = take_signal;
  action.sa_flags = SA_RESTART;
  for (std::size_t i = 0; i < kTaken.size(); ++i) {
    ::sigaction(kTaken[i], nullptr, &before_[i]);
    if (before_[i].sa_handler != SIG_IGN) {  // as under nohup
      ::sigaction(kTaken[i], &action, nullptr);
    }
  }
}

Interrupt::~Interrupt() {
  is_idle = false;
  for (std::size_t i = 0; i < kTaken.size(); ++i) {
    ::sigaction(kTaken[i], &before_[i], nullptr);
  }
  if (came != 0) {
    (void)::raise(came);
  }
}

void Interrupt::idle(const std::string& farewell) {
  const std::size_t size = std::min(farewell.size(), farewell_text.size());
  std::copy_n(farewell.data(), size, farewell_text.data());
  farewell_size = size;
  is_idle = true;
  if (const int number = came.exchange(0); number != 0) {
    end_by(number);
  }
}

void Interrupt::busy() { is_idle = false; }

}  // namespace loopledger::posix
