// SPDX-License-Identifier: MIT
//
// How many photos of one label are read, and how long a sheet of 24 takes, beside one plain call
// of each library on the same pictures in the same run: ZXing-cpp, which the ladder is built on,
// and zbar, which shares nothing with it (where libzbar-dev is installed). Times are the process's
// own processor time.
//   bench_scan [first seed] [seeds] [labels a seed]
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <ctime>
#include <set>
#include <vector>

#include "bench/plain_readers.h"
#include "photo/scan.h"
#include "support/photo_set.h"

using namespace loopledger;
using namespace loopledger::photo;
using namespace loopledger::tag;

namespace {

double cpu_ms() { return 1e3 * static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

std::vector<std::string> texts_by_ladder(const Grey& picture) {
  Scan scan = scan_picture(picture);
  std::vector<std::string> texts = scan.foreign;
  texts.insert(texts.end(), scan.other_layout.begin(), scan.other_layout.end());
  for (FoundLabel& label : scan.labels) {
    texts.push_back(std::move(label.text));
  }
  return texts;
}

struct Reader {
  const char* name;
  std::vector<std::string> (*texts)(const Grey&);
};

constexpr std::size_t kPlain = 0;
constexpr std::size_t kLadder = 2;
constexpr std::array<Reader, 3> kReaders{Reader{"ZXing-cpp", bench::texts_by_zxing},
                                         Reader{"zbar", bench::texts_by_zbar},
                                         Reader{"ladder", texts_by_ladder}};

struct Tally {
  struct Of {
    int read = 0, wrong = 0;
    double ms = 0, longest_ms = 0;
  };
  int photos = 0;
  std::array<Of, kReaders.size()> of{};

  void add(const Tally& other) {
    photos += other.photos;
    for (std::size_t r = 0; r < of.size(); ++r) {
      of[r].read += other.of[r].read;
      of[r].wrong += other.of[r].wrong;
      of[r].ms += other.of[r].ms;
      of[r].longest_ms = std::max(of[r].longest_ms, other.of[r].longest_ms);
    }
  }
};

void add(Tally& tally, const test::Photo& photo) {
  ++tally.photos;
  for (std::size_t r = 0; r < kReaders.size(); ++r) {
    const double start = cpu_ms();
    const std::vector<std::string> texts = kReaders[r].texts(photo.picture);
    const double ms = cpu_ms() - start;
    Tally::Of& of = tally.of[r];
    of.ms += ms;
    of.longest_ms = std::max(of.longest_ms, ms);
    const auto right = std::ranges::count(texts, photo.text);
    of.read += right > 0 ? 1 : 0;
    of.wrong += static_cast<int>(std::ssize(texts) - right);
  }
}

double percent(int part, int of) { return 100.0 * part / std::max(of, 1); }

void single_labels(std::uint64_t first, int seeds, int labels) {
  std::array<std::array<Tally, test::kStrengths>, test::kIlls> tallies{};
  for (int i = 0; i < seeds; ++i) {
    test::each_photo(first + static_cast<std::uint64_t>(i), labels, [&](const test::Photo& photo) {
      add(tallies.at(static_cast<std::size_t>(photo.ill))
              .at(static_cast<std::size_t>(photo.strength)),
          photo);
    });
  }
  fmt::print("photos of one label, read of {} at each strength: ZXing-cpp / zbar / ladder\n",
             seeds * labels);
  Tally all;
  Tally others;
  for (std::size_t ill = 0; ill < tallies.size(); ++ill) {
    const auto kind = static_cast<test::Ill>(ill);
    fmt::print("  {:<12}", test::name_of(kind));
    for (const Tally& t : tallies.at(ill)) {
      fmt::print("  {:>3} /{:>3} /{:>3}", t.of[0].read, t.of[1].read, t.of[2].read);
      all.add(t);
      if (kind != test::Ill::glare && kind != test::Ill::covered) {
        others.add(t);
      }
    }
    fmt::print("\n");
  }
  for (std::size_t r = 0; r < kReaders.size(); ++r) {
    const Tally::Of& of = all.of[r];
    fmt::print(
        "{:<9} {:.1f} % of {}, {:.1f} % without glare and covers; wrong {}; {:.1f} ms a photo, "
        "longest {:.0f} ms\n",
        kReaders[r].name, percent(of.read, all.photos), all.photos,
        percent(others.of[r].read, others.photos), of.wrong, of.ms / all.photos, of.longest_ms);
  }
}

void sheets(std::uint64_t first) {
  for (std::uint64_t seed = first; seed < first + 3; ++seed) {
    const test::SheetPhoto photo = test::photo_of_sheet(seed);
    std::array<double, kReaders.size()> ms{};
    std::array<std::vector<std::string>, kReaders.size()> texts;
    constexpr int kRounds = 3;  // the least of them: the machine does other things
    for (int round = 0; round < kRounds; ++round) {
      for (std::size_t r = 0; r < kReaders.size(); ++r) {
        const double start = cpu_ms();
        texts[r] = kReaders[r].texts(photo.picture);
        const double now = cpu_ms() - start;
        ms[r] = round == 0 ? now : std::min(ms[r], now);
      }
    }
    fmt::print("sheet of {}, {} x {}:", photo.texts.size(), photo.picture.width,
               photo.picture.height);
    for (std::size_t r = 0; r < kReaders.size(); ++r) {
      const std::set<std::string> different(texts[r].begin(), texts[r].end());
      const auto right = std::ranges::count_if(
          different, [&](const auto& t) { return std::ranges::count(photo.texts, t) > 0; });
      fmt::print(" {} {} right, {} wrong, {:.0f} ms;", kReaders[r].name, right,
                 std::ssize(different) - right, ms[r]);
    }
    fmt::print(" ladder {:.1f} times ZXing-cpp\n", ms[kLadder] / ms[kPlain]);
  }
}

}  // namespace

int main(int argc, char** argv) {
  const auto number = [&](int i, int otherwise) {
    return i < argc ? std::atoi(argv[i]) : otherwise;
  };
  if (!bench::has_zbar()) {
    fmt::print("zbar: not measured, libzbar-dev was not there\n");
  }
  const auto first = static_cast<std::uint64_t>(number(1, 11));
  single_labels(first, number(2, 2), number(3, 6));
  sheets(first);
}
