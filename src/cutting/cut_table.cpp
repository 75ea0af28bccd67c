// SPDX-License-Identifier: MIT
#include "cutting/cut_table.h"

#include <algorithm>
#include <numeric>

namespace loopledger::cutting {
namespace {

constexpr Grid kMostExactCells = 1 << 14;
constexpr Grid kCoarseCells = 1 << 13;

}  // namespace

Scale scale_of(const Problem& problem, std::size_t piece) {
  Scale scale;
  scale.unit = 0;
  for (const auto& row : problem.need) {
    scale.unit = std::gcd(scale.unit, row[piece]);
  }
  scale.unit = std::max<Grid>(scale.unit, 1);
  const Grid room = std::max<Grid>(problem.room[piece], 1);
  if (room / scale.unit > kMostExactCells) {
    scale.unit = std::max<Grid>(room / kCoarseCells, 1);
    scale.exact = scale.unit == 1;
  }
  for (const auto& row : problem.need) {
    // A motor longer than the piece is never asked for; it only must not overflow.
    const Grid length = std::min(row[piece], room + scale.unit);
    scale.cells.push_back(static_cast<int>((length + scale.unit / 2) / scale.unit));
  }
  return scale;
}

void FillTable::allow(const Scale& scale, const std::vector<FillRange>& allowed, std::size_t cells,
                      Grid margin) {
  for (const FillRange& range : allowed) {
    const Grid from = (range.from + scale.unit - 1) / scale.unit - margin;
    const Grid to = std::min(range.to / scale.unit + margin, static_cast<Grid>(cells) - 1);
    for (Grid c = std::max<Grid>(from, 1); c <= to; ++c) {
      if (c % 64 == 0 && c + 63 <= to) {
        rows_[kinds_.size() * words_ + static_cast<std::size_t>(c) / 64] = ~std::uint64_t{0};
        c += 63;
      } else {
        rows_[kinds_.size() * words_ + static_cast<std::size_t>(c) / 64] |= std::uint64_t{1}
                                                                            << (c % 64);
      }
    }
  }
}

/// The row once more, so many cells lower.
void FillTable::add_shifted(std::size_t level, std::size_t cells) {
  std::uint64_t* const row = &rows_[level * words_];
  const std::size_t skip = cells / 64;
  const std::size_t bits = cells % 64;
  if (skip >= words_) {
    return;
  }
  const std::size_t last = words_ - skip - 1;
  if (bits == 0) {
    for (std::size_t w = 0; w <= last; ++w) {
      row[w] |= row[w + skip];
    }
    return;
  }
  for (std::size_t w = 0; w < last; ++w) {
    row[w] |= (row[w + skip] >> bits) | (row[w + skip + 1] << (64 - bits));
  }
  row[last] |= row[last + skip] >> bits;
}

std::int64_t FillTable::build(const Problem& problem, std::size_t piece, const Scale& scale,
                              const Counts& left, const std::vector<FillRange>& allowed) {
  Grid longest = 0;
  for (const FillRange& range : allowed) {
    longest = std::max(longest, range.to);
  }
  kinds_.clear();
  most_.clear();
  Grid shortest = longest;
  for (std::size_t t = 0; t < left.size(); ++t) {
    const Grid length = problem.need[t][piece];
    if (left[t] > 0 && length <= longest) {
      kinds_.push_back(t);
      most_.push_back(static_cast<int>(std::min<Grid>(left[t], longest / length)));
      shortest = std::min(shortest, length);
    }
  }
  const Grid margin = scale.exact || kinds_.empty() ? 0 : longest / shortest / 2 + 1;
  const auto cells = static_cast<std::size_t>(longest / scale.unit + margin + 1);
  words_ = cells / 64 + 1;
  rows_.assign((kinds_.size() + 1) * words_, 0);
  allow(scale, allowed, cells, margin);
  std::int64_t steps = 0;
  for (std::size_t level = kinds_.size(); level-- > 0;) {
    std::copy_n(&rows_[(level + 1) * words_], words_, &rows_[level * words_]);
    const auto step = static_cast<std::size_t>(scale.cells[kinds_[level]]);
    // 0 to `known` motors of the kind are in the row: doubled until it is all of them.
    for (int known = 0; known < most_[level];) {
      const int more = std::min(known + 1, most_[level] - known);
      add_shifted(level, step * static_cast<std::size_t>(more));
      known += more;
      steps += static_cast<std::int64_t>(words_);
    }
    steps += static_cast<std::int64_t>(words_);
  }
  return steps / 16 + 1;
}

}  // namespace loopledger::cutting
