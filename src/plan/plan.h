// SPDX-License-Identifier: MIT
//
// The batch plan as data: what the TOML said, with units, references resolved to indices, defaults
// filled in, and every value's place in its file. Start here to see what a builder can ask for.
// Nothing is computed here; plan/read.h makes it, calc/ works it out.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/date.h"
#include "base/diagnostic.h"
#include "base/motor_id.h"
#include "base/quantity.h"
#include "base/quantity_text.h"
#include "base/terms.h"

namespace loopledger::plan {

/// A value, where it stands, and whether the plan gave it (false: a default, or nothing).
template <class T>
struct Placed {
  T value{};
  Place place;
  bool given = false;
};

struct Bench {
  Placed<Mass> scale_step;                                         ///< readability, > 0
  Placed<Mass> scale_error;                                        ///< largest permissible error
  Placed<Length> ruler_step{.value = Length::mm(1), .place = {}};  ///< > 0
  Placed<Share> confidence{.value = Share::percent(95), .place = {}};  ///< 50 % to 99.99 %
  Placed<double> winder_ratio{.value = 1, .place = {}};  ///< motor turns per turn of the crank
};

struct Rule {
  std::string name;
  Place place;
  Placed<Mass> limit;
  Placed<Counts> counts;
  Placed<Weighed> weighed;
  Placed<Mass> official_error;  ///< of the event's scale; 0 when not given
  std::string source;           ///< of a template: where the figures were read
  std::string check;            ///< of a template: what to check before relying on it
};

struct Sample {
  Length length;
  Mass mass;
  Place place;
};

/// One length of strip on the shelf. At least one of length and mass is there.
struct Piece {
  std::string tag;
  std::optional<Length> length;
  std::optional<Mass> mass;  ///< as it lies on the shelf, talc on
  Place place;
};

struct Strip {
  std::string name;
  Place place;
  std::string lot;
  Placed<Length> width;                                                     ///< given or not
  Placed<Length> thickness;                                                 ///< given or not
  Placed<Density> density{.value = Density::g_per_cm3(0.93), .place = {}};  // [density]
  std::vector<Sample> samples;
  Placed<bool> samples_washed{.value = true, .place = {}};
  Placed<Uncertain<Share>> talc;
  std::vector<Piece> pieces;
  Placed<Length> keep;  ///< not given: the strip's shortest motor in the plan
  Placed<Length> ends;
  Placed<Uncertain<double>> turns_factor;     ///< not given: the default of figure 4
  Placed<Uncertain<Pressure>> torque_factor;  ///< not given: the default of figure 5
};

struct Rings {
  std::string name;
  Place place;
  Placed<int> weighed{.value = 1, .place = {}};  ///< how many were on the scale together
  Placed<Mass> mass;                             ///< of all of them together
  Placed<Mass> spread;                           ///< standard deviation from ring to ring
  Placed<int> each{.value = 2, .place = {}};     ///< per motor
};

struct Lubricant {
  std::string name;
  Place place;
  Placed<Uncertain<Share>> uptake;  ///< of the rubber's mass, as just rubbed in
  Placed<Uncertain<Share>> left;    ///< of the rubber's mass, later; default: uptake
};

struct Adhesive {
  std::string name;
  Place place;
  Placed<Uncertain<Mass>> mass;
};

/// One step of a break-in recipe: a stretch, or a winding.
struct RecipeStep {
  std::optional<double> stretch;  ///< times the loop length as tied, 1 to 8
  std::optional<Share> turns;     ///< of the largest turns
  std::optional<Share> torque;    ///< of the largest torque: a place to stop
  std::string note;               ///< what numbers can't say: "until it feels solid"
  std::optional<Duration> hold;
  std::optional<Duration> rest;
  int repeat = 1;
  Place place;
};

struct Recipe {
  std::string name;
  Place place;
  std::vector<RecipeStep> steps;
  std::string source;  ///< of a template
};

/// One [[motors]] table: `count` motors that are alike.
struct MotorGroup {
  Place place;
  Placed<std::string> stem;
  Placed<int> count{.value = 1, .place = {}};
  Placed<int> first{.value = 1, .place = {}};
  std::string purpose;  ///< `for`
  std::string owner;
  std::optional<std::size_t> rule;  ///< index into Plan::rules, and so on
  std::size_t strip = 0;
  std::optional<std::size_t> rings;
  std::optional<std::size_t> lubricant;
  std::optional<std::size_t> adhesive;
  std::optional<std::size_t> recipe;
  Placed<int> strands{.value = 2, .place = {}};
  Placed<Length> knot{.value = Length::mm(16), .place = {}};
  Placed<Length> tails{.value = Length::mm(0), .place = {}};
  Placed<Length> allowance{.value = Length::mm(10), .place = {}};  ///< not given: at least this
  bool mass_is_limit = false;                                      ///< mass = "limit"
  Placed<Mass> mass;     ///< given: of washed rubber (place also set for "limit")
  Placed<Length> loop;   ///< given or not
  Placed<Mass> window;   ///< default: the larger of 3 mg and two scale steps, filled in
  Placed<Length> hooks;  ///< given or not
  Placed<double> part;   ///< given or not; 0 < part < 1
  /// Neither mass nor loop, but a rule: the builder is still choosing. calc/choose.h shows what
  /// each strip would give.
  bool choosing = false;
  bool strip_named = false;  ///< false: the plan's only strip, or, when choosing, any of them
};

struct Plan {
  std::string file;
  std::string title;
  Placed<Date> date;  ///< given or not
  Placed<std::string> paper{.value = "a4", .place = {}};
  Placed<std::string> labels;  ///< given or not: plain labels on the paper
  Placed<std::string> slip{.value = "slip", .place = {}};  ///< layout of the build night's labels
  Units units = Units::metric;
  bool units_given = false;  ///< in the plan or on the command line
  Placed<std::string> records{.value = "records", .place = {}};
  Placed<std::string> link;  ///< holds "{id}"
  Bench bench;
  std::vector<Rule> rules;
  std::vector<Strip> strips;
  std::vector<Rings> rings;
  std::vector<Lubricant> lubricants;
  std::vector<Adhesive> adhesives;
  std::vector<Recipe> recipes;
  std::vector<MotorGroup> motors;
};

}  // namespace loopledger::plan
