// SPDX-License-Identifier: MIT
//
// The patterns against the readers: what one takes the other takes, over texts put together at
// random from the parts that quantities are written with.
#include "base/quantity_pattern.h"

#include <doctest/doctest.h>

#include <array>
#include <functional>
#include <random>
#include <regex>
#include <string>

#include "base/quantity_text.h"

using namespace loopledger;

namespace {

struct Reader {
  const char* name;
  std::string pattern;
  std::function<bool(const std::string&)> takes;
  std::vector<std::string> units;
};

template <class R>
bool is_taken(const R& result) {
  return static_cast<bool>(result);
}

std::vector<Reader> readers() {
  const auto pattern = [](const char* kind, bool uncertain) {
    return quantity_pattern(kind, uncertain);
  };
  return {
      {"length",
       pattern("length", false),
       [](const std::string& t) { return is_taken(length_from(t)); },
       {"mm", "in", "\"", "″", "IN", "m", "in."}},
      {"mass",
       pattern("mass", false),
       [](const std::string& t) { return is_taken(mass_from(t)); },
       {"g", "mg", "kilo"}},
      {"density",
       pattern("density", false),
       [](const std::string& t) { return is_taken(density_from(t)); },
       {"g/cm3", "kg/m³", "g/cm^3"}},
      {"torque",
       pattern("torque", false),
       [](const std::string& t) { return is_taken(torque_from(t)); },
       {"gf.cm", "gf · cm", "OZF-IN", "N cm", "in*ozf", "gf . . cm"}},
      {"time",
       pattern("time", false),
       [](const std::string& t) { return is_taken(duration_from(t)); },
       {"min", "h", "s", "min.", " h ", "1 h 30 min"}},
      {"share",
       pattern("share", false),
       [](const std::string& t) { return is_taken(share_from(t)); },
       {"%", "percent"}},
      {"mass with ±",
       pattern("mass", true),
       [](const std::string& t) { return is_taken(uncertain_mass_from(t)); },
       {"g", "mg"}},
      {"share with ±",
       pattern("share", true),
       [](const std::string& t) { return is_taken(uncertain_share_from(t)); },
       {"%"}},
      {"torque factor with ±",
       pattern("torque factor", true),
       [](const std::string& t) { return is_taken(uncertain_pressure_from(t)); },
       {"MPa", "N/mm2"}},
      {"factor with ±",
       pattern("number", true),
       [](const std::string& t) { return is_taken(uncertain_factor_from(t)); },
       {"x"}},
      {"number",
       number_pattern(),
       [](const std::string& t) { return number_from(t).has_value(); },
       {"x"}},
  };
}

/// "12 3/2": the reader sees that the fraction is no part of one, an expression can't.
bool has_fraction_past_one(const std::string& text) {
  static const std::regex kMixed("[0-9.](?: |\\t|\u00A0|-)+([0-9]+)/([0-9]+)");
  for (auto at = std::sregex_iterator(text.begin(), text.end(), kMixed);
       at != std::sregex_iterator(); ++at) {
    if (std::stod((*at)[1]) >= std::stod((*at)[2])) {
      return true;
    }
  }
  return false;
}

/// "30 min 1 h", "1 h 90 min": parts of a time are in order, each less than one of the part before.
bool has_parts(const std::string& text) {
  static const std::regex kPart("[a-z][^0-9½¼.]*[0-9½¼.]", std::regex::icase);
  return std::regex_search(text, kPart);
}

/// Taken on one side alone for a reason that the header names.
bool is_excused(const std::string& reader_name, const std::string& text, bool reader,
                bool negative) {
  if (reader_name == "time" && !reader && has_parts(text)) {
    return true;
  }
  const bool mixed_exponent = text.find("1e1") != std::string::npos;
  return reader ? mixed_exponent || negative : has_fraction_past_one(text);
}

}  // namespace

TEST_CASE("a pattern takes what its reader takes, and no more than an expression must") {
  static const std::array kParts{"1",  "12", "0", "0.5", ".5",  "7.",  "1e1", "1/2", "3/32",  "5/0",
                                 "½",  "-",  "+", "−",   "±",   "+/-", "+-",  " ",   " ",     "\t",
                                 "\n", ",",  "/", ".",   " ± ", "1.5", "¼",   "x",   "\u00A0"};
  std::mt19937 random(20260501);
  const std::regex negative("(^|[^0-9+])(-|−)[0-9.½¼]");
  for (const Reader& reader : readers()) {
    const std::regex pattern(reader.pattern);
    int taken = 0;
    for (int i = 0; i < 6000; ++i) {
      std::string text;
      for (std::size_t n = 1 + random() % 6; n > 0; --n) {
        text += random() % 3 == 0 ? reader.units[random() % reader.units.size()]
                                  : std::string(kParts[random() % kParts.size()]);
      }
      const bool by_reader = reader.takes(text);
      const bool by_pattern = std::regex_match(text, pattern);
      taken += by_reader ? 1 : 0;
      if (by_reader != by_pattern) {
        CAPTURE(reader.name);
        CAPTURE(text);
        CHECK_MESSAGE(is_excused(reader.name, text, by_reader, std::regex_search(text, negative)),
                      (by_reader ? "only the reader takes it" : "only the pattern takes it"));
      }
    }
    CHECK_MESSAGE(taken > 60, reader.name);
  }
}

TEST_CASE("every unit of the tables passes the pattern of its kind, in any case") {
  for (const UnitName& unit : unit_names()) {
    if (unit.kind == "temperature") {
      continue;  // no plan asks for one
    }
    const std::regex pattern(quantity_pattern(unit.kind, false));
    CHECK_MESSAGE(std::regex_match("1.5 " + std::string(unit.name), pattern), unit.name);
  }
  const std::regex pressure(quantity_pattern("torque factor", false));
  CHECK(std::regex_match("0.6 MPa", pressure));
  CHECK_FALSE(std::regex_match("0.6 bar", pressure));
}

TEST_CASE("a sign behind a factor is no unit") {
  CHECK_FALSE(uncertain_factor_from("11.0 -"));
  CHECK_FALSE(uncertain_factor_from("11.0 *"));
  CHECK(uncertain_factor_from("11.0 "));
}
