// SPDX-License-Identifier: MIT
#include "tag/finders.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <optional>

#include "tag/grey_ops.h"
#include "tag/sample.h"

namespace loopledger::tag {
namespace {

constexpr std::array kModules{2.0, 2.6, 3.3};  // pixels, looked for at each size of the picture
constexpr int kSmallestSide = 30;              // pixels: below, no smaller picture is looked at
constexpr std::size_t kMaxEnlarged = 1'000'000;
constexpr std::size_t kMaxCandidates = 150;  // compared with the pattern, of each size
constexpr std::size_t kMaxFinders = 14;
constexpr double kLikeEnough = 0.5;
constexpr int kAngles = 8;  // in a quarter turn

/// Sums over rectangles in constant time.
class Sums {
 public:
  explicit Sums(const Grey& p)
      : width_(p.width + 1),
        sums_(static_cast<std::size_t>(width_) * static_cast<std::size_t>(p.height + 1), 0) {
    for (int y = 0; y < p.height; ++y) {
      std::uint32_t row = 0;
      for (int x = 0; x < p.width; ++x) {
        row += p.at(x, y);
        sums_[place(x + 1, y + 1)] = sums_[place(x + 1, y)] + row;
      }
    }
  }
  /// Of the square of side 2 half + 1 about a pixel; it must lie inside.
  [[nodiscard]] double square(int x, int y, int half) const {
    return static_cast<double>(
        sums_[place(x + half + 1, y + half + 1)] - sums_[place(x - half, y + half + 1)] -
        sums_[place(x + half + 1, y - half)] + sums_[place(x - half, y - half)]);
  }

 private:
  [[nodiscard]] std::size_t place(int x, int y) const {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(width_) +
           static_cast<std::size_t>(x);
  }
  int width_;
  std::vector<std::uint32_t> sums_;  // differences are right even where the sums have wrapped
};

struct Candidate {
  double x = 0, y = 0, module = 0, score = 0;
};

/// How much lighter the first ring is than the middle and than the dark ring, in grey values.
std::vector<Candidate> candidates_in(const Grey& p, const Sums& sums, double module) {
  const int h0 = static_cast<int>(std::lround(1.5 * module - 0.5));
  const int h1 = static_cast<int>(std::lround(2.5 * module - 0.5));
  const int h2 = static_cast<int>(std::lround(3.5 * module - 0.5));
  const auto area = [](int half) { return (2.0 * half + 1) * (2.0 * half + 1); };
  const double n0 = area(h0);
  const double n1 = area(h1) - n0;
  const double n2 = area(h2) - area(h1);
  const int width = p.width - 2 * h2;
  const int height = p.height - 2 * h2;
  if (width < 3 || height < 3) {
    return {};
  }
  std::vector<float> scores(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
  const auto at = [&](int x, int y) -> float& {
    return scores[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                  static_cast<std::size_t>(x)];
  };
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      const double s0 = sums.square(x + h2, y + h2, h0);
      const double s1 = sums.square(x + h2, y + h2, h1);
      const double s2 = sums.square(x + h2, y + h2, h2);
      const double light = (s1 - s0) / n1;
      at(x, y) = static_cast<float>(std::min(light - s0 / n0, light - (s2 - s1) / n2));
    }
  }
  std::vector<Candidate> found;
  for (int y = 1; y + 1 < height; ++y) {
    for (int x = 1; x + 1 < width; ++x) {
      const float score = at(x, y);
      bool most = score > 1.5F;
      for (int dy = -1; dy <= 1 && most; ++dy) {
        for (int dx = -1; dx <= 1; ++dx) {
          most = most && at(x + dx, y + dy) <= score;
        }
      }
      if (most) {
        found.push_back({static_cast<double>(x + h2), static_cast<double>(y + h2), module,
                         static_cast<double>(score)});
      }
    }
  }
  std::ranges::sort(found,
                    [](const Candidate& a, const Candidate& b) { return a.score > b.score; });
  found.resize(std::min(found.size(), kMaxCandidates));
  return found;
}

struct Pose {
  double x = 0, y = 0, module = 0, angle = 0;
};

/// Correlation of the picture with the pattern of 9 x 9 modules in this pose.
double likeness(const Grey& p, const Pose& pose) {
  const double c = std::cos(pose.angle) * pose.module;
  const double s = std::sin(pose.angle) * pose.module;
  double sum = 0;
  double sum2 = 0;
  double dark = 0;
  constexpr int kDark = 9 + 24;
  constexpr int kAll = 81;
  for (int v = -4; v <= 4; ++v) {
    for (int u = -4; u <= 4; ++u) {
      const double value = sample(p, pose.x + c * u - s * v, pose.y + s * u + c * v);
      sum += value;
      sum2 += value * value;
      const int ring = std::max(std::abs(u), std::abs(v));
      dark += ring <= 1 || ring == 3 ? value : 0;
    }
  }
  const double variance = sum2 - sum * sum / kAll;
  if (variance < kAll) {
    return 0;
  }
  constexpr double kPattern = kDark * (kAll - kDark) / static_cast<double>(kAll);
  return (sum * kDark / kAll - dark) / std::sqrt(variance * kPattern);
}

/// The pose near the candidate that is most alike.
std::optional<Finder> compared(const Grey& p, const Candidate& candidate) {
  Pose best{candidate.x, candidate.y, candidate.module, 0};
  double most = 0;
  for (int i = 0; i < kAngles; ++i) {
    Pose pose = best;
    pose.angle = i * std::numbers::pi / 2 / kAngles;
    if (const double l = likeness(p, pose); l > most) {
      most = l;
      best.angle = pose.angle;
    }
  }
  if (most < kLikeEnough * 0.6) {
    return std::nullopt;
  }
  for (double step = 0.5; step > 0.1; step /= 2) {
    for (bool better = true; better;) {
      better = false;
      const Pose from = best;
      for (const double d : {-step, step}) {
        for (const Pose& pose : {Pose{from.x + d * from.module, from.y, from.module, from.angle},
                                 Pose{from.x, from.y + d * from.module, from.module, from.angle},
                                 Pose{from.x, from.y, from.module * (1 + d / 5), from.angle},
                                 Pose{from.x, from.y, from.module, from.angle + d / 4}}) {
          if (const double l = likeness(p, pose); l > most + 1e-6) {
            most = l;
            best = pose;
            better = true;
          }
        }
      }
    }
  }
  return Finder{{best.x, best.y}, best.module, most};
}

void look_at_size(const Grey& p, double scale, std::vector<Finder>& found) {
  const Sums sums(p);
  for (const double module : kModules) {
    for (const Candidate& candidate : candidates_in(p, sums, module)) {
      if (auto finder = compared(p, candidate); finder && finder->likeness > kLikeEnough) {
        finder->at = {(finder->at.x + 0.5) * scale - 0.5, (finder->at.y + 0.5) * scale - 0.5};
        finder->module *= scale;
        found.push_back(*finder);
      }
    }
  }
}

}  // namespace

std::vector<Finder> finders_in(const Grey& picture) {
  std::vector<Finder> found;
  if (picture.size() <= kMaxEnlarged) {
    look_at_size(enlarged(picture, 2), 0.5, found);
  }
  for (int factor = 1; std::min(picture.width, picture.height) / factor >= kSmallestSide;
       factor *= 2) {
    look_at_size(factor == 1 ? picture : reduced(picture, factor), factor, found);
  }
  std::ranges::sort(found,
                    [](const Finder& a, const Finder& b) { return a.likeness > b.likeness; });
  std::vector<Finder> apart;
  for (const Finder& finder : found) {
    const bool within = std::ranges::any_of(apart, [&](const Finder& other) {
      return std::hypot(finder.at.x - other.at.x, finder.at.y - other.at.y) <
             3.5 * std::max(finder.module, other.module);
    });
    if (!within && apart.size() < kMaxFinders) {
      apart.push_back(finder);
    }
  }
  return apart;
}

}  // namespace loopledger::tag
