// SPDX-License-Identifier: MIT
#include "support/photo_set.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include "base/date.h"
#include "photo/grey_ops.h"
#include "photo/image.h"
#include "photo/picture.h"
#include "tag/tag_text.h"

namespace loopledger::test {
namespace {

using photo::Grey;

constexpr int kModule = 6;    // pixels: 0.51 mm at 300 dpi
constexpr int kWidth = 827;   // 70 mm at 300 dpi
constexpr int kHeight = 437;  // 37 mm
constexpr double kPi = std::numbers::pi;
constexpr std::uint8_t kTable = 205;  // what lies around the label

/// The same numbers from the same seed on every system, which the standard's distributions are not.
class Random {
 public:
  explicit Random(std::uint64_t seed) : state_(seed) {}
  std::uint64_t next() {
    std::uint64_t z = (state_ += 0x9E3779B97F4A7C15U);
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
    return z ^ (z >> 31U);
  }
  double uniform(double from, double to) {
    return from + (to - from) * static_cast<double>(next() >> 11U) / 9007199254740992.0;
  }
  int whole(int from, int to) {
    return from + static_cast<int>(next() % static_cast<std::uint64_t>(to - from + 1));
  }
  double normal() {
    const double u = 1 - uniform(0, 1);
    return std::sqrt(-2 * std::log(u)) * std::cos(2 * kPi * uniform(0, 1));
  }

 private:
  std::uint64_t state_;
};

std::uint8_t pixel(double v) {
  return static_cast<std::uint8_t>(std::lround(std::clamp(v, 0.0, 255.0)));
}

double sampled(const Grey& p, double x, double y, double ground) {
  const int ix = static_cast<int>(std::floor(x));
  const int iy = static_cast<int>(std::floor(y));
  const auto at = [&](int px, int py) {
    return px < 0 || py < 0 || px >= p.width || py >= p.height ? ground : p.at(px, py);
  };
  const double ax = x - ix;
  const double ay = y - iy;
  return (at(ix, iy) * (1 - ax) + at(ix + 1, iy) * ax) * (1 - ay) +
         (at(ix, iy + 1) * (1 - ax) + at(ix + 1, iy + 1) * ax) * ay;
}

/// Each pixel of the new picture from the place in the old one that `from` gives; means of 2 x 2.
template <class From>
Grey warped(const Grey& p, int width, int height, From from) {
  Grey made(width, height, kTable);
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      double sum = 0;
      for (const double dy : {-0.25, 0.25}) {
        for (const double dx : {-0.25, 0.25}) {
          const auto [sx, sy] = from(x + dx, y + dy);
          sum += sampled(p, sx, sy, kTable) / 4;
        }
      }
      made.at(x, y) = pixel(sum);
    }
  }
  return made;
}

using Place = std::array<double, 2>;

/// Reduced by any factor of 1 or more, each pixel the mean of what it covers; to all sides the
/// symbol's place among the pixels is left to chance.
Grey shrunk(const Grey& p, double factor, Random& random) {
  const double x0 = random.uniform(0, factor);
  const double y0 = random.uniform(0, factor);
  const int width = static_cast<int>((p.width - x0) / factor);
  const int height = static_cast<int>((p.height - y0) / factor);
  constexpr int kParts = 8;
  Grey made(width, height, 0);
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      double sum = 0;
      for (int j = 0; j < kParts; ++j) {
        for (int i = 0; i < kParts; ++i) {
          const int sx = static_cast<int>(x0 + (x + (i + 0.5) / kParts) * factor);
          const int sy = static_cast<int>(y0 + (y + (j + 0.5) / kParts) * factor);
          sum += p.at(std::min(sx, p.width - 1), std::min(sy, p.height - 1));
        }
      }
      made.at(x, y) = pixel(sum / (kParts * kParts));
    }
  }
  return made;
}

template <class Weight>
Grey along(const Grey& p, const std::vector<Place>& offsets, Weight weight) {
  Grey made(p.width, p.height, 0);
  for (int y = 0; y < p.height; ++y) {
    for (int x = 0; x < p.width; ++x) {
      double sum = 0;
      double weights = 0;
      for (std::size_t i = 0; i < offsets.size(); ++i) {
        const double w = weight(i);
        sum += w * sampled(p, x + offsets[i][0], y + offsets[i][1], 255);
        weights += w;
      }
      made.at(x, y) = pixel(sum / weights);
    }
  }
  return made;
}

/// Gaussian, sigma in pixels.
Grey blurred(const Grey& p, double sigma) {
  const int reach = static_cast<int>(std::ceil(3 * sigma));
  std::vector<Place> across;
  std::vector<Place> down;
  for (int i = -reach; i <= reach; ++i) {
    across.push_back({static_cast<double>(i), 0});
    down.push_back({0, static_cast<double>(i)});
  }
  const auto weight = [&](std::size_t i) {
    const double d = static_cast<double>(i) - reach;
    return std::exp(-d * d / (2 * sigma * sigma));
  };
  return along(along(p, across, weight), down, weight);
}

Grey smeared(const Grey& p, double length, double angle) {
  constexpr int kSteps = 24;
  std::vector<Place> offsets;
  for (int i = 0; i <= kSteps; ++i) {
    const double d = length * (static_cast<double>(i) / kSteps - 0.5);
    offsets.push_back({d * std::cos(angle), d * std::sin(angle)});
  }
  return along(p, offsets, [](std::size_t) { return 1.0; });
}

Grey noisy(Grey p, double sigma, Random& random) {
  for (std::uint8_t& v : p.pixels) {
    v = pixel(v + sigma * random.normal());
  }
  return p;
}

/// Contrast reduced to `share` of the range about a grey.
Grey faint(Grey p, double share, double middle) {
  for (std::uint8_t& v : p.pixels) {
    v = pixel(middle + share * (v - 127.5));
  }
  return p;
}

Grey compressed(const Grey& p, int quality) {
  auto read = photo::read_image(jpeg(p, {JpegForm::Inks::grey, false, quality}));
  return read ? std::move(read).value() : Grey();
}

Grey rotated(const Grey& p, double degrees) {
  const double a = degrees * kPi / 180;
  const int side = static_cast<int>(std::hypot(p.width, p.height)) + 2;
  return warped(p, side, side, [&](double x, double y) {
    const double u = x - side / 2.0;
    const double v = y - side / 2.0;
    return Place{p.width / 2.0 + std::cos(a) * u + std::sin(a) * v,
                 p.height / 2.0 - std::sin(a) * u + std::cos(a) * v};
  });
}

/// Seen from the side: the label's plane turned by `degrees` about an axis at `axis` radians, the
/// camera three label widths away.
Grey seen_from_side(const Grey& p, double degrees, double axis) {
  const double a = degrees * kPi / 180;
  const double far = 3.0 * p.width;
  return warped(p, p.width, p.height + p.width / 4, [&](double x, double y) {
    const double u = x - p.width / 2.0;
    const double v = y - p.height / 2.0 - p.width / 8.0;
    const double s = std::cos(axis) * u + std::sin(axis) * v;   // along the axis
    const double t = -std::sin(axis) * u + std::cos(axis) * v;  // across it, shortened
    const double on = far * t / (far * std::cos(a) - t * std::sin(a));
    const double deep = (far + on * std::sin(a)) / far;
    const double along_axis = s * deep;
    return Place{p.width / 2.0 + std::cos(axis) * along_axis - std::sin(axis) * on,
                 p.height / 2.0 + std::sin(axis) * along_axis + std::cos(axis) * on};
  });
}

/// A bag that is not flat: waves in the picture and bright streaks along them.
Grey wrinkled(const Grey& p, double amplitude, double streak, Random& random) {
  struct Wave {
    double kx, ky, phase, amplitude, dx, dy;
  };
  std::vector<Wave> waves;
  for (int i = 0; i < 5; ++i) {
    const double length = kModule * random.uniform(9, 26);
    const double direction = random.uniform(0, kPi);
    waves.push_back({2 * kPi / length * std::cos(direction), 2 * kPi / length * std::sin(direction),
                     random.uniform(0, 2 * kPi), amplitude * random.uniform(0.2, 0.6),
                     std::cos(direction), std::sin(direction)});
  }
  Grey made = warped(p, p.width, p.height, [&](double x, double y) {
    Place at{x, y};
    for (const Wave& w : waves) {
      const double s = w.amplitude * std::sin(w.kx * x + w.ky * y + w.phase);
      at[0] += s * w.dx;
      at[1] += s * w.dy;
    }
    return at;
  });
  for (int y = 0; y < made.height; ++y) {
    for (int x = 0; x < made.width; ++x) {
      const Wave& w = waves.front();
      const double shine = std::pow(std::max(0.0, std::cos(w.kx * x + w.ky * y + w.phase)), 12);
      const double shade = 1 - 0.25 * std::max(0.0, -std::cos(w.kx * x + w.ky * y + w.phase));
      made.at(x, y) = pixel(made.at(x, y) * shade + streak * shine);
    }
  }
  return made;
}

struct Label {
  std::string text;
  Grey picture;
  double x = 0, y = 0, side = 0;  ///< the symbol without its quiet zone
};

/// A label with its symbol on the right and something like print on the left.
Label drawn_label(int number, Random& random) {
  Label label;
  const MotorId id{std::string(1, static_cast<char>('A' + random.whole(0, 25))) +
                       static_cast<char>('A' + random.whole(0, 25)),
                   number + 1};
  const bool made = number % 3 != 0;
  tag::TagFigures figures{id,
                          made ? tag::TagState::made : tag::TagState::est,
                          Turns::of(random.whole(300, 3200)),
                          Torque::gf_cm(random.whole(8, 90)),
                          Mass::g(random.whole(350, 2990) / 1000.0),
                          Length::mm(random.whole(120, 640)),
                          Date{2026, random.whole(1, 12), random.whole(1, 28)}};
  label.text = tag::tag_texts(figures).front();
  label.picture = Grey(kWidth, kHeight, 255);
  const Grey symbol = drawn(label.text, kModule);
  const int x = kWidth - symbol.width - random.whole(0, 20);
  const int y = (kHeight - symbol.height) / 2 + random.whole(-20, 20);
  for (int row = 0; row < 7; ++row) {
    const int size = row == 0 ? 60 : 26;
    const int top = row == 0 ? 30 : 80 + row * 46;
    for (int at = 30; at + size < x - 10;) {
      const int wide = random.whole(size / 3, size * 2 / 3);
      fill(label.picture, {at, top, std::max(2, size / 7), size}, 0);
      if (random.whole(0, 2) != 0) {
        fill(label.picture, {at, top + random.whole(0, 2) * size / 3, wide, std::max(2, size / 8)},
             0);
      }
      at += wide + size / 4 + (random.whole(0, 5) == 0 ? size / 2 : 0);
    }
  }
  paste(label.picture, symbol, x, y);
  label.x = x + tag::kQuietModules * kModule;
  label.y = y + tag::kQuietModules * kModule;
  label.side = symbol.width - 2.0 * tag::kQuietModules * kModule;
  return label;
}

Grey with_glare(const Label& label, double radius, Random& random) {
  Grey p = label.picture;
  const double cx = label.x + label.side * random.uniform(0.2, 0.8);
  const double cy = label.y + label.side * random.uniform(0.2, 0.8);
  const double long_axis = random.uniform(1, 1.8);
  const double angle = random.uniform(0, kPi);
  for (int y = 0; y < p.height; ++y) {
    for (int x = 0; x < p.width; ++x) {
      const double u = (x - cx) * std::cos(angle) + (y - cy) * std::sin(angle);
      const double v = -(x - cx) * std::sin(angle) + (y - cy) * std::cos(angle);
      const double r = std::hypot(u / long_axis, v) / (radius * label.side);
      p.at(x, y) = pixel(p.at(x, y) * 0.8 + 330 / (1 + std::pow(r, 6)));
    }
  }
  return p;
}

/// A thumb or a ring of tape over a part of the symbol.
Grey with_cover(const Label& label, double share, Random& random) {
  Grey p = label.picture;
  const double area = share * label.side * label.side;
  const double wide = std::sqrt(area) * random.uniform(0.7, 1.4);
  const double high = area / wide;
  const double cx = label.x + label.side * random.uniform(0.1, 0.9);
  const double cy = label.y + label.side * random.uniform(0.1, 0.9);
  const auto value = static_cast<std::uint8_t>(random.whole(0, 1) == 0 ? 70 : 220);
  for (int y = 0; y < p.height; ++y) {
    for (int x = 0; x < p.width; ++x) {
      const double u = (x - cx) / (wide / 1.77);
      const double v = (y - cy) / (high / 1.77);
      if (u * u + v * v < 1) {
        p.at(x, y) = value;
      }
    }
  }
  return p;
}

Grey in_uneven_light(Grey p, double darkest, Random& random) {
  const double angle = random.uniform(0, 2 * kPi);
  const double edge = random.uniform(-0.3, 0.3);
  for (int y = 0; y < p.height; ++y) {
    for (int x = 0; x < p.width; ++x) {
      const double t =
          ((x - p.width / 2.0) * std::cos(angle) + (y - p.height / 2.0) * std::sin(angle)) /
          p.width;
      const double light = 1 - (1 - darkest) * std::clamp(t + 0.5, 0.0, 1.0);
      const double shadow = 0.75 + 0.25 / (1 + std::exp((t - edge) * 60));
      p.at(x, y) = pixel(p.at(x, y) * light * shadow);
    }
  }
  return p;
}

Grey combined(const Grey& label, std::size_t s, Random& random) {
  Grey p = rotated(label, random.uniform(-25, 25));
  p = seen_from_side(p, std::array{8.0, 14.0, 20.0, 24.0}.at(s), random.uniform(0, kPi));
  p = blurred(p, kModule * std::array{0.15, 0.22, 0.30, 0.42}.at(s));
  p = in_uneven_light(std::move(p), std::array{0.9, 0.8, 0.7, 0.6}.at(s), random);
  p = shrunk(p, kModule / std::array{4.5, 3.6, 2.9, 2.2}.at(s), random);
  p = faint(std::move(p), std::array{0.8, 0.65, 0.5, 0.4}.at(s), 120);
  p = noisy(std::move(p), std::array{2.0, 4.0, 6.0, 8.0}.at(s), random);
  return compressed(p, std::array{85, 75, 65, 55}.at(s));
}

Grey degraded(const Label& label, Ill ill, std::size_t s, Random& random) {
  const Grey& p = label.picture;
  switch (ill) {
    case Ill::wrinkles:
      return wrinkled(p, kModule * std::array{0.2, 0.3, 0.42, 0.55}.at(s),
                      std::array{60.0, 90.0, 120.0, 150.0}.at(s), random);
    case Ill::combined:
      return combined(p, s, random);
    case Ill::small:
      return shrunk(p, kModule / std::array{2.6, 1.9, 1.5, 1.2}.at(s), random);
    case Ill::blur:
      return blurred(p, kModule * std::array{0.26, 0.43, 0.55, 0.69}.at(s));
    case Ill::motion:
      return smeared(p, kModule * std::array{0.9, 1.3, 1.7, 2.1}.at(s), random.uniform(0, kPi));
    case Ill::glare:
      return with_glare(label, std::array{0.14, 0.20, 0.27, 0.36}.at(s), random);
    case Ill::jpeg:
      return compressed(p, std::array{40, 20, 10, 5}.at(s));
    case Ill::uneven_light:
      return in_uneven_light(p, std::array{0.5, 0.3, 0.18, 0.1}.at(s), random);
    case Ill::faint:
      return noisy(faint(p, std::array{0.30, 0.16, 0.10, 0.06}.at(s), random.uniform(60, 190)),
                   std::array{2.5, 2.0, 1.5, 1.2}.at(s), random);
    case Ill::noise:
      return noisy(p, std::array{15.0, 28.0, 42.0, 56.0}.at(s), random);
    case Ill::covered:
      return with_cover(label, std::array{0.02, 0.05, 0.09, 0.14}.at(s), random);
    case Ill::tilted:
      return seen_from_side(p, std::array{15.0, 28.0, 38.0, 46.0}.at(s), random.uniform(0, kPi));
    case Ill::turned:
      return rotated(p, random.uniform(0, 360));
  }
  return p;
}

}  // namespace

const char* name_of(Ill ill) {
  constexpr std::array kNames{"wrinkles", "combined", "small", "blur",    "motion", "glare", "jpeg",
                              "uneven",   "faint",    "noise", "covered", "tilted", "turned"};
  static_assert(kNames.size() == kIlls);
  return kNames.at(static_cast<std::size_t>(ill));
}

void each_photo(std::uint64_t seed, int labels, const std::function<void(const Photo&)>& see) {
  Random random(seed);
  for (int number = 0; number < labels; ++number) {
    const Label label = drawn_label(number, random);
    for (int ill = 0; ill < kIlls; ++ill) {
      for (int strength = 0; strength < kStrengths; ++strength) {
        Random own(random.next());
        see({label.text, static_cast<Ill>(ill), strength,
             degraded(label, static_cast<Ill>(ill), static_cast<std::size_t>(strength), own)});
      }
    }
  }
}

SheetPhoto photo_of_sheet(std::uint64_t seed) {
  constexpr int kColumns = 3;
  constexpr int kRows = 8;
  constexpr int kWide = 3000;
  constexpr int kHigh = 4000;
  Random random(seed);
  SheetPhoto photo;
  Grey sheet(kColumns * kWidth, kRows * kHeight, 255);
  for (int i = 0; i < kColumns * kRows; ++i) {
    const Label label = drawn_label(i, random);
    photo.texts.push_back(label.text);
    paste(sheet, label.picture, i % kColumns * kWidth, i / kColumns * kHeight);
  }
  const double scale = 1.12 * sheet.height / kHigh;
  const double a = random.uniform(-4, 4) * kPi / 180;
  const double lean = random.uniform(-3e-5, 3e-5);
  photo.picture = warped(sheet, kWide, kHigh, [&](double x, double y) {
    const double u = (x - kWide / 2.0) * scale;
    const double v = (y - kHigh / 2.0) * scale;
    const double w = 1 + lean * v;
    return Place{sheet.width / 2.0 + (std::cos(a) * u + std::sin(a) * v) / w,
                 sheet.height / 2.0 + (-std::sin(a) * u + std::cos(a) * v) / w};
  });
  photo.picture = noisy(blurred(photo.picture, 1.2), 6, random);
  return photo;
}

void each_picture_without_label(std::uint64_t seed, int count,
                                const std::function<void(const Grey&)>& see) {
  Random random(seed);
  for (int i = 0; i < count; ++i) {
    Grey p(400, 300, 255);
    if (i % 4 == 0) {
      p = noisy(Grey(400, 300, 128), 60, random);
    } else if (i % 4 == 1) {  // finder patterns without a symbol
      for (int n = 0; n < 12; ++n) {
        const int x = random.whole(0, 350);
        const int y = random.whole(0, 250);
        fill(p, {x, y, 35, 35}, 0);
        fill(p, {x + 5, y + 5, 25, 25}, 255);
        fill(p, {x + 10, y + 10, 15, 15}, 0);
      }
    } else if (i % 4 == 2) {  // other people's symbols
      paste(p, drawn("TICKET " + std::to_string(random.next() % 1000000), 5), 60, 40);
    } else {  // a label's symbol with a third of its modules at random
      Random own(random.next());
      const Label label = drawn_label(i, own);
      p = label.picture;
      for (int y = 0; y < static_cast<int>(label.side) / kModule; ++y) {
        for (int x = 8; x < static_cast<int>(label.side) / kModule; ++x) {
          if (own.whole(0, 2) == 0) {
            fill(p,
                 {static_cast<int>(label.x) + x * kModule, static_cast<int>(label.y) + y * kModule,
                  kModule, kModule},
                 own.whole(0, 1) == 0 ? 0 : 255);
          }
        }
      }
    }
    see(p);
  }
}

}  // namespace loopledger::test
