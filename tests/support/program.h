// SPDX-License-Identifier: MIT
//
// The program itself, run by a shell in a folder: for what only a process of its own shows, such as
// closed descriptors, pipes and signals. LOOPLEDGER_PROGRAM names it.
#pragma once

#include <sys/wait.h>

#include <cstdlib>
#include <string>

#include "support/cli_run.h"

namespace loopledger::test {

/// What a shell does with `script`, which calls the program `$LL`, in the folder. The exit code is
/// the script's. The files sh.out, sh.err, sh.program in the folder are ours:
/// a link, because `$LL` must be one word wherever the program was built.
inline Ran shell(const TempFolder& folder, const std::string& script) {
  folder.write("sh.script", "exec >sh.out 2>sh.err\nln -sf '" LOOPLEDGER_PROGRAM
                            "' sh.program\nLL=$PWD/sh.program\n" +
                                script + "\n");
  const int status = std::system(  // NOLINT(concurrency-mt-unsafe)
      ("cd '" + folder.path() + "' && sh sh.script").c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, folder.read("sh.out"),
          folder.read("sh.err")};
}

}  // namespace loopledger::test
