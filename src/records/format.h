// SPDX-License-Identifier: MIT
//
// The format of a record on disk, version 1. One motor is one file, named by its id: "TH-01.toml".
// It is TOML that a person can read and, with care, write.
//
//   # comments and blank lines may stand anywhere and are never touched
//   format = 1
//   id = "TH-01"
//   check = "K"
//
//   [planned]
//   owner = "ANNA"
//   aim = "1.4935 g"
//   …                                   one key a line: records/planned_fields.h
//   sum = "5f1d2a07"
//
//   [entries]
//   "20260501T100000Z-b7k2" = { kind = "wound", turns = 1200, torque = "41 gf.cm", sum = "91c2…" }
//
// Grammar
//   record   = head "[entries]" line-end { line }
//   head     = lines of TOML; the last one that says anything is `sum = "` 8 hex digits `"`
//   line     = entry | comment | blank
//   entry    = key " = { kind = " word { ", " field } sum " }" [ blanks comment ] line-end
//   key      = '"' yyyymmdd "T" hhmmss "Z-" 4 of a-z 0-9 '"'      a claimed time in UTC
//   field    = name " = " value                                   records/fields.h
//   sum      = ', sum = "' 8 hex digits '"'
//   line-end = LF, or CR LF
// Numbers are only counts, factors and turns; every other quantity is a string with its unit, as
// it was typed or as base/quantity_text.h's exact() writes it.
//
// Checksums are CRC-32C (records/crc32c.h): against damage, not against forgery.
// - An entry's is over the bytes of its line from the first up to, not including, the `, sum = "`.
// - The head's is over each line before its sum line, in order, each without its line end and
//   followed by one LF; lines that are blank or only a comment are left out. So comments may be
//   added without ado, and line ends may change between systems.
// A line whose sum is missing or wrong is "edited": it is shown as such and not relied on.
//
// A whole entry ends in a line end. What follows the last line end is a torn end: it is reported,
// everything before it still reads, and nothing is appended until it has been moved away. One line
// a write, so that a crash can tear only the last one; one line an entry, so that one bad line does
// not hide the others and two people's additions merge line by line.
//
// Dropped: a binary log (nobody could read it in ten years), entries as [[tables]] of several
// lines (a merge may weave them), rewriting the file on each change (a crash loses everything).
//
// Promise: names of keys, kinds and words are never used again for something else. A reader keeps
// and shows what it doesn't know. A change that an old reader would misread gets a new `format`.
#pragma once

#include <cstddef>
#include <cstdint>

namespace loopledger::records {

inline constexpr int kFormat = 1;

// Bounds on what is read, far above what a motor's life needs.
inline constexpr std::uint64_t kMaxRecordBytes = 16U << 20;
inline constexpr std::size_t kMaxEntries = 20'000;
inline constexpr std::size_t kMaxLineBytes = 32U << 10;
inline constexpr std::size_t kMaxFields = 200;          ///< of one entry, newer ones among them
inline constexpr std::size_t kMaxHeadBytes = 1U << 20;  ///< of what stands before the entries
inline constexpr std::size_t kMaxHeadKeys = 300;        ///< of [planned]
inline constexpr std::size_t kMaxWarnings = 1000;       ///< told of one record
inline constexpr std::size_t kMaxTextPoints = 1000;     ///< code points of a text field
inline constexpr std::size_t kMaxPairs = 500;           ///< turns and torque of one winding

}  // namespace loopledger::records
