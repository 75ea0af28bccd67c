// SPDX-License-Identifier: MIT
//
// How far a label on a crinkled bag departs from the plane fitted to it: module by module the
// place where dark and light stand out most, kept smooth.
#pragma once

#include <vector>

#include "photo/grid.h"

namespace loopledger::photo {

/// A field of small moves over a symbol, in modules.
class Bend {
 public:
  static constexpr int kRim = 4;    ///< modules around the symbol that it covers
  static constexpr int kPitch = 2;  ///< modules between its nodes

  /// No move anywhere.
  explicit Bend(int modules);

  /// The move at a place in modules from the top left corner.
  [[nodiscard]] Point at(double u, double v) const;

  [[nodiscard]] int nodes() const { return nodes_; }
  [[nodiscard]] Point& node(int i, int j) { return moves_[place(i, j)]; }
  [[nodiscard]] const Point& node(int i, int j) const { return moves_[place(i, j)]; }

 private:
  [[nodiscard]] std::size_t place(int i, int j) const {
    return static_cast<std::size_t>(j) * static_cast<std::size_t>(nodes_) +
           static_cast<std::size_t>(i);
  }
  int nodes_;  ///< a side
  std::vector<Point> moves_;
};

/// How a bend is looked for.
struct BendSearch {
  int window = 3;          ///< modules to each side that are looked at together
  double stiffness = 0.6;  ///< cost of a move of one module away from what the neighbours say
  double level = 2;        ///< nodes squared that it takes to believe a slope
};

[[nodiscard]] Bend bend_of(const Grey& picture, const Grid& grid, const BendSearch& how);

}  // namespace loopledger::photo
