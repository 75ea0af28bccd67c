// SPDX-License-Identifier: MIT
//
// How many photos of one label are read, and how long a sheet of 24 takes, beside one bare reading
// of the same pictures by the library in the same run.
//   bench_scan [first seed] [seeds] [labels a seed]
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdlib>
#include <vector>

#include "support/photo_set.h"
#include "tag/scan.h"
#include "tag/symbols.h"

using namespace loopledger;
using namespace loopledger::tag;

namespace {

double ms_since(std::chrono::steady_clock::time_point start) {
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start)
      .count();
}

struct Tally {
  int photos = 0, bare = 0, ladder = 0, wrong = 0;
  double bare_ms = 0, ladder_ms = 0, longest_ms = 0;
};

void add(Tally& tally, const test::Photo& photo) {
  ++tally.photos;
  auto start = std::chrono::steady_clock::now();
  const std::vector<Symbol> symbols = symbols_in(photo.picture);
  tally.bare_ms += ms_since(start);
  tally.bare += std::any_of(symbols.begin(), symbols.end(),
                            [&](const Symbol& s) { return s.text == photo.text; })
                    ? 1
                    : 0;
  start = std::chrono::steady_clock::now();
  const Scan scan = scan_picture(photo.picture);
  const double ms = ms_since(start);
  tally.ladder_ms += ms;
  tally.longest_ms = std::max(tally.longest_ms, ms);
  bool right = false;
  for (const FoundLabel& label : scan.labels) {
    const bool same = label.text == photo.text;
    right = right || same;
    tally.wrong += same ? 0 : 1;
  }
  tally.wrong += static_cast<int>(scan.foreign.size() + scan.other_layout.size());
  tally.ladder += right ? 1 : 0;
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
  fmt::print("photos of one label, read of {} at each strength: bare / ladder\n", seeds * labels);
  Tally all;
  Tally others;
  for (std::size_t ill = 0; ill < tallies.size(); ++ill) {
    fmt::print("  {:<9}", test::name_of(static_cast<test::Ill>(ill)));
    for (const Tally& t : tallies.at(ill)) {
      fmt::print("  {:>3} /{:>3}", t.bare, t.ladder);
      const auto kind = static_cast<test::Ill>(ill);
      const bool hidden = kind == test::Ill::glare || kind == test::Ill::covered;
      for (Tally* sum : {&all, hidden ? nullptr : &others}) {
        if (sum != nullptr) {
          sum->photos += t.photos;
          sum->bare += t.bare;
          sum->ladder += t.ladder;
          sum->wrong += t.wrong;
          sum->bare_ms += t.bare_ms;
          sum->ladder_ms += t.ladder_ms;
          sum->longest_ms = std::max(sum->longest_ms, t.longest_ms);
        }
      }
    }
    fmt::print("\n");
  }
  fmt::print(
      "all {}: bare {:.1f} %, ladder {:.1f} %; without glare and covers {:.1f} %; wrong {}\n",
      all.photos, percent(all.bare, all.photos), percent(all.ladder, all.photos),
      percent(others.ladder, others.photos), all.wrong);
  fmt::print("a photo: bare {:.1f} ms, ladder {:.1f} ms, longest {:.0f} ms\n",
             all.bare_ms / all.photos, all.ladder_ms / all.photos, all.longest_ms);
}

void sheets(std::uint64_t first) {
  for (std::uint64_t seed = first; seed < first + 3; ++seed) {
    const test::SheetPhoto photo = test::photo_of_sheet(seed);
    std::size_t bare = 0;
    Scan scan;
    double bare_ms = 1e9;
    double ms = 1e9;
    for (int round = 0; round < 3; ++round) {  // the least of three: the machine does other things
      auto start = std::chrono::steady_clock::now();
      bare = symbols_in(photo.picture).size();
      bare_ms = std::min(bare_ms, ms_since(start));
      start = std::chrono::steady_clock::now();
      scan = scan_picture(photo.picture);
      ms = std::min(ms, ms_since(start));
    }
    const auto right = std::count_if(scan.labels.begin(), scan.labels.end(), [&](const auto& l) {
      return std::find(photo.texts.begin(), photo.texts.end(), l.text) != photo.texts.end();
    });
    fmt::print(
        "sheet of {}, {} x {}: {} labels right, {} wrong; {:.0f} ms, {:.1f} times one bare "
        "reading ({} symbols seen, {:.0f} ms)\n",
        photo.texts.size(), photo.picture.width, photo.picture.height, right,
        static_cast<std::ptrdiff_t>(scan.labels.size()) - right, ms, ms / bare_ms, bare, bare_ms);
  }
}

}  // namespace

int main(int argc, char** argv) {
  const auto number = [&](int i, int otherwise) {
    return i < argc ? std::atoi(argv[i]) : otherwise;
  };
  const auto first = static_cast<std::uint64_t>(number(1, 11));
  single_labels(first, number(2, 2), number(3, 6));
  sheets(first);
}
