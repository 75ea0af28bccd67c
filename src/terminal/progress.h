// SPDX-License-Identifier: MIT
//
// "reading records: 12000 of 100000" on standard error, for work that takes more than a second:
// only on a terminal, and gone when the work is done.
#pragma once

#include <atomic>
#include <chrono>
#include <cstddef>
#include <functional>
#include <iosfwd>
#include <memory>
#include <mutex>
#include <string>

#include "commands/world.h"

namespace loopledger::terminal {

class LineProgress : public commands::Progress {
 public:
  using Instant = std::chrono::steady_clock::time_point;
  LineProgress(std::ostream& err, std::string doing, std::size_t total,
               std::function<Instant()> now = std::chrono::steady_clock::now);
  LineProgress(const LineProgress&) = delete;
  LineProgress& operator=(const LineProgress&) = delete;
  ~LineProgress() override { take_back(); }

  /// One more is done. May be called from several threads at once.
  void step() override;
  /// Takes the line back, for other output; the next step may show it again.
  void hide() override { take_back(); }

 private:
  void take_back();

  std::ostream& err_;
  std::string doing_;
  std::size_t total_;
  std::function<Instant()> now_;
  Instant next_;  ///< when it is to be shown
  std::atomic<std::size_t> done_{0};
  std::mutex drawing_;
  bool shown_ = false;
};

/// For World::progress: such a line for each work. @pre `err` outlives them
[[nodiscard]] std::function<std::unique_ptr<commands::Progress>(std::string, std::size_t)>
line_progress(std::ostream& err);

}  // namespace loopledger::terminal
