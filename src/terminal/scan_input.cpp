// SPDX-License-Identifier: MIT
#include "terminal/scan_input.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <istream>
#include <string_view>
#include <system_error>
#include <utility>

#include "base/text.h"
#include "photo/image.h"
#include "photo/scan.h"
#include "photo/scan_trouble.h"
#include "posix/files.h"

namespace loopledger::terminal {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kTypedMaxBytes = 1U << 20;
constexpr int kForeignColumns = 70;

bool looks_like_picture(const fs::path& path) {
  static constexpr std::array<std::string_view, 5> kEndings{".jpg", ".jpeg", ".png", ".heic",
                                                            ".webp"};
  const std::string ending = lower_ascii(path.extension().string());
  return std::find(kEndings.begin(), kEndings.end(), ending) != kEndings.end();
}

std::vector<std::string> pictures_in(const std::string& folder, Diagnostics& said) {
  std::vector<std::string> files;
  std::error_code problem;
  fs::directory_iterator at(folder, problem);
  for (; !problem && at != fs::directory_iterator(); at.increment(problem)) {
    std::error_code ignored;
    if (looks_like_picture(at->path()) && at->is_regular_file(ignored)) {
      files.push_back(at->path().string());
    }
  }
  if (problem) {
    said.push_back(
        error("disk-folder", "can't read the folder: " + problem.message(), {}, {folder, 0, 0}));
  } else if (files.empty()) {
    said.push_back(error("disk-folder", "the folder holds no PNG or JPEG picture",
                         "give image files, or a folder of them", {folder, 0, 0}));
  }
  std::sort(files.begin(), files.end());
  return files;
}

/// Text that someone typed or a program wrote, not the bytes of some file.
bool is_typed(std::string_view bytes) {
  return bytes.size() <= kTypedMaxBytes && !first_bad_utf8(bytes) &&
         bytes.find('\0') == std::string_view::npos;
}

void read_typed(std::string_view text, ReadImage& into) {
  int line = 0;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string_view typed = trimmed(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
    ++line;
    if (typed.empty()) {
      continue;
    }
    auto figures = tag::read_tag(typed);
    for (Diagnostic problem : figures.diagnostics()) {
      problem.place.line = line;
      into.said.push_back(std::move(problem));
    }
    if (figures) {
      into.tags.push_back({std::string(typed), std::move(figures).value()});
    }
  }
  if (into.tags.empty() && into.said.empty()) {
    into.said.push_back(error("none-tag", "expected an image or typed tags, found nothing",
                              "type ids such as th1, one a line, or give a picture"));
  }
}

void read_picture(std::string_view bytes, ReadImage& into) {
  auto picture = photo::read_image(bytes);
  append(into.said, picture.diagnostics());
  if (!picture) {
    return;
  }
  photo::Scan scan = photo::scan_picture(*picture);
  if (scan.labels.empty()) {
    into.said.push_back(photo::why_unread(*picture, scan));
  }
  if (scan.more > 0) {
    into.said.push_back(warning(
        "scan-more",
        fmt::format("{} label{} read, and about {} more in the picture: at most {} are looked for",
                    scan.labels.size(), scan.labels.size() == 1 ? " was" : "s were", scan.more,
                    photo::kBoxful),
        "take the picture in parts, half of it at a time"));
  }
  for (const std::string& text : scan.foreign) {
    into.said.push_back(note("scan-foreign", "there is another code in it, no label of ours: \"" +
                                                 printable(shortened(text, kForeignColumns)) +
                                                 "\""));
  }
  for (const std::string& text : scan.other_layout) {
    for (Diagnostic problem : tag::read_label(text).diagnostics()) {
      problem.severity = Severity::warning;
      into.said.push_back(std::move(problem));
    }
  }
  for (photo::FoundLabel& label : scan.labels) {
    into.tags.push_back({std::move(label.text), std::move(label.figures)});
  }
}

}  // namespace

std::vector<std::string> image_files(const std::vector<std::string>& arguments, Diagnostics& said) {
  std::vector<std::string> files;
  for (const std::string& argument : arguments) {
    std::error_code ignored;
    std::vector<std::string> named{argument};
    if (argument != "-" && fs::is_directory(argument, ignored)) {
      named = pictures_in(argument, said);
    }
    for (std::string& file : named) {
      if (std::find(files.begin(), files.end(), file) == files.end()) {
        files.push_back(std::move(file));
      }
    }
  }
  return files;
}

ReadImage read_tags(const std::string& file, Context& context) {
  ReadImage read;
  read.file = file;
  const auto bytes = context.world.files.read(file, photo::kMaxImageBytes);
  if (!bytes) {
    read.said = bytes.diagnostics();
    return read;
  }
  if (file == "-" && photo::image_kind(*bytes) == photo::ImageKind::none && is_typed(*bytes)) {
    read_typed(*bytes, read);
  } else {
    read_picture(*bytes, read);
  }
  for (Diagnostic& problem : read.said) {
    problem.place.file = file == "-" ? commands::kStandardInput : file;
  }
  return read;
}

}  // namespace loopledger::terminal
