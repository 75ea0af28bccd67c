// SPDX-License-Identifier: MIT
#include "photo/scan.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "photo/finder_count.h"
#include "photo/finders.h"
#include "photo/grid.h"
#include "photo/grid_read.h"
#include "photo/ladder.h"

namespace loopledger::photo {
namespace {

constexpr std::size_t kManyPixels = 1'000'000;  // from here on finer tiles
constexpr std::size_t kPartPixels = 4'000'000;  // the most that is enlarged at once
constexpr std::size_t kGridPixels = 1'500'000;  // the most that is read module by module
constexpr int kRounds = 5;                      // of reading and painting over, in one tile
constexpr double kTileOverlap = 0.35;
constexpr double kWideOverlap = 1;    // of tiles that hold few labels each, and each wholly
constexpr int kMostTiles = 12;        // a side
constexpr std::size_t kManyLeft = 9;  // corner squares: three labels
constexpr std::size_t kLabelsATile = 2;
constexpr std::size_t kMostCounted = 2000;   // corner squares
constexpr std::size_t kMaxPlaces = kBoxful;  // symbols seen but not decoded that are tried again
constexpr std::size_t kMaxMoreFinders = 90;  // of symbols that no reading has seen
constexpr int kMaxInVain = 8;                // such symbols that could not be read, likeliest first
constexpr std::uint8_t kPaint = 230;         // about paper

/// Gathers what the readings find: each text once, each place once.
class Findings {
 public:
  /// Takes symbols found in a part of the picture that begins at `x`, `y`, reduced by `factor`.
  void take(std::vector<Symbol> symbols, int x, int y, int factor = 1) {
    for (Symbol& symbol : symbols) {
      for (Point& corner : symbol.corners) {
        corner = {corner.x * factor + x, corner.y * factor + y};
      }
      if (!symbol.decoded()) {
        unread_.push_back(std::move(symbol));
      } else if (texts_.insert(symbol.text).second) {
        sort_in(std::move(symbol));
      }
    }
  }

  /// What may still be spent.
  [[nodiscard]] Effort& effort() { return effort_; }

  /// What was decoded, labels or not.
  [[nodiscard]] const std::vector<Symbol>& read() const { return read_; }

  [[nodiscard]] bool has_labels() const { return !scan_.labels.empty(); }

  /// The corner squares that belong to nothing read.
  void leave(std::size_t finders) {
    const std::size_t more = finders / 3;
    scan_.more = has_labels() && scan_.labels.size() + more > kBoxful ? more : 0;
    scan_.crowded = more > kBoxful;
  }

  /// Places seen but not decoded, apart from each other and from what has been read.
  [[nodiscard]] std::vector<Symbol> places() const {
    std::vector<Symbol> apart;
    for (const Symbol& symbol : unread_) {
      const Point c = centre(symbol);
      const auto covers = [&](const Symbol& other) { return bounds(other).contains(c.x, c.y); };
      if (side(symbol) >= 1 && std::none_of(apart.begin(), apart.end(), covers) &&
          std::none_of(read_.begin(), read_.end(), covers)) {
        apart.push_back(symbol);
      }
    }
    return apart;
  }

  [[nodiscard]] Scan result() && {
    scan_.unread = places();
    std::stable_sort(scan_.labels.begin(), scan_.labels.end(), above);
    return std::move(scan_);
  }

 private:
  static Point centre(const Symbol& symbol) {
    Point sum;
    for (const Point& corner : symbol.corners) {
      sum = {sum.x + corner.x / 4, sum.y + corner.y / 4};
    }
    return sum;
  }

  static bool above(const FoundLabel& a, const FoundLabel& b) {
    return centre(a.symbol).y < centre(b.symbol).y;
  }

  void sort_in(Symbol symbol) {
    read_.push_back(symbol);
    auto label = tag::read_label(symbol.text);
    if (label) {
      std::string text = symbol.text;
      scan_.labels.push_back({std::move(text), std::move(label).value(), std::move(symbol)});
    } else if (label.diagnostics().front().code == "tag-version") {
      scan_.other_layout.push_back(std::move(symbol.text));
    } else {
      scan_.foreign.push_back(std::move(symbol.text));
    }
  }

  Scan scan_;
  Effort effort_;
  std::set<std::string> texts_;
  std::vector<Symbol> read_;
  std::vector<Symbol> unread_;
};

/// Reads, paints over what was read, and reads again until nothing new comes.
template <class Read>
void read_in_rounds(Grey part, int x, int y, const Read& read, Findings& findings) {
  for (int round = 0; round < kRounds; ++round) {
    std::vector<Symbol> symbols = read(part);
    bool decoded = false;
    for (const Symbol& symbol : symbols) {
      if (symbol.decoded()) {
        decoded = true;
        const Area2 area = bounds(symbol);
        fill(part, {area.x - 2, area.y - 2, area.width + 4, area.height + 4}, kPaint);
      }
    }
    findings.take(std::move(symbols), x, y);
    if (!decoded) {
      return;
    }
  }
}

std::vector<Area2> tiles_of(const Grey& picture, int count, double overlap) {
  std::vector<Area2> tiles;
  const int width = static_cast<int>(picture.width * (1 + overlap) / count) + 1;
  const int height = static_cast<int>(picture.height * (1 + overlap) / count) + 1;
  for (int row = 0; row < count; ++row) {
    for (int column = 0; column < count; ++column) {
      tiles.push_back({(picture.width - width) * column / (count - 1),
                       (picture.height - height) * row / (count - 1), width, height});
    }
  }
  return tiles;
}

void read_tiles(const Grey& picture, int count, double overlap, Findings& findings) {
  const auto plainly = [&findings](const Grey& part) {
    return symbols_in(part, Threshold::by_neighbourhood, findings.effort());
  };
  for (const Area2& tile : tiles_of(picture, count, overlap)) {
    read_in_rounds(crop(picture, tile), tile.x, tile.y, plainly, findings);
  }
}

/// A copy with what was read painted over.
Grey without_read(const Grey& picture, const Findings& findings) {
  Grey left = picture;
  for (const Symbol& symbol : findings.read()) {
    const Area2 area = bounds(symbol);
    fill(left, {area.x - 2, area.y - 2, area.width + 4, area.height + 4}, kPaint);
  }
  return left;
}

/// Tiles so small that the library can't pair up many neighbours, for what is left of a picture
/// that holds many labels.
void read_small_tiles(const Grey& picture, Findings& findings) {
  const Grey left = without_read(picture, findings);
  const std::size_t finders = finder_count(left, Threshold::by_neighbourhood, kMostCounted);
  if (finders >= kManyLeft && finders < kMostCounted) {
    const double labels = static_cast<double>(finders) / 3;
    const int count = static_cast<int>(std::ceil(2 * std::sqrt(labels / kLabelsATile)));
    read_tiles(left, std::clamp(count, 3, kMostTiles), kWideOverlap, findings);
  }
}

void read_plainly(const Grey& picture, Findings& findings) {
  const bool many = picture.size() >= kManyPixels;
  const auto plainly = [&findings](const Grey& part) {
    return symbols_in(part, Threshold::by_neighbourhood, findings.effort());
  };
  if (many) {
    findings.take(plainly(picture), 0, 0);
  } else {
    read_in_rounds(picture, 0, 0, plainly, findings);
  }
  read_tiles(picture, many ? 4 : 2, kTileOverlap, findings);
  read_small_tiles(picture, findings);
}

/// The factor by which a picture is to be reduced so that it has at most so many pixels.
int factor_for(std::size_t pixels, std::size_t most) {
  int factor = 1;
  while (pixels / static_cast<std::size_t>(factor * factor) > most) {
    ++factor;
  }
  return factor;
}

/// Climbs the ladder at one place, until something is decoded.
void climb_at(const Grey& picture, const Symbol& place, Findings& findings) {
  const Area2 box = bounds(place);
  const int margin = std::max(box.width, box.height) / 3 + 4;
  const Area2 area = inside(
      picture, {box.x - margin, box.y - margin, box.width + 2 * margin, box.height + 2 * margin});
  const Grey part = crop(picture, area);
  const int factor = factor_for(part.size(), kManyPixels);
  const Grey small = factor > 1 ? reduced(part, factor) : part;
  for (const Rung& rung : ladder()) {
    std::vector<Symbol> symbols = symbols_by(rung, small, findings.effort());
    std::erase_if(symbols, [](const Symbol& symbol) { return !symbol.decoded(); });
    if (!symbols.empty()) {
      findings.take(std::move(symbols), area.x, area.y, factor);
      return;
    }
  }
  findings.take(symbols_by_grid(small, findings.effort()), area.x, area.y, factor);
}

void climb_at_places(const Grey& picture, Findings& findings) {
  std::vector<Symbol> places = findings.places();
  places.resize(std::min(places.size(), kMaxPlaces));
  for (const Symbol& place : places) {
    climb_at(picture, place, findings);
  }
}

/// Climbs the ladder on the whole picture, reduced by `factor`, until a label is read.
void climb(const Grey& picture, int factor, Findings& findings) {
  const Grey part = factor > 1 ? reduced(picture, factor) : picture;
  if (factor > 1) {
    findings.take(symbols_in(part, Threshold::by_neighbourhood, findings.effort()), 0, 0, factor);
  }
  for (const Rung& rung : ladder()) {
    if (findings.has_labels()) {
      return;
    }
    findings.take(symbols_by(rung, part, findings.effort()), 0, 0, factor);
  }
  if (!findings.has_labels() && part.size() <= kGridPixels) {
    findings.take(symbols_by_grid(part, findings.effort()), 0, 0, factor);
  }
}

/// Looks for symbols that no reading has seen, by their corner squares: one label that was read
/// does not mean that there are no others.
void look_for_more(const Grey& picture, Findings& findings) {
  const int factor = factor_for(picture.size(), kGridPixels);
  Grey part = factor > 1 ? reduced(picture, factor) : picture;
  for (const Symbol& symbol : findings.read()) {
    const Area2 area = bounds(symbol);
    fill(part,
         {area.x / factor - 1, area.y / factor - 1, area.width / factor + 3,
          area.height / factor + 3},
         kPaint);
  }
  int in_vain = 0;
  for (const Grid& grid : rough_grids_in(part, finders_in(part, {kMaxMoreFinders, false}))) {
    if (in_vain == kMaxInVain) {
      return;  // a picture made to keep us busy
    }
    Symbol place;
    for (std::size_t i = 0; i < place.corners.size(); ++i) {
      place.corners.at(i) = {grid.corners.at(i).x * factor, grid.corners.at(i).y * factor};
    }
    const std::size_t before = findings.read().size();
    climb_at(picture, place, findings);
    in_vain += findings.read().size() == before ? 1 : 0;
  }
}

}  // namespace

Scan scan_picture(const Grey& picture) {
  Findings findings;
  read_plainly(picture, findings);
  climb_at_places(picture, findings);
  int tried = 0;
  for (const std::size_t most : {kManyPixels, kPartPixels}) {
    const int factor = factor_for(picture.size(), most);
    if (!findings.has_labels() && factor != tried) {
      climb(picture, factor, findings);
      climb_at_places(picture, findings);
      tried = factor;
    }
  }
  look_for_more(picture, findings);
  findings.leave(
      finder_count(without_read(picture, findings), Threshold::by_neighbourhood, kMostCounted));
  return std::move(findings).result();
}

}  // namespace loopledger::photo
