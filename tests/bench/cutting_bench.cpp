// SPDX-License-Identifier: MIT
//
// How quickly the cutting plan is proven: a seeded family of nights by spare strip, and, where a
// folder is given, public sets of one-dimensional packing instances (OR-Library format: u120.txt,
// u250.txt, t60.txt, t120.txt), each as "can all be cut from so many equal pieces", from the bound
// by sums upwards. Beside them glpsol's and cbc's time on the first two of each set, with a limit.
// Times are the process's own processor time.
//   bench_cutting [nights a ratio] [folder of packing sets]
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <map>
#include <random>
#include <string>
#include <vector>

#include "cutting/cut_aims.h"
#include "cutting/cutting_plan.h"

using namespace loopledger;

namespace {

double seconds() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

// ---- nights
// ---------------------------------------------------------------------------------------

/// Up to 60 motors of up to 15 lengths from 150 to 1300 mm and up to 12 pieces of 0.3 to 5 m, all
/// drawn alike, so the pieces mostly fall short. In steps of `grain` millimetres.
cutting::CuttingTask plain_night(std::mt19937& random, double grain, bool full) {
  const auto drawn = [&](int from, int to) {
    const auto steps = static_cast<std::uint32_t>(std::lround((to - from) / grain));
    return Length::mm(from + grain * static_cast<double>(random() % (steps + 1)));
  };
  std::vector<Length> lengths(full ? 15 : 1 + random() % 15);
  std::ranges::generate(lengths, [&] { return drawn(150, 1300); });
  cutting::CuttingTask task;
  const std::size_t pieces = full ? 12 : 1 + random() % 12;
  const std::size_t motors = full ? 60 : 1 + random() % 60;
  for (std::size_t p = 0; p < pieces; ++p) {
    task.pieces.push_back({drawn(300, 5000), Length::mm(random() % 2 == 0 ? 0 : 5)});
  }
  task.keep = Length::mm(1300);
  for (std::size_t m = 0; m < motors; ++m) {
    const Length length = lengths[random() % lengths.size()];
    task.cut.emplace_back(pieces, length);
    task.keep = std::min(task.keep, length);
  }
  return task;
}

/// 60 motors of 5 to 15 lengths from 150 to 1300 mm, and 12 pieces of 0.3 to 5 m that together are
/// `ratio` of the motors' length (as near as the pieces' range allows). Whole millimetres.
cutting::CuttingTask night(std::mt19937& random, double ratio, std::size_t motors,
                           std::size_t pieces) {
  std::vector<int> lengths(5 + random() % 11);
  for (int& length : lengths) {
    length = 150 + static_cast<int>(random() % 1151);
  }
  std::vector<int> wanted(motors);
  double demand = 0;
  for (int& length : wanted) {
    length = lengths[random() % lengths.size()];
    demand += length;
  }
  std::vector<double> shares(pieces);
  double sum = 0;
  for (double& share : shares) {
    share = 300 + static_cast<double>(random() % 4701);
    sum += share;
  }
  for (int pass = 0; pass < 50; ++pass) {
    double now = 0;
    for (double& share : shares) {
      share = std::clamp(std::round(share * demand * ratio / sum), 300.0, 5000.0);
      now += share;
    }
    sum = now;
  }
  cutting::CuttingTask task;
  for (const double share : shares) {
    task.pieces.push_back({Length::mm(share), Length::mm(random() % 2 == 0 ? 0 : 5)});
  }
  for (const int length : wanted) {
    task.cut.emplace_back(pieces, Length::mm(length));
  }
  task.keep = Length::mm(random() % 3 == 0 ? 250 : *std::ranges::min_element(wanted));
  return task;
}

struct Tally {
  std::vector<double> times;
  int proven = 0;
  int proven_quickly = 0;
};

void report(const std::string& what, Tally& tally) {
  std::ranges::sort(tally.times);
  const auto at = [&](double share) {
    const auto last = static_cast<double>(tally.times.size() - 1);
    return tally.times[static_cast<std::size_t>(std::ceil(share * last))];
  };
  fmt::print(
      "{}: {} of {} proven, {} of them within 0.1 s; half {:.3f} s, 95 % {:.3f} s, longest {:.3f} "
      "s\n",
      what, tally.proven, tally.times.size(), tally.proven_quickly, at(0.5), at(0.95), at(1));
}

void plain_nights(int count, double grain, bool full) {
  std::mt19937 random(11);
  Tally tally;
  std::array<int, cutting::kCuttingAims + 1> aims{};
  for (int i = 0; i < count; ++i) {
    const auto task = plain_night(random, grain, full);
    const double start = seconds();
    const auto plan = cutting::make_cutting_plan(task);
    const double took = seconds() - start;
    tally.times.push_back(took);
    tally.proven += plan.proven ? 1 : 0;
    tally.proven_quickly += plan.proven && took < 0.1 ? 1 : 0;
    ++aims[plan.aims_proven];
  }
  report(fmt::format("{} nights in steps of {} mm", full ? "full" : "any", grain), tally);
  fmt::print("  aims proven 0 to 4: {}\n", fmt::join(aims, ", "));
}

void nights(int each, std::size_t motors, std::size_t pieces, const std::vector<double>& ratios) {
  Tally all;
  for (const double ratio : ratios) {
    std::mt19937 random(7);
    Tally tally;
    for (int i = 0; i < each; ++i) {
      const auto task = night(random, ratio, motors, pieces);
      const double start = seconds();
      const auto plan = cutting::make_cutting_plan(task);
      const double took = seconds() - start;
      for (Tally* t : {&tally, &all}) {
        t->times.push_back(took);
        t->proven += plan.proven ? 1 : 0;
        t->proven_quickly += plan.proven && took < 0.1 ? 1 : 0;
      }
    }
    report(fmt::format("{} motors, {} pieces, {:.3f} of the demand", motors, pieces, ratio), tally);
  }
  report(fmt::format("{} motors, {} pieces, all", motors, pieces), all);
}

// ---- packing sets
// ---------------------------------------------------------------------------------

struct Packing {
  std::string name;
  cutting::Grid room = 0;
  int best = 0;
  std::map<cutting::Grid, int, std::greater<>> items;
};

std::vector<Packing> read_set(const std::filesystem::path& file) {
  std::ifstream in(file);
  std::size_t count = 0;
  in >> count;
  std::vector<Packing> set(count);
  for (Packing& packing : set) {
    double room = 0;
    int items = 0;
    in >> packing.name >> room >> items >> packing.best;
    packing.room = std::llround(room * 10);
    for (int i = 0; i < items; ++i) {
      double item = 0;
      in >> item;
      ++packing.items[std::llround(item * 10)];
    }
  }
  return set;
}

/// The bins found, and whether fewer are ruled out.
std::pair<int, bool> fewest_bins(const Packing& packing) {
  cutting::Grid sum = 0;
  for (const auto& [length, count] : packing.items) {
    sum += length * count;
  }
  bool proven = true;
  for (auto bins = static_cast<int>((sum + packing.room - 1) / packing.room);; ++bins) {
    cutting::Problem problem;
    problem.whole.assign(static_cast<std::size_t>(bins), packing.room);
    problem.room = problem.whole;
    for (const auto& [length, count] : packing.items) {
      problem.need.emplace_back(problem.pieces(), length);
      problem.count.push_back(count);
    }
    cutting::Effort effort{cutting::kCuttingEffort};
    const auto answer = cutting::pack(problem, cutting::limits_of(problem), effort);
    if (answer.verdict == cutting::Verdict::found) {
      return {bins, proven};
    }
    proven = proven && answer.verdict == cutting::Verdict::none;
  }
}

/// The same as an integer program over kinds and bins, as a file.
std::filesystem::path integer_program(const Packing& packing) {
  auto file = std::filesystem::temp_directory_path() / "loopledger-bench-packing.lp";
  std::string uses;
  std::string demands;
  std::string rooms;
  std::string whole;
  std::string binary;
  int k = 0;
  std::vector<std::string> fills(static_cast<std::size_t>(packing.best) + 1);
  for (const auto& [length, count] : packing.items) {
    std::string sum;
    for (std::size_t b = 0; b < fills.size(); ++b) {
      sum += fmt::format(" + x{}_{}", k, b);
      fills[b] += fmt::format(" + {} x{}_{}", length, k, b);
      whole += fmt::format(" x{}_{}\n", k, b);
    }
    demands += fmt::format("{} = {}\n", sum, count);
    ++k;
  }
  for (std::size_t b = 0; b < fills.size(); ++b) {
    uses += fmt::format(" + y{}", b);
    rooms += fmt::format("{} - {} y{} <= 0\n", fills[b], packing.room, b);
    binary += fmt::format(" y{}\n", b);
  }
  std::ofstream(file) << "Minimize\n obj: " << uses << "\nSubject To\n"
                      << demands << rooms << "Generals\n"
                      << whole << "Binaries\n"
                      << binary << "End\n";
  return file;
}

/// Wall time of a solver's command; below 0 when it can't be run. At its limit it has not finished.
double solver_seconds(const std::string& command) {
  const auto start = std::chrono::steady_clock::now();
  if (std::system((command + " >/dev/null 2>&1").c_str()) != 0) {
    return -1;
  }
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

void packing_sets(const std::filesystem::path& folder) {
  for (const char* const name : {"u120", "u250", "t60", "t120"}) {
    Tally tally;
    int found = 0;
    const std::vector<Packing> set = read_set(folder / (std::string(name) + ".txt"));
    for (const Packing& packing : set) {
      const double start = seconds();
      const auto [bins, proven] = fewest_bins(packing);
      const double took = seconds() - start;
      tally.times.push_back(took);
      found += bins <= packing.best ? 1 : 0;
      tally.proven += proven ? 1 : 0;
      tally.proven_quickly += proven && took < 0.1 ? 1 : 0;
    }
    report(fmt::format("{}: best known found {} of {}", name, found, set.size()), tally);
    for (std::size_t i = 0; i < std::min<std::size_t>(2, set.size()); ++i) {
      constexpr int kLimit = 20;
      const std::string file = integer_program(set[i]).string();
      const double start = seconds();
      static_cast<void>(fewest_bins(set[i]));
      const double here = seconds() - start;
      fmt::print("  {}: here {:.3f} s, glpsol {:.1f} s, cbc {:.1f} s, each of at most {} s\n",
                 set[i].name, here,
                 solver_seconds(fmt::format("glpsol --lp {} --cuts --tmlim {}", file, kLimit)),
                 solver_seconds(fmt::format("cbc {} -sec {} -solve -quit", file, kLimit)), kLimit);
      std::filesystem::remove(file);
    }
  }
}

}  // namespace

int main(int count, char** words) {
  const int each = count > 1 ? std::atoi(words[1]) : 50;
  for (const bool full : {true, false}) {
    for (const double grain : {1.0, 0.1, 0.000'01}) {
      plain_nights(5 * each, grain, full);
    }
  }
  nights(each, 60, 12,
         {0.7, 0.8, 0.9, 0.95, 0.98, 1.0, 1.005, 1.01, 1.02, 1.05, 1.1, 1.2, 1.3, 1.5, 2.0, 3.0});
  nights(std::max(1, each / 10), 200, 40, {0.95, 1.02, 1.2});
  if (count > 2) {
    packing_sets(words[2]);
  }
  return 0;
}
