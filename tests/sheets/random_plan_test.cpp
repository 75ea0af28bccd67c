// SPDX-License-Identifier: MIT
//
// Both sheets of plans drawn at random, with counts and texts up to what a plan may say: nothing
// over anything else, nothing out of its page or box, pages numbered, heads repeated.
#include <doctest/doctest.h>

#include <fmt/format.h>

#include <array>
#include <random>

#include "base/text.h"
#include "calc/work_out.h"
#include "sheets/break_in_sheet.h"
#include "sheets/cut_sheet.h"
#include "support/invented_batch.h"
#include "support/page_check.h"
#include "support/plain_metrics.h"
#include "support/plan_text.h"
#include "support/sanitized.h"

namespace {

using namespace loopledger;

constexpr std::array kWords{
    "Zażółć gęślą jaźń, latarnia morska i przystań ",
    "Příliš žluťoučký kůň úpěl ďábelské ódy v přístavu ",
    "Ξεσκεπάζω την ψυχοφθόρα βδελυγμία του φάρου ",
    "Съешь же ещё этих мягких французских булок у маяка ",
};

/// Draws plans; the same seed gives the same plans.
class PlanDraw {
 public:
  explicit PlanDraw(unsigned seed) : random_(seed) {}

  // By remainders: a distribution's numbers differ from one standard library to the next.
  int number(int from, int to) {
    return from + static_cast<int>(random_() % static_cast<unsigned>(to - from + 1));
  }
  bool chance(int percent) { return number(1, 100) <= percent; }

  /// One in three as long as it may be.
  std::string text(std::size_t most) {
    const auto length = chance(33) ? most : static_cast<std::size_t>(number(3, 14));
    std::vector<char32_t> points;
    while (points.size() < length) {
      for (const char32_t c : code_points(kWords[static_cast<std::size_t>(number(0, 3))])) {
        points.push_back(c);
      }
    }
    points.resize(length);
    points.back() = U'W';  // trimmed names would be equal
    return to_utf8(points);
  }

  std::string plan() {
    static constexpr std::array kCounts{1, 2, 3, 7, 24, 60, 200};
    int left = kCounts[static_cast<std::size_t>(number(0, 6))];
    std::string made = fmt::format(
        "format = 1\ntitle = \"{}\"\ndate = 2026-03-01\npaper = \"{}\"\nunits = \"{}\"\n[bench]\n"
        "scale_step = \"{} mg\"\nwinder_ratio = {}\n",
        text(200), paper, chance(50) ? "inch" : "metric", chance(30) ? "0.1" : "1",
        chance(50) ? 1 : 15);
    made += things();
    const bool one_each = chance(30);
    for (int group = 0; left > 0; ++group) {
      const int count = one_each ? 1 : std::min(left, number(1, 200));
      made += motors(group, count);
      left -= count;
    }
    return made;
  }

  std::string paper = "a4";

 private:
  std::string things() {
    const int strips = number(1, 3);
    std::string made;
    for (int s = 0; s < strips; ++s) {
      strips_.push_back(text(56) + std::to_string(s));
      made += fmt::format(
          "[strips.\"{}\"]\nlot = \"{}\"\nwidth = \"2.4 mm\"\n"
          "samples = [[\"500 mm\", \"1.228 g\"], [\"750 mm\", \"1.84 g\"]]\n",
          strips_.back(), text(60));
      if (chance(50)) {
        made += "pieces = [";
        for (int p = 0; p < 12; ++p) {
          const int mm = number(700, 9000);
          made += fmt::format("{{ tag = \"{}{}\", length = \"{} mm\"", chance(20) ? text(50) : "p",
                              p, mm);
          made += chance(50) ? fmt::format(", mass = \"{:.3f} g\" }}, ", mm * 0.00245) : " }, ";
        }
        made += "]\n";
      }
    }
    name_ = text(60);
    made += fmt::format(
        "[rules.\"{0}\"]\nlimit = \"1.5 g\"\ncounts = [\"rubber\"{1}]\nsource = \"{2}\"\n"
        "[rings.\"{0}\"]\nweighed = 10\nmass = \"60 mg\"\n[lubricants.\"{0}\"]\n"
        "uptake = \"1.2 % ± 0.4 %\"\n[adhesives.\"{0}\"]\nmass = \"1 mg ± 0.5 mg\"\n",
        name_, chance(50) ? ", \"rings\"" : "", text(1000));
    made += fmt::format("[recipes.\"{}\"]\nsource = \"{}\"\nsteps = [", name_, text(1000));
    for (int step = number(1, chance(10) ? 50 : 4); step > 0; --step) {
      made +=
          fmt::format("{{ {}{}{}note = \"{}\", hold = \"23.5 h\", repeat = {} }}, ",
                      chance(50) ? "stretch = 5.0, " : "", chance(50) ? "turns = \"50 %\", " : "",
                      chance(50) ? "torque = \"75 %\", " : "", text(80), number(1, 12));
    }
    return made + "]\n";
  }

  std::string motors(int group, int count) {
    std::string made = fmt::format(
        "[[motors]]\nid = \"{}\"\ncount = {}\nfirst = {}\nstrip = \"{}\"\nfor = \"{}\"\n{}",
        chance(20) ? fmt::format("WWWWW{:03}", group) : fmt::format("M{}", group), count,
        chance(20) ? 9700 : 1,
        strips_[static_cast<std::size_t>(number(0, static_cast<int>(strips_.size()) - 1))],
        text(200),
        chance(50) ? fmt::format("rule = \"{}\"\nmass = \"limit\"\n", name_)
                   : "loop = \"280 mm\"\n");
    if (chance(70)) {
      made += fmt::format("owner = \"{}\"\n", text(60));
    }
    for (const char* key : {"rings", "lubricant", "adhesive", "recipe"}) {
      if (chance(60)) {
        made += fmt::format("{} = \"{}\"\n", key, name_);
      }
    }
    return made + (chance(20) ? "tails = \"30 mm\"\n" : "");
  }

  std::mt19937 random_;
  std::vector<std::string> strips_;
  std::string name_;
};

/// What is wrong with how a sheet is laid out, whatever it says.
std::string laid_out_badly(const page::Document& document) {
  std::string found = test::out_of_margin(document, test::kPlainMetrics, 5) +
                      test::overlapping_texts(document, test::kPlainMetrics) +
                      test::texts_out_of_boxes(document, test::kPlainMetrics);
  for (std::size_t i = 0; i < document.pages.size(); ++i) {
    page::Document one;
    one.pages.push_back(document.pages[i]);
    const std::string text = "\n" + test::all_text(one);
    const auto has = [&](const std::string& what) { return text.find(what) != std::string::npos; };
    if (!has(fmt::format("\npage {} of {}\n", i + 1, document.pages.size()))) {
      found += fmt::format("page {} has no number\n", i + 1);
    }
    if (has("\n23\u00a0h") && !has("\nstop there or at\n")) {
      found += fmt::format("page {} has steps without their head\n", i + 1);
    }
    if (has("\nat least\n") && !has("\nwashed and dry, g\n")) {
      found += fmt::format("page {} has motors without their columns' names\n", i + 1);
    }
  }
  return found;
}

TEST_CASE("sheets of plans drawn at random are whole, apart, numbered and headed") {
  constexpr unsigned kPlans = test::kSanitized ? 12 : 40;
  unsigned drawn = 0;
  for (unsigned seed = 1; seed <= kPlans; ++seed) {
    CAPTURE(seed);
    PlanDraw draw(seed);
    draw.paper = seed % 2 == 0 ? "a4" : "letter";
    const auto plan = test::read(draw.plan());
    REQUIRE_MESSAGE(plan.ok(), render(plan.diagnostics()));
    const auto batch = calc::work_out(*plan, {.short_of_strip = true});
    REQUIRE_MESSAGE(batch.ok(), render(batch.diagnostics()));
    const plan::Stock paper = test::stock(draw.paper);
    const auto cut = sheets::cut_sheet(*plan, *batch, paper, test::kPlainMetrics, std::nullopt);
    REQUIRE(cut.ok());
    CHECK(laid_out_badly(*cut) == "");
    const auto break_in =
        sheets::break_in_sheet(*plan, *batch, paper, test::kPlainMetrics, std::nullopt);
    REQUIRE(break_in.ok());
    CHECK(laid_out_badly(*break_in) == "");
    ++drawn;
  }
  CHECK(drawn == kPlans);
}

}  // namespace
