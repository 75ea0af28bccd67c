// SPDX-License-Identifier: MIT
#include "photo/bend.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "photo/sample.h"

namespace loopledger::photo {
namespace {

constexpr int kSweeps = 3;
constexpr int kNear = 2;  // nodes to each side that a node's move is expected from

/// A node's expected move, and how it changes per module.
struct Slope {
  Point move, across, down;
};

/// Looks for each node's move in turn, from the finders outwards.
class Search {
 public:
  Search(const Grey& picture, const Grid& grid, const BendSearch& how)
      : picture_(picture),
        grid_(grid),
        plane_(grid.plane()),
        how_(how),
        bend_(grid.modules),
        dark_(cells(), 0) {
    for (const KnownModule& k : known_modules(grid.modules)) {
      if (k.column >= 0 && k.row >= 0 && k.column < grid.modules && k.row < grid.modules) {
        dark_[cell(k.column, k.row)] = k.dark ? 1 : -1;
      }
    }
  }

  [[nodiscard]] Bend bend() && {
    struct Node {
      int i, j;
      double from_finder;
    };
    std::vector<Node> order;
    for (int j = 0; j < bend_.nodes(); ++j) {
      for (int i = 0; i < bend_.nodes(); ++i) {
        order.push_back({i, j, from_finder(i, j)});
      }
    }
    std::ranges::sort(order,
                      [](const Node& a, const Node& b) { return a.from_finder < b.from_finder; });
    std::vector<char> placed(order.size(), 0);
    for (int sweep = 0; sweep < kSweeps; ++sweep) {
      for (const Node& node : order) {
        const Slope slope = around(node.i, node.j, placed);
        bend_.node(node.i, node.j) = best_near(node.i, node.j, slope, sweep == 0);
        placed[slot(node.i, node.j)] = 1;
      }
    }
    return std::move(bend_);
  }

 private:
  [[nodiscard]] std::size_t cells() const {
    return static_cast<std::size_t>(grid_.modules) * static_cast<std::size_t>(grid_.modules);
  }
  [[nodiscard]] std::size_t cell(int column, int row) const {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(grid_.modules) +
           static_cast<std::size_t>(column);
  }
  [[nodiscard]] std::size_t slot(int i, int j) const {
    return static_cast<std::size_t>(j) * static_cast<std::size_t>(bend_.nodes()) +
           static_cast<std::size_t>(i);
  }
  static double place_of(int i) { return i * Bend::kPitch - Bend::kRim; }

  [[nodiscard]] double from_finder(int i, int j) const {
    const double far = grid_.modules - 3.5;
    double least = 1e9;
    for (const Point f : {Point{3.5, 3.5}, Point{far, 3.5}, Point{3.5, far}}) {
      least = std::min(least, std::hypot(place_of(i) - f.x, place_of(j) - f.y));
    }
    return least;
  }

  /// The plane through the moves of the nodes around that have one, by least squares; few nodes
  /// make it level.
  [[nodiscard]] Slope around(int i, int j, const std::vector<char>& placed) const {
    double n = 0;
    Point mean;
    double mean_i = 0;
    double mean_j = 0;
    std::vector<std::pair<int, int>> near;
    for (int nj = std::max(0, j - kNear); nj <= std::min(bend_.nodes() - 1, j + kNear); ++nj) {
      for (int ni = std::max(0, i - kNear); ni <= std::min(bend_.nodes() - 1, i + kNear); ++ni) {
        if ((ni != i || nj != j) && placed[slot(ni, nj)] != 0) {
          near.emplace_back(ni, nj);
          mean = {mean.x + bend_.node(ni, nj).x, mean.y + bend_.node(ni, nj).y};
          mean_i += ni;
          mean_j += nj;
          n += 1;
        }
      }
    }
    if (near.empty()) {
      return {};
    }
    mean = {mean.x / n, mean.y / n};
    mean_i /= n;
    mean_j /= n;
    double ii = how_.level;
    double jj = how_.level;
    double ij = 0;
    Point by_i;
    Point by_j;
    for (const auto& [ni, nj] : near) {
      const double di = ni - mean_i;
      const double dj = nj - mean_j;
      const Point d{bend_.node(ni, nj).x - mean.x, bend_.node(ni, nj).y - mean.y};
      ii += di * di;
      jj += dj * dj;
      ij += di * dj;
      by_i = {by_i.x + di * d.x, by_i.y + di * d.y};
      by_j = {by_j.x + dj * d.x, by_j.y + dj * d.y};
    }
    const double det = ii * jj - ij * ij;
    const auto solve = [&](double a, double b) {
      return Point{(jj * a - ij * b) / det, (ii * b - ij * a) / det};
    };
    const Point x = solve(by_i.x, by_j.x);  // of the move along x: a node across, a node down
    const Point y = solve(by_i.y, by_j.y);
    const double di = i - mean_i;
    const double dj = j - mean_j;
    return {{mean.x + x.x * di + x.y * dj, mean.y + y.x * di + y.y * dj},
            {x.x / Bend::kPitch, y.x / Bend::kPitch},
            {x.y / Bend::kPitch, y.y / Bend::kPitch}};
  }

  /// How much dark and light stand out about a node moved so: the share of the variance that lies
  /// between the modules' centres, known ones counted with their colour.
  [[nodiscard]] double stands_out(int i, int j, Point move, const Slope& slope) const {
    const int column = static_cast<int>(std::lround(place_of(i)));
    const int row = static_cast<int>(std::lround(place_of(j)));
    double n = 0;
    double sum = 0;
    double sum2 = 0;
    double known = 0;
    double known_n = 0;
    for (int y = row - how_.window; y < row + how_.window; ++y) {
      for (int x = column - how_.window; x < column + how_.window; ++x) {
        if (x < 0 || y < 0 || x >= grid_.modules || y >= grid_.modules) {
          continue;
        }
        const double across = x + 0.5 - place_of(i);
        const double down = y + 0.5 - place_of(j);
        const Point at =
            plane_.at(x + 0.5 + move.x + slope.across.x * across + slope.down.x * down,
                      y + 0.5 + move.y + slope.across.y * across + slope.down.y * down);
        const double value = sample(picture_, at.x, at.y);
        n += 1;
        sum += value;
        sum2 += value * value;
        if (const int dark = dark_[cell(x, y)]; dark != 0) {
          known -= dark * value;
          known_n -= dark;
        }
      }
    }
    if (n < 4) {
      return 0;
    }
    const double mean = sum / n;
    const double deviation = std::sqrt(std::max(sum2 / n - mean * mean, 1e-9));
    return deviation + (known - known_n * mean) / n;
  }

  [[nodiscard]] Point best_near(int i, int j, const Slope& slope, bool wide) const {
    const double unit = std::max(stands_out(i, j, slope.move, slope), 1.0);
    Point best = slope.move;
    double most = 1;
    for (const double step : {0.2, 0.1}) {
      const Point from = best;
      const int reach = step > 0.15 ? (wide ? 3 : 2) : 1;
      for (int dy = -reach; dy <= reach; ++dy) {
        for (int dx = -reach; dx <= reach; ++dx) {
          const Point move{from.x + step * dx, from.y + step * dy};
          const double away = std::hypot(move.x - slope.move.x, move.y - slope.move.y);
          const double score = stands_out(i, j, move, slope) / unit - how_.stiffness * away * away;
          if (score > most) {
            most = score;
            best = move;
          }
        }
      }
    }
    return best;
  }

  const Grey& picture_;
  const Grid& grid_;
  Plane plane_;
  BendSearch how_;
  Bend bend_;
  std::vector<int> dark_;  ///< 1 dark, -1 light, 0 not known
};

}  // namespace

Bend::Bend(int modules)
    : nodes_((modules + 2 * kRim) / kPitch + 2),
      moves_(static_cast<std::size_t>(nodes_) * static_cast<std::size_t>(nodes_)) {}

Point Bend::at(double u, double v) const {
  const double x = std::clamp((u + kRim) / kPitch, 0.0, nodes_ - 1.001);
  const double y = std::clamp((v + kRim) / kPitch, 0.0, nodes_ - 1.001);
  const int i = static_cast<int>(x);
  const int j = static_cast<int>(y);
  const double ax = x - i;
  const double ay = y - j;
  const auto mix = [&](double Point::*part) {
    return (node(i, j).*part * (1 - ax) + node(i + 1, j).*part * ax) * (1 - ay) +
           (node(i, j + 1).*part * (1 - ax) + node(i + 1, j + 1).*part * ax) * ay;
  };
  return {mix(&Point::x), mix(&Point::y)};
}

Bend bend_of(const Grey& picture, const Grid& grid, const BendSearch& how) {
  return Search(picture, grid, how).bend();
}

}  // namespace loopledger::photo
