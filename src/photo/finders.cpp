// SPDX-License-Identifier: MIT
#include "photo/finders.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <optional>

#include "photo/grey_ops.h"
#include "photo/sample.h"

namespace loopledger::photo {
namespace {

// Chosen on the photo sets of tests/support/photo_set.h, seeds 1 to 4; no source.
constexpr std::array kModules{2.0, 2.6, 3.3};  // pixels, looked for at each size of the picture
constexpr int kSmallestSide = 30;              // pixels: below, no smaller picture is looked at
constexpr std::size_t kMaxEnlarged = 1'000'000;
// Places compared with the pattern, of each size: at least so many, and one for so many pixels.
constexpr std::size_t kMaxCandidates = 150;
constexpr std::size_t kPixelsACandidate = 5000;
constexpr int kCirclePoints = 12;
constexpr double kLightRadius = 2.3;  // modules from the middle
constexpr double kDarkRadius = 3.3;
constexpr int kLeastScore = 2;  // grey values
constexpr double kLikeEnough = 0.5;
constexpr int kAngles = 8;  // in a quarter turn

struct Candidate {
  double x = 0, y = 0, module = 0, score = 0;
};

/// Steps from a pixel to points on a circle about it.
std::array<std::ptrdiff_t, kCirclePoints> circle(const Grey& p, double radius) {
  std::array<std::ptrdiff_t, kCirclePoints> steps{};
  for (int i = 0; i < kCirclePoints; ++i) {
    const double angle = 2 * std::numbers::pi * i / kCirclePoints;
    steps.at(static_cast<std::size_t>(i)) =
        static_cast<std::ptrdiff_t>(std::lround(radius * std::sin(angle))) * p.width +
        static_cast<std::ptrdiff_t>(std::lround(radius * std::cos(angle)));
  }
  return steps;
}

/// Where a light circle lies between a dark middle and a dark circle: at these radii a finder is
/// so whichever way it is turned. Scores are how much lighter, summed.
std::vector<Candidate> candidates_in(const Grey& p, double module) {
  const int rim = static_cast<int>(std::lround(kDarkRadius * module)) + 1;
  const int width = p.width - 2 * rim;
  const int height = p.height - 2 * rim;
  if (width < 3 || height < 3) {
    return {};
  }
  const auto light_steps = circle(p, kLightRadius * module);
  const auto dark_steps = circle(p, kDarkRadius * module);
  std::vector<int> scores(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
  const auto at = [&](int x, int y) -> int& {
    return scores[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                  static_cast<std::size_t>(x)];
  };
  for (int y = 0; y < height; ++y) {
    const std::uint8_t* pixel = p.row(y + rim) + rim;
    for (int x = 0; x < width; ++x, ++pixel) {
      int quarter = 0;  // most pixels need no more than a quarter of a look
      for (std::size_t i = 0; i < light_steps.size(); i += 4) {
        quarter += pixel[light_steps[i]];
      }
      if (quarter - kCirclePoints / 4 * pixel[0] <= kLeastScore) {
        continue;
      }
      int light = 0;
      int dark = 0;
      for (std::size_t i = 0; i < light_steps.size(); ++i) {
        light += pixel[light_steps[i]];
        dark += pixel[dark_steps[i]];
      }
      at(x, y) = 2 * light - kCirclePoints * pixel[0] - dark;
    }
  }
  std::vector<Candidate> found;
  for (int y = 1; y + 1 < height; ++y) {
    for (int x = 1; x + 1 < width; ++x) {
      const int score = at(x, y);
      bool most = score > kLeastScore * kCirclePoints;
      for (int dy = -1; dy <= 1 && most; ++dy) {
        for (int dx = -1; dx <= 1; ++dx) {
          most = most && at(x + dx, y + dy) <= score;
        }
      }
      if (most) {
        found.push_back({static_cast<double>(x + rim), static_cast<double>(y + rim), module,
                         static_cast<double>(score)});
      }
    }
  }
  std::ranges::sort(found,
                    [](const Candidate& a, const Candidate& b) { return a.score > b.score; });
  found.resize(std::min(found.size(), std::max(kMaxCandidates, p.size() / kPixelsACandidate)));
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
  const Grey smooth = box_blurred(p, 1);  // against noise
  for (const double module : kModules) {
    for (const Candidate& candidate : candidates_in(smooth, module)) {
      if (auto finder = compared(p, candidate); finder && finder->likeness > kLikeEnough) {
        finder->at = {(finder->at.x + 0.5) * scale - 0.5, (finder->at.y + 0.5) * scale - 0.5};
        finder->module *= scale;
        found.push_back(*finder);
      }
    }
  }
}

}  // namespace

std::vector<Finder> finders_in(const Grey& picture, const FinderSearch& how) {
  std::vector<Finder> found;
  if (how.small_modules && picture.size() <= kMaxEnlarged) {
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
    if (!within && apart.size() < how.most) {
      apart.push_back(finder);
    }
  }
  return apart;
}

}  // namespace loopledger::photo
