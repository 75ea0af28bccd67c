// SPDX-License-Identifier: MIT
#include "photo/grid_read.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <numbers>
#include <optional>
#include <span>
#include <string>
#include <utility>

#include "photo/bend.h"
#include "photo/finders.h"
#include "photo/grey_ops.h"
#include "photo/grid.h"
#include "photo/sample.h"

namespace loopledger::photo {
namespace {

// Chosen on the photo sets of tests/support/photo_set.h, seeds 1 to 4; no source.
constexpr int kMargin = 3;  // modules around the symbol that are worked out with it
constexpr int kFine = 4;    // samples a module
constexpr double kGoodGrid = 0.45;
constexpr std::size_t kGridsRead = 4;
constexpr std::array kBlurs{0.25, 0.4, 0.55, 0.7, 0.85};  // of a module: standard deviations
constexpr std::array kDamping{0.002, 0.01, 0.05};
constexpr std::array kBendSearches{BendSearch{3, 0.6, 2}, BendSearch{2, 0.6, 4},
                                   BendSearch{2, 1.2, 1e9}};
constexpr std::size_t kValuesDecoded = 5;
constexpr int kDrawnModule = 3;  // pixels

/// A table of numbers.
class Table {
 public:
  Table(int width, int height)
      : width_(width),
        height_(height),
        values_(static_cast<std::size_t>(width) * static_cast<std::size_t>(height), 0) {}
  [[nodiscard]] int width() const { return width_; }
  [[nodiscard]] int height() const { return height_; }
  [[nodiscard]] double& at(int x, int y) { return values_[place(x, y)]; }
  [[nodiscard]] double at(int x, int y) const { return values_[place(x, y)]; }

 private:
  [[nodiscard]] std::size_t place(int x, int y) const {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(width_) +
           static_cast<std::size_t>(x);
  }
  int width_;
  int height_;
  std::vector<double> values_;
};

double below(double x) { return 0.5 * std::erfc(-x / std::numbers::sqrt2); }

/// Row j: the weights by which samples along a line give back module j, for a blur of `sigma`.
Table inverse_of_blur(int modules, double sigma, double damping) {
  const int count = modules * kFine;
  Table blur(count, modules);  // of module y on sample x
  for (int y = 0; y < modules; ++y) {
    for (int x = 0; x < count; ++x) {
      const double at = (x + 0.5) / kFine - y;
      blur.at(x, y) = below(at / sigma) - below((at - 1) / sigma);
    }
  }
  Table normal(modules, modules);
  for (int i = 0; i < modules; ++i) {
    for (int j = 0; j < modules; ++j) {
      for (int x = 0; x < count; ++x) {
        normal.at(j, i) += blur.at(x, i) * blur.at(x, j);
      }
    }
    normal.at(i, i) += damping * kFine;
  }
  // Gauss-Jordan; positive definite, so that no pivot is needed.
  for (int i = 0; i < modules; ++i) {
    const double pivot = normal.at(i, i);
    for (int j = 0; j < modules; ++j) {
      normal.at(j, i) /= pivot;
    }
    for (int x = 0; x < count; ++x) {
      blur.at(x, i) /= pivot;
    }
    for (int r = 0; r < modules; ++r) {
      const double factor = normal.at(i, r);
      if (r == i || factor == 0) {
        continue;
      }
      for (int j = 0; j < modules; ++j) {
        normal.at(j, r) -= factor * normal.at(j, i);
      }
      for (int x = 0; x < count; ++x) {
        blur.at(x, r) -= factor * blur.at(x, i);
      }
    }
  }
  return blur;
}

/// The symbol and its margin seen straight on, kFine samples a module.
Table straightened(const Grey& picture, const Grid& grid, const Bend& bend) {
  const int side = (grid.modules + 2 * kMargin) * kFine;
  const Plane plane = grid.plane();
  Table flat(side, side);
  for (int y = 0; y < side; ++y) {
    for (int x = 0; x < side; ++x) {
      const double u = (x + 0.5) / kFine - kMargin;
      const double v = (y + 0.5) / kFine - kMargin;
      const Point moved = bend.at(u, v);
      const Point at = plane.at(u + moved.x, v + moved.y);
      flat.at(x, y) = sample(picture, at.x, at.y);
    }
  }
  return flat;
}

/// Each value as its distance from the neighbourhood's mean, in its deviation; `evened` does the
/// same for pictures, whose 256 values are too few to work a blur back from.
Table evened_out(const Table& t, int radius) {
  const int side = t.width();
  Table sum(side + 1, side + 1);
  Table sum2(side + 1, side + 1);
  for (int y = 0; y < side; ++y) {
    for (int x = 0; x < side; ++x) {
      const double v = t.at(x, y);
      sum.at(x + 1, y + 1) = v + sum.at(x, y + 1) + sum.at(x + 1, y) - sum.at(x, y);
      sum2.at(x + 1, y + 1) = v * v + sum2.at(x, y + 1) + sum2.at(x + 1, y) - sum2.at(x, y);
    }
  }
  Table even(side, side);
  for (int y = 0; y < side; ++y) {
    for (int x = 0; x < side; ++x) {
      const int x1 = std::max(0, x - radius);
      const int y1 = std::max(0, y - radius);
      const int x2 = std::min(side, x + radius + 1);
      const int y2 = std::min(side, y + radius + 1);
      const double n = (x2 - x1) * (y2 - y1);
      const auto over = [&](const Table& s) {
        return (s.at(x2, y2) - s.at(x1, y2) - s.at(x2, y1) + s.at(x1, y1)) / n;
      };
      const double mean = over(sum);
      even.at(x, y) = (t.at(x, y) - mean) / std::sqrt(std::max(over(sum2) - mean * mean, 4.0));
    }
  }
  return even;
}

/// inverse x flat x inverse transposed: one value a module.
Table modules_in(const Table& flat, const Table& inverse) {
  const int modules = inverse.height();
  const int side = flat.width();
  Table half(side, modules);
  for (int j = 0; j < modules; ++j) {
    for (int y = 0; y < side; ++y) {
      const double w = inverse.at(y, j);
      if (std::abs(w) < 1e-6) {
        continue;
      }
      for (int x = 0; x < side; ++x) {
        half.at(x, j) += w * flat.at(x, y);
      }
    }
  }
  Table values(modules, modules);
  for (int j = 0; j < modules; ++j) {
    for (int i = 0; i < modules; ++i) {
      double sum = 0;
      for (int x = 0; x < side; ++x) {
        sum += inverse.at(x, i) * half.at(x, j);
      }
      values.at(i, j) = sum;
    }
  }
  return values;
}

struct ModuleValues {
  Table values;  ///< a module each, margin and all
  double agrees = 0;
};

/// A clean symbol of dark where the value is below the threshold, the known modules as known.
Grey clean(const Table& values, int modules, const std::vector<KnownModule>& known, double local) {
  std::vector<double> dark;
  std::vector<double> light;
  for (const KnownModule& k : known) {
    (k.dark ? dark : light).push_back(values.at(k.column + kMargin, k.row + kMargin));
  }
  const auto middle = [](std::vector<double>& of) {
    const auto half = of.begin() + static_cast<std::ptrdiff_t>(of.size() / 2);
    std::nth_element(of.begin(), half, of.end());
    return *half;
  };
  const double all = (middle(dark) + middle(light)) / 2;
  constexpr int kRim = 4;
  const int side = (modules + 2 * kRim) * kDrawnModule;
  Grey drawn(side, side, 255);
  const auto set = [&](int column, int row, bool is_dark) {
    fill(drawn,
         {(column + kRim) * kDrawnModule, (row + kRim) * kDrawnModule, kDrawnModule, kDrawnModule},
         is_dark ? 0 : 255);
  };
  for (int row = 0; row < modules; ++row) {
    for (int column = 0; column < modules; ++column) {
      double sum = 0;
      double n = 0;
      for (int dy = -3; dy <= 3; ++dy) {
        for (int dx = -3; dx <= 3; ++dx) {
          const int x = column + kMargin + dx;
          const int y = row + kMargin + dy;
          if (x >= 0 && y >= 0 && x < values.width() && y < values.height()) {
            sum += values.at(x, y);
            n += 1;
          }
        }
      }
      const double threshold = (1 - local) * all + local * sum / n;
      set(column, row, values.at(column + kMargin, row + kMargin) < threshold);
    }
  }
  for (const KnownModule& k : known) {
    set(k.column, k.row, k.dark);
  }
  return drawn;
}

std::optional<std::string> decoded(const ModuleValues& reading, int modules,
                                   const std::vector<KnownModule>& known) {
  for (const double local : {0.0, 0.5}) {
    for (const Symbol& symbol : symbols_in(clean(reading.values, modules, known, local))) {
      if (symbol.decoded()) {
        return symbol.text;
      }
    }
  }
  return std::nullopt;
}

/// Reads straightened symbols of one size.
class Reader {
 public:
  explicit Reader(int modules) : modules_(modules), known_(known_modules(modules)) {
    for (const double blur : kBlurs) {
      for (const double damping : kDamping) {
        inverses_.push_back(inverse_of_blur(modules + 2 * kMargin, blur, damping));
      }
    }
  }
  [[nodiscard]] int modules() const { return modules_; }

  [[nodiscard]] std::optional<std::string> read(const Table& flat) const {
    std::vector<ModuleValues> readings;
    for (const Table& inverse : inverses_) {
      ModuleValues reading{modules_in(flat, inverse), 0};
      reading.agrees = agreement(known_, [&](int column, int row) {
        return reading.values.at(column + kMargin, row + kMargin);
      });
      readings.push_back(std::move(reading));
    }
    std::ranges::sort(
        readings, [](const ModuleValues& a, const ModuleValues& b) { return a.agrees > b.agrees; });
    for (const ModuleValues& reading : std::span(readings).first(kValuesDecoded)) {
      if (auto text = decoded(reading, modules_, known_)) {
        return text;
      }
    }
    return std::nullopt;
  }

 private:
  int modules_;
  std::vector<KnownModule> known_;
  std::vector<Table> inverses_;
};

/// The reader for a size, made when first wanted.
const Reader& reader_for(int modules, std::vector<std::unique_ptr<Reader>>& readers) {
  for (const auto& reader : readers) {
    if (reader->modules() == modules) {
      return *reader;
    }
  }
  return *readers.emplace_back(std::make_unique<Reader>(modules));
}

}  // namespace

std::vector<Symbol> symbols_by_grid(const Grey& picture, Effort& effort) {
  std::vector<Symbol> found;
  if (effort.grid_readings <= 0) {
    return found;
  }
  std::vector<std::unique_ptr<Reader>> readers;
  std::size_t read = 0;
  for (const Grid& grid : grids_in(picture, finders_in(picture))) {
    if (grid.fit < kGoodGrid || ++read > kGridsRead || effort.grid_readings <= 0) {
      break;
    }
    const Reader& reader = reader_for(grid.modules, readers);
    const auto read_bent = [&](const Bend& bend) {
      --effort.grid_readings;
      return reader.read(evened_out(straightened(picture, grid, bend), 5 * kFine));
    };
    std::optional<std::string> text = read_bent(Bend(grid.modules));
    for (const BendSearch& how : kBendSearches) {
      if (!text && effort.grid_readings > 0) {
        text = read_bent(bend_of(picture, grid, how));
      }
    }
    if (text) {
      found.push_back({std::move(*text), grid.corners});
      break;
    }
  }
  return found;
}

}  // namespace loopledger::photo
