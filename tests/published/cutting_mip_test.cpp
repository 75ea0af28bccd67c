// SPDX-License-Identifier: MIT
//
// The cutting plan against an independent solver: the same night as a sequence of integer programs
// for glpsol (GNU Linear Programming Kit, Debian package glpk-utils), one an aim, each with the
// aims before it fixed at what was found.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <optional>
#include <random>
#include <sstream>
#include <string>

#include "support/every_cut.h"

using namespace loopledger;
using test::SmallNight;

namespace {

bool has_glpsol() {
  return std::system("command -v glpsol >/dev/null 2>&1") == 0;  // NOLINT(concurrency-mt-unsafe)
}

/// Motors of one length as one line of the program, or each motor as a line of its own.
struct Item {
  std::size_t motor;
  int count;
};

/// The night as constraints. x: motors from a piece; y: it is touched; k: its remnant is kept;
/// s: its scrap; b: it is the piece that leaves the longest, of length `longest`.
class Program {
 public:
  Program(const SmallNight& night, std::vector<Item> items, bool all)
      : night_(night), items_(std::move(items)) {
    for (std::size_t i = 0; i < items_.size(); ++i) {
      std::string sum;
      for (std::size_t p = 0; p < night_.pieces.size(); ++p) {
        sum += fmt::format(" + x{}_{}", i, p);
      }
      add(fmt::format("{} {} {}", sum, all ? "=" : "<=", items_[i].count));
    }
    for (std::size_t p = 0; p < night_.pieces.size(); ++p) {
      add_piece(p);
    }
  }
  void add(const std::string& constraint) { constraints_ += constraint + "\n"; }

  [[nodiscard]] std::string each_piece(const std::string& name) const {
    std::string sum;
    for (std::size_t p = 0; p < night_.pieces.size(); ++p) {
      sum += fmt::format(" + {}{}", name, p);
    }
    return sum;
  }
  [[nodiscard]] std::string cut(const std::function<int(std::size_t)>& weight) const {
    std::string sum;
    for (std::size_t i = 0; i < items_.size(); ++i) {
      for (std::size_t p = 0; p < night_.pieces.size(); ++p) {
        sum += fmt::format(" + {} x{}_{}", weight(i), i, p);
      }
    }
    return sum;
  }

  /// The best value; empty when glpsol does not call it optimal.
  [[nodiscard]] std::optional<int> solve(const std::string& sense,
                                         const std::string& objective) const {
    std::string name = (std::filesystem::temp_directory_path() / "loopledger-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    const std::filesystem::path folder = name;
    std::string bounds;
    std::string whole;
    std::string binary;
    for (std::size_t p = 0; p < night_.pieces.size(); ++p) {
      binary += fmt::format(" y{0} k{0} b{0}\n", p);
      for (std::size_t i = 0; i < items_.size(); ++i) {
        bounds += fmt::format(" 0 <= x{}_{} <= {}\n", i, p, items_[i].count);
        whole += fmt::format(" x{}_{}\n", i, p);
      }
    }
    std::ofstream(folder / "night.lp") << sense << "\n obj: " << objective << "\nSubject To\n"
                                       << constraints_ << "Bounds\n"
                                       << bounds << "Generals\n"
                                       << whole << "Binaries\n"
                                       << binary << "End\n";
    const std::string command =
        fmt::format("cd '{}' && glpsol --lp night.lp --cuts --tmlim 30 -o out.txt >/dev/null 2>&1",
                    folder.string());
    const bool ran = std::system(command.c_str()) == 0;  // NOLINT(concurrency-mt-unsafe)
    std::ostringstream out;
    out << std::ifstream(folder / "out.txt").rdbuf();
    std::filesystem::remove_all(folder);
    const std::string text = out.str();
    const auto at = text.find("obj = ");
    if (!ran || text.find("INTEGER OPTIMAL") == std::string::npos || at == std::string::npos) {
      return std::nullopt;
    }
    return static_cast<int>(std::lround(std::strtod(text.c_str() + at + 6, nullptr)));
  }

 private:
  void add_piece(std::size_t p) {
    const int room = night_.pieces[p] - night_.ends;
    std::string used;
    for (std::size_t i = 0; i < items_.size(); ++i) {
      used += fmt::format(" - {} x{}_{}", night_.cut[items_[i].motor][p], i, p);
    }
    add(fmt::format(" {} y{}{} >= 0", room, p, used));
    add(fmt::format(" {0} y{1}{2} - {3} k{1} >= 0", room, p, used, night_.keep));
    add(fmt::format(" {0} y{1}{2} - {0} k{1} - s{1} <= 0", room, p, used));
    add(fmt::format(" y{0} - k{0} >= 0", p));
    // longest <= what is left, where b is 1.
    add(fmt::format(" longest + {0} y{1}{2} + {3} b{1} <= {4}", night_.ends, p, negated(used),
                    kMost, night_.pieces[p] + kMost));
  }
  static std::string negated(std::string used) {
    for (char& c : used) {
      c = c == '-' ? '+' : c;
    }
    return used;
  }

  static constexpr int kMost = 20000;
  const SmallNight& night_;
  std::vector<Item> items_;
  std::string constraints_;
};

SmallNight middle_night(std::mt19937& random, bool own_density, double spare) {
  SmallNight night;
  const std::size_t pieces = 4 + random() % 2;
  std::vector<int> lengths;
  for (int k = 0; k < 5; ++k) {
    lengths.push_back(150 + static_cast<int>(random() % 600));
  }
  int sum = 0;
  for (std::size_t m = 0; m < 12; ++m) {
    const int length = lengths[random() % lengths.size()];
    sum += length;
    night.cut.emplace_back(pieces, length);
  }
  for (std::size_t p = 0; p < pieces; ++p) {
    const double share =
        (0.6 + static_cast<double>(random() % 80) / 100) / static_cast<double>(pieces);
    night.pieces.push_back(static_cast<int>(sum * spare * share));
  }
  if (own_density) {
    for (auto& row : night.cut) {
      row[1] = row[1] * 104 / 100;
    }
  }
  night.keep = 150;
  night.ends = 5;
  return night;
}

void check_against_glpsol(const SmallNight& night) {
  std::vector<Item> motors;
  for (std::size_t m = 0; m < night.cut.size(); ++m) {
    motors.push_back({m, 1});
  }
  const auto weight = [&](std::size_t m) { return 1 << (night.cut.size() - 1 - m); };
  Program which(night, motors, false);
  const auto most = which.solve("Maximize", which.cut([](std::size_t) { return 1; }));
  REQUIRE(most.has_value());
  which.add(which.cut([](std::size_t) { return 1; }) + fmt::format(" = {}", *most));
  const auto set = which.solve("Maximize", which.cut(weight));
  REQUIRE(set.has_value());
  std::vector<bool> is_cut;
  std::vector<Item> kinds;
  for (std::size_t m = 0; m < night.cut.size(); ++m) {
    is_cut.push_back((*set & weight(m)) != 0);
    if (!is_cut.back()) {
      continue;
    }
    const auto same = std::ranges::find_if(
        kinds, [&](const Item& item) { return night.cut[item.motor] == night.cut[m]; });
    if (same == kinds.end()) {
      kinds.push_back({m, 1});
    } else {
      ++same->count;
    }
  }
  Program how(night, kinds, true);
  how.add(how.each_piece("b") + " = 1");
  const auto scrap = how.solve("Minimize", how.each_piece("s"));
  REQUIRE(scrap.has_value());
  how.add(how.each_piece("s") + fmt::format(" <= {}", *scrap));
  const auto touched = how.solve("Minimize", how.each_piece("y"));
  REQUIRE(touched.has_value());
  how.add(how.each_piece("y") + fmt::format(" <= {}", *touched));
  const auto longest = how.solve("Maximize", "longest");
  REQUIRE(longest.has_value());

  const auto plan = cutting::make_cutting_plan(test::task_of(night));
  CHECK(plan.proven);
  const auto aims = test::aims_of(night, plan);
  REQUIRE(aims.has_value());
  CHECK(*aims == test::CutAims{*most, is_cut, -*scrap, -*touched, *longest});
}

}  // namespace

TEST_CASE("cutting: the same as glpsol finds, aim by aim") {
  if (!has_glpsol()) {
    FAIL("glpsol is missing: sh tests/install_missing.sh test");
  }
  std::mt19937 random(20260207);
  for (const double spare : {0.9, 0.97, 1.02, 1.05, 1.1, 1.2, 1.5}) {
    check_against_glpsol(middle_night(random, false, spare));
    check_against_glpsol(middle_night(random, true, spare));
  }
}
