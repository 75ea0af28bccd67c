// SPDX-License-Identifier: MIT
//
// Standard input, output and error as streams that remember why they failed: results that nobody
// could read must not end in exit code 0. Used by main.cpp alone.
#pragma once

#include <array>
#include <ostream>
#include <streambuf>
#include <string>

#include "base/paint.h"
#include "posix/environment.h"

namespace loopledger::posix {

/// A descriptor that was closed before the program began is opened so that using it fails. Else
/// the first file that the program opens would take its place, and results would end up in it.
void fill_closed_descriptors();

/// Reads a descriptor. What can't be read makes its stream bad, not just empty.
class InputBuffer : public std::streambuf {
 public:
  explicit InputBuffer(int fd) : fd_(fd) {}

 protected:
  int_type underflow() override;

 private:
  int fd_;
  std::array<char, 8192> buffer_{};
};

/// Writes a descriptor. After the first failure all else is dropped.
class OutputBuffer : public std::streambuf {
 public:
  explicit OutputBuffer(int fd);
  /// errno of the first write that failed; 0: none did.
  [[nodiscard]] int failure() const { return failure_; }

 protected:
  int_type overflow(int_type c) override;
  int sync() override;

 private:
  int fd_;
  int failure_ = 0;
  std::array<char, 16384> buffer_{};
};

/// The exit code once all is written: kEnvironment instead of kDone when what was said got lost,
/// which `err` is told of. A reader that has gone away (`| head -1`) has what it wanted.
[[nodiscard]] int after_output(int code, const OutputBuffer& out, const OutputBuffer& errors,
                               std::ostream& err, Paint paint);

/// Whether the terminal can colour words and take a line back.
[[nodiscard]] bool is_able(bool is_terminal, const Environment& env);
/// Coloured on an able terminal, unless NO_COLOR holds anything.
[[nodiscard]] Paint paint_on(bool is_terminal, const Environment& env);

}  // namespace loopledger::posix
