// SPDX-License-Identifier: MIT
//
// The calls of the operating system that change a disk, made to fail or to kill at the Nth of them.
// A test that links this with the options of tests/terminal/CMakeLists.txt (--wrap) sends the
// program's own calls through here; those of the standard library go past it.
#pragma once

namespace loopledger::test {

enum class Fault {
  none,      ///< only counted
  full,      ///< the disk is full from this call on; a write puts down half of it
  die,       ///< SIGKILL once this call is done
  die_half,  ///< SIGKILL when half of this write is done; at another call as `die`
};

/// Counts from one anew: the `nth` call has the fault.
void plan_fault(int nth, Fault fault);
/// Calls since then.
[[nodiscard]] int calls_counted();
/// Whether the last counted call was a write.
[[nodiscard]] bool last_was_write();

}  // namespace loopledger::test
