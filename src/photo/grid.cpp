// SPDX-License-Identifier: MIT
#include "photo/grid.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "photo/sample.h"

namespace loopledger::photo {
namespace {

constexpr std::array kSizes{21, 25, 29, 33, 37, 41};
// Chosen on the photo sets of tests/support/photo_set.h, seeds 1 to 4; no source.
constexpr double kSizeError = 0.22;  // of the modules a side counted from two finders
constexpr std::size_t kRefined = 8;  // guesses that are fitted
constexpr double kWorthFitting = 0.2;
constexpr double kWorthReading = 0.65;  // a rough grid
constexpr int kFourthCorner = 4;  // modules around the guess where the far corner is looked for

Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
Point operator*(double f, Point a) { return {f * a.x, f * a.y}; }
double length(Point a) { return std::hypot(a.x, a.y); }

void add_finder(std::vector<KnownModule>& known, int left, int top, int modules, int group) {
  for (int y = -1; y <= 7; ++y) {
    for (int x = -1; x <= 7; ++x) {
      const int ring = std::max(std::abs(x - 3), std::abs(y - 3));
      const int column = left + x;
      const int row = top + y;
      if (column >= -1 && row >= -1 && column <= modules && row <= modules) {
        known.push_back({column, row, ring <= 1 || ring == 3, group});
      }
    }
  }
}

double fit_of(const Grey& picture, const Grid& grid, const std::vector<KnownModule>& known) {
  const Plane plane = grid.plane();
  return agreement(known, [&](int column, int row) {
    const Point at = plane.at(column + 0.5, row + 0.5);
    return sample(picture, at.x, at.y);
  });
}

/// A symbol whose finders' centres lie at these places.
Grid guessed(int modules, Point origin, Point right, Point down) {
  const double span = modules - 7;
  const Point across = (1 / span) * (right - origin);
  const Point along = (1 / span) * (down - origin);
  Grid grid;
  grid.modules = modules;
  const auto corner = [&](double u, double v) { return origin + u * across + v * along; };
  const double far = modules - 3.5;
  grid.corners = {corner(-3.5, -3.5), corner(far, -3.5), corner(far, far), corner(-3.5, far)};
  return grid;
}

class Guesses {
 public:
  explicit Guesses(const Grey& picture) : picture_(picture) {
    for (std::size_t i = 0; i < kSizes.size(); ++i) {
      known_.at(i) = known_modules(kSizes.at(i));
    }
  }

  /// Of the sizes that fit the distance between two finders' centres, with the places of all three.
  void take(double distance_in_modules, Point origin, Point right, Point down) {
    for (std::size_t i = 0; i < kSizes.size(); ++i) {
      const double expected = kSizes.at(i) - 7;
      if (std::abs(distance_in_modules / expected - 1) > kSizeError) {
        continue;
      }
      Grid grid = guessed(kSizes.at(i), origin, right, down);
      grid.fit = fit_of(picture_, grid, known_.at(i));
      if (grid.fit > kWorthFitting) {
        grids_.push_back(grid);
      }
    }
  }

  /// The best at each place, not fitted.
  [[nodiscard]] std::vector<Grid> apart() && {
    std::ranges::sort(grids_, [](const Grid& a, const Grid& b) { return a.fit > b.fit; });
    std::vector<Grid> kept;
    for (const Grid& grid : grids_) {
      const auto near = [&grid](const Grid& other) {
        const double side = length(other.corners[1] - other.corners[0]);
        return length(middle(grid) - middle(other)) < 0.6 * side;
      };
      if (grid.fit > kWorthReading && std::ranges::none_of(kept, near)) {
        kept.push_back(grid);
      }
    }
    return kept;
  }

  /// The best ones, fitted.
  [[nodiscard]] std::vector<Grid> fitted() && {
    std::ranges::sort(grids_, [](const Grid& a, const Grid& b) { return a.fit > b.fit; });
    grids_.resize(std::min(grids_.size(), kRefined));
    for (Grid& grid : grids_) {
      find_far_corner(grid);
      refine(grid);
    }
    std::ranges::sort(grids_, [](const Grid& a, const Grid& b) { return a.fit > b.fit; });
    std::vector<Grid> apart;
    for (const Grid& grid : grids_) {
      const auto same = [&grid](const Grid& other) {
        double away = 0;
        for (std::size_t i = 0; i < 4; ++i) {
          away = std::max(away, length(grid.corners.at(i) - other.corners.at(i)));
        }
        return grid.modules == other.modules &&
               away < 0.6 * length(grid.corners[1] - grid.corners[0]) / grid.modules;
      };
      if (std::ranges::none_of(apart, same)) {
        apart.push_back(grid);
      }
    }
    return apart;
  }

 private:
  static Point middle(const Grid& grid) { return 0.5 * (grid.corners[0] + grid.corners[2]); }

  [[nodiscard]] const std::vector<KnownModule>& known(const Grid& grid) const {
    return known_.at(static_cast<std::size_t>((grid.modules - kSizes[0]) / 4));
  }

  void find_far_corner(Grid& grid) const {
    const Point across = (1.0 / grid.modules) * (grid.corners[1] - grid.corners[0]);
    const Point along = (1.0 / grid.modules) * (grid.corners[3] - grid.corners[0]);
    Grid best = grid;
    for (int v = -kFourthCorner; v <= kFourthCorner; ++v) {
      for (int u = -kFourthCorner; u <= kFourthCorner; ++u) {
        Grid moved = grid;
        moved.corners[2] =
            grid.corners[2] + (static_cast<double>(u) * across) + (static_cast<double>(v) * along);
        moved.fit = fit_of(picture_, moved, known(grid));
        if (moved.fit > best.fit) {
          best = moved;
        }
      }
    }
    grid = best;
  }

  void refine(Grid& grid) const {
    const double module =
        (length(grid.corners[1] - grid.corners[0]) + length(grid.corners[3] - grid.corners[0])) /
        (2.0 * grid.modules);
    for (double step = 0.8; step > 0.04; step /= 2) {
      bool better = true;
      for (int round = 0; better && round < 12; ++round) {
        better = false;
        for (std::size_t corner = 0; corner < 4; ++corner) {
          for (const Point d : {Point{step, 0}, Point{-step, 0}, Point{0, step}, Point{0, -step}}) {
            Grid moved = grid;
            moved.corners.at(corner) = grid.corners.at(corner) + module * d;
            moved.fit = fit_of(picture_, moved, known(grid));
            if (moved.fit > grid.fit + 1e-6) {
              grid = moved;
              better = true;
            }
          }
        }
      }
    }
  }

  const Grey& picture_;
  std::array<std::vector<KnownModule>, kSizes.size()> known_;
  std::vector<Grid> grids_;
};

Point quarter_turn(Point a) { return {-a.y, a.x}; }  // from right to down, as y runs down

/// Two finders that may be of one symbol.
bool alike(const Finder& a, const Finder& b) {
  const double module = (a.module + b.module) / 2;
  const double distance = length(b.at - a.at) / module;
  return &a != &b && std::max(a.module, b.module) <= 1.6 * std::min(a.module, b.module) &&
         distance > (kSizes.front() - 7) * (1 - kSizeError) &&
         distance < (kSizes.back() - 7) * (1 + kSizeError) * std::sqrt(2.0);
}

/// Symbols with `a` as their corner, `b` to its right and a third finder below.
void take_threes(const Finder& a, const Finder& b, const std::vector<Finder>& finders,
                 Guesses& guesses) {
  const Point side = b.at - a.at;
  const double module = (a.module + b.module) / 2;
  for (const Finder& c : finders) {
    const Point down = c.at - a.at;
    const double turn = (side.x * down.y - side.y * down.x) / (length(side) * length(down));
    const double ratio = length(down) / length(side);
    if (&c != &a && &c != &b && turn > 0.8 && ratio > 0.6 && ratio < 1.6) {
      guesses.take((length(side) + length(down)) / (2 * module), a.at, b.at, c.at);
    }
  }
}

/// Symbols with these two finders and the third hidden.
void take_two(const Finder& a, const Finder& b, Guesses& guesses) {
  const Point side = b.at - a.at;
  const double distance = 2 * length(side) / (a.module + b.module);
  guesses.take(distance, a.at, b.at, a.at + quarter_turn(side));
  guesses.take(distance, a.at, a.at - quarter_turn(side), b.at);
  const Point half = 0.5 * side;
  guesses.take(distance / std::sqrt(2.0), a.at + half - quarter_turn(half), b.at, a.at);
}

}  // namespace

std::vector<KnownModule> known_modules(int modules) {
  std::vector<KnownModule> known;
  add_finder(known, 0, 0, modules, 0);
  add_finder(known, modules - 7, 0, modules, 1);
  add_finder(known, 0, modules - 7, modules, 2);
  for (int i = 8; i < modules - 8; ++i) {
    known.push_back({i, 6, i % 2 == 0, 3});
    known.push_back({6, i, i % 2 == 0, 4});
  }
  if (modules > 21) {
    for (int y = -2; y <= 2; ++y) {
      for (int x = -2; x <= 2; ++x) {
        known.push_back(
            {modules - 7 + x, modules - 7 + y, std::max(std::abs(x), std::abs(y)) != 1, 5});
      }
    }
  }
  return known;
}

Plane::Plane(const std::array<Point, 4>& c, double side) : origin_(c[0]) {
  const Point d1 = c[1] - c[2];
  const Point d2 = c[3] - c[2];
  const Point s = (c[0] - c[1]) + (c[2] - c[3]);
  const double det = d1.x * d2.y - d2.x * d1.y;
  if (std::abs(det) < 1e-12) {
    return;
  }
  const double g = (s.x * d2.y - d2.x * s.y) / det;
  const double h = (d1.x * s.y - s.x * d1.y) / det;
  right_ = (1 / side) * ((c[1] - c[0]) + g * c[1]);
  down_ = (1 / side) * ((c[3] - c[0]) + h * c[3]);
  g_ = g / side;
  h_ = h / side;
}

std::vector<Grid> grids_in(const Grey& picture, const std::vector<Finder>& finders) {
  Guesses guesses(picture);
  for (const Finder& a : finders) {
    for (const Finder& b : finders) {
      if (alike(a, b)) {
        take_threes(a, b, finders, guesses);
        take_two(a, b, guesses);
      }
    }
  }
  return std::move(guesses).fitted();
}

std::vector<Grid> rough_grids_in(const Grey& picture, const std::vector<Finder>& finders) {
  Guesses guesses(picture);
  for (const Finder& a : finders) {
    for (const Finder& b : finders) {
      if (alike(a, b)) {
        take_threes(a, b, finders, guesses);
      }
    }
  }
  return std::move(guesses).apart();
}

}  // namespace loopledger::photo
