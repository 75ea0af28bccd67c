// SPDX-License-Identifier: MIT
//
// "reading records: 12000 of 100000" on standard error, for work that takes more than a second:
// only on a terminal, and gone when the work is done.
#pragma once

#include <atomic>
#include <chrono>
#include <cstddef>
#include <functional>
#include <mutex>
#include <string>

#include "cli/command.h"

namespace loopledger::cli {

class Progress {
 public:
  using Instant = std::chrono::steady_clock::time_point;
  Progress(Context& context, std::string doing, std::size_t total,
           std::function<Instant()> now = std::chrono::steady_clock::now);
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  ~Progress() { hide(); }

  /// One more is done. May be called from several threads at once.
  void step();
  /// Takes the line back, for other output; the next step may show it again.
  void hide();

 private:
  Context& context_;
  std::string doing_;
  std::size_t total_;
  std::function<Instant()> now_;
  Instant next_;  ///< when it is to be shown
  std::atomic<std::size_t> done_{0};
  std::mutex drawing_;
  bool shown_ = false;
};

}  // namespace loopledger::cli
