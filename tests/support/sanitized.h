// SPDX-License-Identifier: MIT
//
// Whether this is a build with AddressSanitizer. Tests that go over hundreds of cases to count them
// go over fewer there: it is each case that the sanitizers look at, and they are slow.
#pragma once

namespace loopledger::test {

#if defined(__SANITIZE_ADDRESS__)
inline constexpr bool kSanitized = true;
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
inline constexpr bool kSanitized = true;
#else
inline constexpr bool kSanitized = false;
#endif
#else
inline constexpr bool kSanitized = false;
#endif

/// `usual`, or as many as are enough for the sanitizers.
constexpr int cases(int usual, int sanitized) { return kSanitized ? sanitized : usual; }

}  // namespace loopledger::test
