// SPDX-License-Identifier: MIT
#include "photo/finder_count.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <map>
#include <numbers>
#include <optional>
#include <vector>

#include "photo/grey_ops.h"

namespace loopledger::photo {
namespace {

constexpr int kBlock = 8;          // pixels; the neighbourhood is five blocks wide
constexpr int kFlatRange = 24;     // grey values: a block of less is all light or all dark
constexpr int kFixed = 127;        // the fixed threshold
constexpr int kRowStep = 3;        // rows looked at
constexpr int kReducedFrom = 500;  // pixels a side: larger pictures get a second look
constexpr int kReducedBy = 3;
constexpr double kSlack = 0.75;  // of a module: how far a run may be off
constexpr int kRuns = 5;

using Runs = std::array<int, kRuns>;

/// Light and dark by the mean of the neighbourhood, or by a fixed value.
class Inked {
 public:
  Inked(const Grey& picture, Threshold threshold)
      : picture_(picture),
        columns_((picture.width + kBlock - 1) / kBlock),
        rows_((picture.height + kBlock - 1) / kBlock),
        levels_(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_), kFixed) {
    if (threshold == Threshold::by_neighbourhood) {
      smooth(block_levels());
    }
  }
  [[nodiscard]] bool dark(int x, int y) const {
    return picture_.at(x, y) <= levels_[place(x / kBlock, y / kBlock)];
  }
  [[nodiscard]] int width() const { return picture_.width; }
  [[nodiscard]] int height() const { return picture_.height; }

 private:
  [[nodiscard]] std::size_t place(int column, int row) const {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_) +
           static_cast<std::size_t>(column);
  }

  [[nodiscard]] std::vector<int> block_levels() const {
    std::vector<int> levels(levels_.size());
    for (int row = 0; row < rows_; ++row) {
      for (int column = 0; column < columns_; ++column) {
        const Area2 area = inside(picture_, {column * kBlock, row * kBlock, kBlock, kBlock});
        int sum = 0;
        int least = 255;
        int most = 0;
        for (int y = area.y; y < area.y + area.height; ++y) {
          for (int x = area.x; x < area.x + area.width; ++x) {
            const int value = picture_.at(x, y);
            sum += value;
            least = std::min(least, value);
            most = std::max(most, value);
          }
        }
        levels[place(column, row)] =
            most - least > kFlatRange ? sum / (area.width * area.height) : least / 2;
      }
    }
    return levels;
  }

  void smooth(const std::vector<int>& levels) {
    constexpr int kReach = 2;
    for (int row = 0; row < rows_; ++row) {
      for (int column = 0; column < columns_; ++column) {
        int sum = 0;
        int count = 0;
        for (int y = std::max(0, row - kReach); y <= std::min(rows_ - 1, row + kReach); ++y) {
          for (int x = std::max(0, column - kReach); x <= std::min(columns_ - 1, column + kReach);
               ++x) {
            sum += levels[place(x, y)];
            ++count;
          }
        }
        levels_[place(column, row)] = sum / count;
      }
    }
  }

  const Grey& picture_;
  int columns_;
  int rows_;
  std::vector<int> levels_;
};

/// Pixels a module when the runs are like a corner square's; else empty.
std::optional<double> module_of(const Runs& runs) {
  int all = 0;
  for (const int run : runs) {
    all += run;
  }
  if (runs[2] < 2 * std::max(runs[0], runs[4]) - 1 || runs[2] < std::max(runs[1], runs[3])) {
    return std::nullopt;
  }
  const double module = all / 7.0;
  const double off = kSlack * module + 0.5;
  constexpr std::array kWanted{1, 1, 3, 1, 1};
  for (std::size_t i = 0; i < runs.size(); ++i) {
    const double wanted = kWanted.at(i) * module;
    if (std::fabs(runs.at(i) - wanted) > (kWanted.at(i) == 3 ? 2 * off : off)) {
      return std::nullopt;
    }
  }
  return module;
}

/// The runs up and down through a dark place.
struct Column {
  Runs runs{};
  double middle = 0;  ///< of the middle run
};

std::optional<Column> column_through(const Inked& inked, int x, int y, int longest) {
  Column column;
  int above = 0;  // of the middle run, the place itself with it
  for (const int way : {-1, 1}) {
    bool ink = true;
    std::size_t run = 2;
    for (int at = way < 0 ? y : y + 1; at >= 0 && at < inked.height(); at += way) {
      if (inked.dark(x, at) != ink) {
        if (run == 0 || run == kRuns - 1) {
          break;
        }
        run = way < 0 ? run - 1 : run + 1;
        ink = !ink;
      }
      if (++column.runs.at(run) > longest) {
        return std::nullopt;
      }
    }
    above = way < 0 ? column.runs[2] : above;
  }
  if (std::ranges::find(column.runs, 0) != column.runs.end()) {
    return std::nullopt;
  }
  column.middle = y - above + 1 + column.runs[2] / 2.0;
  return column;
}

/// Whether a circle through the light ring is light and one through the dark ring is dark, but for
/// a few points: noise has the runs, and no rings. At these radii that is so at any angle.
bool has_rings(const Inked& inked, double x, double y, double module) {
  constexpr int kPoints = 12;
  constexpr int kLightAtLeast = 9;
  constexpr int kDarkAtLeast = 3;
  const auto dark_at = [&](double radius, int i) {
    const double angle = 2 * std::numbers::pi * i / kPoints;
    const int ax = static_cast<int>(std::floor(x + radius * module * std::cos(angle)));
    const int ay = static_cast<int>(std::floor(y + radius * module * std::sin(angle)));
    return ax >= 0 && ay >= 0 && ax < inked.width() && ay < inked.height() && inked.dark(ax, ay);
  };
  int light = 0;
  int dark = 0;
  for (int i = 0; i < kPoints; ++i) {
    light += dark_at(2.2, i) ? 0 : 1;
    dark += dark_at(3.3, i) ? 1 : 0;
  }
  return light >= kLightAtLeast && dark >= kDarkAtLeast;
}

/// The runs through a square that is turned are longer, by up to the root of two.
bool has_rings_turned(const Inked& inked, double x, double y, double module) {
  constexpr std::array kShorter{1.0, 0.85, 0.72};
  return std::ranges::any_of(kShorter,
                             [&](double by) { return has_rings(inked, x, y, module * by); });
}

/// The places that were counted. Noise has places like finders too, but few in one part of a
/// picture: only parts that have several count.
class Places {
 public:
  explicit Places(std::size_t most) : most_(most) {}
  [[nodiscard]] bool full() const { return count_ >= most_; }
  [[nodiscard]] std::size_t count() const { return count_; }

  /// @param x, y a dark place; `middle` of its run along the row
  void look_at(const Inked& inked, int x, int y, double middle, double module) {
    const auto column = column_through(inked, x, y, static_cast<int>(6 * module) + 2);
    const auto down = column ? module_of(column->runs) : std::nullopt;
    if (!down || *down >= 2 * module || *down <= module / 2 ||
        !has_rings_turned(inked, middle, column->middle, (module + *down) / 2)) {
      return;
    }
    const double size = (module + *down) / 2;
    const int half_octave = static_cast<int>(std::floor(2 * std::log2(std::max(1.0, size))));
    const double part = kPartSide * std::exp2((half_octave + 1) / 2.0);
    Part& in =
        parts_[{half_octave, static_cast<int>(x / part), static_cast<int>(column->middle / part)}];
    const bool known = std::ranges::any_of(in.places, [&](const Point& p) {
      return std::fabs(p.x - middle) < 3 * size && std::fabs(p.y - column->middle) < 3 * size;
    });
    if (!known) {
      in.places.push_back({middle, column->middle});
      count_ += in.places.size() == kSeveral ? kSeveral : in.places.size() > kSeveral ? 1 : 0;
    }
  }

 private:
  static constexpr int kPartSide = 64;        // modules of the octave's smallest size
  static constexpr std::size_t kSeveral = 6;  // places in a part
  struct Part {
    std::vector<Point> places;
  };
  std::size_t most_;
  std::size_t count_ = 0;
  std::map<std::array<int, 3>, Part> parts_;
};

void look_along(const Inked& inked, int y, Places& places) {
  Runs runs{};  // the last five that have ended
  bool ink = inked.dark(0, y);
  int run = 0;
  for (int x = 0; x <= inked.width() && !places.full(); ++x) {
    if (x < inked.width() && inked.dark(x, y) == ink) {
      ++run;
      continue;
    }
    std::rotate(runs.begin(), runs.begin() + 1, runs.end());
    runs.back() = run;
    if (ink && runs.front() > 0) {
      if (const auto module = module_of(runs)) {
        const int behind = x - runs[4] - runs[3];
        places.look_at(inked, behind - (runs[2] + 1) / 2, y, behind - runs[2] / 2.0, *module);
      }
    }
    ink = !ink;
    run = 1;
  }
}

std::size_t count_at_size(const Grey& picture, Threshold threshold, std::size_t most) {
  const Inked inked(picture, threshold);
  Places places(most);
  for (int y = kRowStep - 1; y < picture.height && !places.full(); y += kRowStep) {
    look_along(inked, y, places);
  }
  return places.count();
}

}  // namespace

std::size_t finder_count(const Grey& picture, Threshold threshold, std::size_t most) {
  std::size_t count = count_at_size(picture, threshold, most);
  const Grey* larger = &picture;
  Grey smaller;
  while (count < most && std::max(larger->width, larger->height) > kReducedFrom &&
         std::min(larger->width, larger->height) > kReducedBy * kBlock) {
    smaller = reduced(*larger, kReducedBy);
    larger = &smaller;
    count = std::max(count, count_at_size(smaller, threshold, most));
  }
  return count;
}

}  // namespace loopledger::photo
