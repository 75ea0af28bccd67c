// SPDX-License-Identifier: MIT
//
// Where the modules of a symbol lie in a picture: a plane seen from anywhere, fitted to all that
// every symbol of a version has in common (ISO/IEC 18004: finder, timing and alignment patterns,
// the light rim). Finds the symbol when one of its corner squares is hidden.
#pragma once

#include <array>
#include <cmath>
#include <vector>

#include "photo/finders.h"
#include "photo/grey.h"

namespace loopledger::photo {

/// A module whose colour is known before anything is read.
struct KnownModule {
  int column = 0, row = 0;
  bool dark = false;
  int group = 0;  ///< compared with its own group: light differs over a picture
};

/// What symbols of so many modules a side (21 to 41: versions 1 to 6) have in common.
[[nodiscard]] std::vector<KnownModule> known_modules(int modules);
inline constexpr int kKnownGroups = 6;  // three finders, two timings, alignment

/// A plane seen from anywhere.
class Plane {
 public:
  /// The one that shows a square of `side` with these corners, top left first, then clockwise.
  Plane(const std::array<Point, 4>& corners, double side);
  [[nodiscard]] Point at(double u, double v) const {
    const double w = 1 / (g_ * u + h_ * v + 1);
    return {(right_.x * u + down_.x * v + origin_.x) * w,
            (right_.y * u + down_.y * v + origin_.y) * w};
  }

 private:
  Point origin_, right_, down_;
  double g_ = 0, h_ = 0;
};

struct Grid {
  int modules = 0;               ///< a side
  std::array<Point, 4> corners;  ///< of the symbol without its rim: top left, then clockwise
  double fit = 0;                ///< 1: everything known is where it belongs

  /// From places in modules from the top left corner to pixels.
  [[nodiscard]] Plane plane() const { return {corners, static_cast<double>(modules)}; }
};

/// The most likely grids, best first, apart from each other.
[[nodiscard]] std::vector<Grid> grids_in(const Grey& picture, const std::vector<Finder>& finders);

/// Rough grids of all the symbols that show three of these finders, each place once, the likeliest
/// first.
[[nodiscard]] std::vector<Grid> rough_grids_in(const Grey& picture,
                                               const std::vector<Finder>& finders);

/// Mean correlation, group by group, of values with what is known; `value(column, row)`.
template <class Value>
double agreement(const std::vector<KnownModule>& known, const Value& value) {
  struct Sum {
    double n = 0, v = 0, v2 = 0, d = 0, vd = 0;
  };
  std::array<Sum, kKnownGroups> sums{};
  for (const KnownModule& k : known) {
    Sum& s = sums.at(static_cast<std::size_t>(k.group));
    const double v = value(k.column, k.row);
    s.n += 1;
    s.v += v;
    s.v2 += v * v;
    s.d += k.dark ? 1 : 0;
    s.vd += k.dark ? v : 0;
  }
  double total = 0;
  double groups = 0;
  for (const Sum& s : sums) {
    const double pattern = s.d * (s.n - s.d);
    if (s.n > 0 && pattern > 0) {
      const double variance = s.n * s.v2 - s.v * s.v;
      groups += 1;
      total += variance > 1e-9 ? (s.d * s.v - s.n * s.vd) / std::sqrt(variance * pattern) : 0;
    }
  }
  return groups > 0 ? total / groups : 0;
}

}  // namespace loopledger::photo
