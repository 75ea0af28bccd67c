// SPDX-License-Identifier: MIT
//
// What is fuzzed: one function for each reader of text or bytes from outside. Each takes any bytes,
// reads them as the program would, and throws `Broken` when one of its claims does not hold. The
// fuzzer calls them with bytes of its own making, fuzz_test.cpp with every file in seeds/ and
// found/.
#pragma once

#include <string_view>

namespace loopledger::fuzz {

/// Quantities, numbers, dates and small texts of base/.
void quantity(std::string_view input);
/// A plan, its shelf and a template, between lines of four #.
void plan(std::string_view input);
/// The small files of templates/ and of the user: stock, label layout, printer.
void templates(std::string_view input);
/// A motor's record: reading, adding to it, mending it.
void record(std::string_view input);
/// Tags and ids, as labels have them and as people type them.
void tag(std::string_view input);
/// Bytes of an image file -> grey picture.
void image(std::string_view input);
/// A picture -> the labels in it: an image file, or a byte for the width and then grey pixels.
void scan(std::string_view input);

}  // namespace loopledger::fuzz
