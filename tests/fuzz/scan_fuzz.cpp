// SPDX-License-Identifier: MIT
#include <algorithm>
#include <set>
#include <string>

#include "base/text.h"
#include "fuzz/claim.h"
#include "fuzz/targets.h"
#include "fuzz/whole_png.h"
#include "photo/image.h"
#include "photo/scan.h"
#include "photo/scan_trouble.h"

namespace loopledger::fuzz {
namespace {

constexpr std::size_t kMostPixels = 40'000;  ///< larger ones take too long under sanitizers

/// Bytes that are no image's are one themselves: the width, then the pixels.
photo::Grey picture_of(std::string_view bytes) {
  if (photo::image_kind(bytes) != photo::ImageKind::none) {
    auto read = photo::read_image(with_right_checksums(bytes));
    return read ? std::move(read).value() : photo::Grey{};
  }
  if (bytes.size() < 2 || bytes.front() == 0) {
    return {};
  }
  const int width = static_cast<unsigned char>(bytes.front());
  bytes.remove_prefix(1);
  photo::Grey picture(width, static_cast<int>(bytes.size()) / width, 0);
  std::copy_n(bytes.begin(), picture.size(), picture.pixels.begin());
  return picture;
}

bool is_near(const photo::Grey& picture, const photo::Symbol& symbol) {
  return std::ranges::all_of(symbol.corners, [&](const photo::Point& p) {
    return p.x > -picture.width && p.x < 2 * picture.width && p.y > -picture.height &&
           p.y < 2 * picture.height;
  });
}

void claim_scan(const photo::Grey& picture, const photo::Scan& scan) {
  std::set<std::string> texts;
  for (const photo::FoundLabel& label : scan.labels) {
    const auto read = tag::read_label(label.text);
    claim(read.ok() && read->id == label.figures.id, "a label that is none", label.text);
    claim(texts.insert(label.text).second, "a label twice", label.text);
    claim(label.text == label.symbol.text, "a label of another symbol", label.text);
    claim(is_near(picture, label.symbol), "a label that lies elsewhere", label.text);
  }
  for (const std::string& text : scan.foreign) {
    claim(texts.insert(text).second && !tag::read_label(text).ok(), "a foreign code twice", text);
  }
  for (const photo::Symbol& symbol : scan.unread) {
    claim(!symbol.decoded() && photo::side(symbol) >= 1, "a place that was read, or is none");
  }
}

}  // namespace

void scan(std::string_view input) {
  const photo::Grey picture = picture_of(input);
  if (picture.size() == 0 || picture.size() > kMostPixels) {
    return;
  }
  const photo::Scan scan = photo::scan_picture(picture);
  claim_scan(picture, scan);
  if (scan.labels.empty()) {
    const Diagnostic why = photo::why_unread(picture, scan);
    claim(why.severity == Severity::error && !why.hint.empty(), "no reason");
    claim_harmless(render(why), true);
  }
}

}  // namespace loopledger::fuzz
