// SPDX-License-Identifier: MIT
//
// What `scan` is given -> the tags in it: image files, folders of them, and standard input, which
// may be an image or typed tags, one a line.
#pragma once

#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "commands/world.h"
#include "tag/tag_text.h"

namespace loopledger::commands {

struct ReadTag {
  std::string text;  ///< as the label has it, or as typed
  tag::TagFigures figures;
};

/// One picture, or what was typed.
struct ReadImage {
  std::string file;  ///< "-": standard input
  std::vector<ReadTag> tags;
  Diagnostics said;  ///< with the file as their place
};

/// The files behind the arguments, in their order: a folder stands for the pictures in it, by
/// name. `said` gets an error for a folder without any.
[[nodiscard]] std::vector<std::string> image_files(const std::vector<std::string>& arguments,
                                                   Files& files, Diagnostics& said);

/// Errors in `said`: those of reading a file (disk-…), of an image (image-…), none-label when it
/// shows none, and of typed tags (tag-…, id-…); notes scan-foreign for other QR codes.
[[nodiscard]] ReadImage read_tags(const std::string& file, Files& files);

}  // namespace loopledger::commands
