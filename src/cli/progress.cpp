// SPDX-License-Identifier: MIT
#include "cli/progress.h"

#include <fmt/format.h>

#include <ostream>
#include <utility>

namespace loopledger::cli {
namespace {

constexpr auto kPatience = std::chrono::seconds(1);
constexpr auto kBetween = std::chrono::milliseconds(100);
constexpr const char* kTakeBack = "\r\x1b[K";

}  // namespace

Progress::Progress(Context& context, std::string doing, std::size_t total,
                   std::function<Instant()> now)
    : context_(context),
      doing_(std::move(doing)),
      total_(total),
      now_(std::move(now)),
      next_(context.err_terminal ? now_() + kPatience : Instant{}) {}

void Progress::step() {
  const std::size_t done = ++done_;
  if (!context_.err_terminal) {
    return;
  }
  const std::unique_lock lock(drawing_, std::try_to_lock);
  if (!lock.owns_lock()) {
    return;  // another thread is at it
  }
  if (const Instant at = now_(); at >= next_ && done < total_) {
    next_ = at + kBetween;
    shown_ = true;
    context_.err << fmt::format("{}{}: {} of {}", kTakeBack, doing_, done, total_) << std::flush;
  }
}

void Progress::hide() {
  const std::lock_guard lock(drawing_);
  if (std::exchange(shown_, false)) {
    context_.err << kTakeBack << std::flush;
  }
}

}  // namespace loopledger::cli
