// SPDX-License-Identifier: MIT
#include "terminal/progress.h"

#include <fmt/format.h>

#include <ostream>
#include <utility>

namespace loopledger::terminal {
namespace {

constexpr auto kPatience = std::chrono::seconds(1);
constexpr auto kBetween = std::chrono::milliseconds(100);
constexpr const char* kTakeBack = "\r\x1b[K";

}  // namespace

LineProgress::LineProgress(std::ostream& err, std::string doing, std::size_t total,
                           std::function<Instant()> now)
    : err_(err),
      doing_(std::move(doing)),
      total_(total),
      now_(std::move(now)),
      next_(now_() + kPatience) {}

void LineProgress::step() {
  const std::size_t done = ++done_;
  const std::unique_lock lock(drawing_, std::try_to_lock);
  if (!lock.owns_lock()) {
    return;  // another thread is at it
  }
  if (const Instant at = now_(); at >= next_ && done < total_) {
    next_ = at + kBetween;
    shown_ = true;
    err_ << fmt::format("{}{}: {} of {}", kTakeBack, doing_, done, total_) << std::flush;
  }
}

void LineProgress::take_back() {
  const std::lock_guard lock(drawing_);
  if (std::exchange(shown_, false)) {
    err_ << kTakeBack << std::flush;
  }
}

std::function<std::unique_ptr<commands::Progress>(std::string, std::size_t)> line_progress(
    std::ostream& err) {
  return [&err](std::string doing, std::size_t steps) {
    return std::make_unique<LineProgress>(err, std::move(doing), steps);
  };
}

}  // namespace loopledger::terminal
