// SPDX-License-Identifier: MIT
//
// How the program knows a PDF as its own, so that it never replaces another's: the document
// information holds the size of the file as it was written. A program that saves the file again, or
// adds to it, changes the size; a piece of the file has another size too.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace loopledger::pdf {

inline constexpr char kMarkKey[] = "Loopledger";
/// The mark's value in a file that has no size yet; as long as it will be.
inline constexpr char kMarkBlank[] = "000000000000 bytes";
/// The mark stands within so many bytes of the file's beginning.
inline constexpr std::size_t kMarkWithin = 64U << 10;

/// Writes the size into the blank mark of a finished file. False: there is none.
[[nodiscard]] bool put_mark(std::string& file);

/// Whether a file that begins with `head` (kMarkWithin bytes, or all of it) and is `size` bytes
/// long is one of ours as it was written.
[[nodiscard]] bool has_mark(std::string_view head, std::uint64_t size);

}  // namespace loopledger::pdf
