// SPDX-License-Identifier: MIT
#include "commands/scan_input.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "base/text.h"
#include "commands/paths.h"
#include "photo/image.h"
#include "photo/scan.h"
#include "photo/scan_trouble.h"

namespace loopledger::commands {
namespace {

constexpr std::size_t kTypedMaxBytes = 1U << 20;
constexpr int kForeignColumns = 70;

/// ".png" of "night/one.png".
std::string ending_of(const std::string& path) {
  return path.substr(path.rfind('/') + 1).substr(stem_of(path).size());
}

bool looks_like_picture(const std::string& path) {
  static constexpr std::array<std::string_view, 5> kEndings{".jpg", ".jpeg", ".png", ".heic",
                                                            ".webp"};
  return std::ranges::find(kEndings, lower_ascii(ending_of(path))) != kEndings.end();
}

std::vector<std::string> pictures_in(const std::string& folder, Files& files, Diagnostics& said) {
  auto held = files.files_in(folder);
  if (!held) {
    append(said, held.diagnostics());
    return {};
  }
  std::vector<std::string> pictures = std::move(*held);
  std::erase_if(pictures, [](const std::string& file) { return !looks_like_picture(file); });
  if (pictures.empty()) {
    said.push_back(error("disk-folder", "the folder holds no PNG or JPEG picture",
                         "give image files, or a folder of them", {folder, 0, 0}));
  }
  return pictures;
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

std::vector<std::string> image_files(const std::vector<std::string>& arguments, Files& files,
                                     Diagnostics& said) {
  std::vector<std::string> all;
  for (const std::string& argument : arguments) {
    const bool folder = argument != "-" && files.is_folder(argument);
    for (std::string& file : folder ? pictures_in(argument, files, said) : std::vector{argument}) {
      if (std::ranges::find(all, file) == all.end()) {
        all.push_back(std::move(file));
      }
    }
  }
  return all;
}

ReadImage read_tags(const std::string& file, Files& files) {
  ReadImage read;
  read.file = file;
  const auto bytes = files.read(file, photo::kMaxImageBytes);
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
    problem.place.file = file == "-" ? kStandardInput : file;
  }
  return read;
}

}  // namespace loopledger::commands
