// SPDX-License-Identifier: MIT
//
// What the fuzzer calls. FUZZ_TARGET in the environment names one of targets.h.
#include <array>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string_view>
#include <utility>

#include "fuzz/targets.h"

namespace {

using Target = void (*)(std::string_view);

Target target_named(std::string_view name) {
  namespace fuzz = loopledger::fuzz;
  constexpr std::array<std::pair<std::string_view, Target>, 7> kTargets{{
      {"image", fuzz::image},
      {"plan", fuzz::plan},
      {"quantity", fuzz::quantity},
      {"record", fuzz::record},
      {"scan", fuzz::scan},
      {"tag", fuzz::tag},
      {"templates", fuzz::templates},
  }};
  for (const auto& [known, target] : kTargets) {
    if (known == name) {
      return target;
    }
  }
  std::fputs("FUZZ_TARGET names no target of tests/fuzz/targets.h\n", stderr);
  std::exit(2);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const Target kTarget = [] {
    const char* const name = std::getenv("FUZZ_TARGET");
    return target_named(name != nullptr ? name : "");
  }();
  kTarget({reinterpret_cast<const char*>(data), size});
  return 0;
}
