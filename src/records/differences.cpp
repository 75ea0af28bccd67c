// SPDX-License-Identifier: MIT
#include "records/differences.h"

#include <fmt/format.h>

#include <cmath>
#include <optional>

#include "base/quantity_text.h"
#include "base/text.h"

namespace loopledger::records {
namespace {

constexpr int kLengthDecimals = 0;  // as lengths are printed, mm
constexpr int kWidthDecimals = 2;

class Comparison {
 public:
  explicit Comparison(Mass step) : gram_decimals_(gram_decimals(step)) {}

  void text(const char* what, const std::string& was, const std::string& is) {
    if (was != is) {
      add(what, named(was), named(is));
    }
  }
  void mass(const char* what, const std::optional<Mass>& was, const std::optional<Mass>& is) {
    number(what, was ? std::optional(was->in_g()) : std::nullopt,
           is ? std::optional(is->in_g()) : std::nullopt, gram_decimals_, "g");
  }
  void length(const char* what, const std::optional<Length>& was, const std::optional<Length>& is,
              int decimals = kLengthDecimals) {
    number(what, was ? std::optional(was->in_mm()) : std::nullopt,
           is ? std::optional(is->in_mm()) : std::nullopt, decimals, "mm");
  }
  std::vector<std::string> found;

 private:
  static std::string named(const std::string& text) {
    return text.empty() ? std::string("none") : fmt::format("\"{}\"", printable(text));
  }
  void add(const char* what, const std::string& was, const std::string& is) {
    found.push_back(fmt::format("{} {}, now {}", what, was, is));
  }
  void number(const char* what, std::optional<double> was, std::optional<double> is, int decimals,
              const char* unit) {
    // Half of the last digit, and a hair for what reading and writing cost.
    const double tolerance = 0.5 * std::pow(10.0, -decimals) * (1 + 1e-9);
    if (was.has_value() == is.has_value() && (!was || std::fabs(*was - *is) <= tolerance)) {
      return;
    }
    const auto printed = [&](const std::optional<double>& v) {
      return v ? fmt::format("{} {}", fixed(*v, decimals), unit) : std::string("none");
    };
    // Two figures just over half a digit apart may print alike: then one digit more.
    if (was && is && printed(was) == printed(is)) {
      ++decimals;
    }
    add(what, printed(was), printed(is));
  }

  int gram_decimals_;
};

void compare_rules(Comparison& c, const Planned& was, const Planned& is) {
  c.text("rule", was.rule ? was.rule->name : "", is.rule ? is.rule->name : "");
  if (was.rule && is.rule) {
    c.mass("limit", was.rule->limit, is.rule->limit);
    c.text("counted", listed(was.rule->counts), listed(is.rule->counts));
    c.text("weighed", std::string(word(was.rule->weighed)), std::string(word(is.rule->weighed)));
  }
}

void compare_windows(Comparison& c, const Windows& was, const Windows& is) {
  c.mass("as cut at least", was.of(Stage::as_cut).low, is.of(Stage::as_cut).low);
  c.mass("washed from", was.of(Stage::washed).low, is.of(Stage::washed).low);
  c.mass("washed to", was.of(Stage::washed).high, is.of(Stage::washed).high);
  c.mass("tied from", was.of(Stage::tied).low, is.of(Stage::tied).low);
  c.mass("tied to", was.of(Stage::tied).high, is.of(Stage::tied).high);
  c.mass("finished from", was.of(Stage::finished).low, is.of(Stage::finished).low);
  c.mass("finished to", was.of(Stage::finished).high, is.of(Stage::finished).high);
}

}  // namespace

std::vector<std::string> differences(const Planned& record, const Planned& now) {
  Comparison c(record.scale_step);
  c.text("strip", record.strip, now.strip);
  if (record.strands != now.strands) {
    c.text("strands", std::to_string(record.strands), std::to_string(now.strands));
  }
  c.length("width", record.width, now.width, kWidthDecimals);
  compare_rules(c, record, now);
  c.mass("aim", record.aim, now.aim);
  compare_windows(c, record.windows, now.windows);
  c.length("loop", record.loop, now.loop);
  c.length("cut", record.cut, now.cut);
  c.length("stays", record.stays, now.stays);
  c.length("hooks", record.hooks, now.hooks);
  c.length("spacer", record.spacer, now.spacer);
  c.mass("ballast", record.ballast, now.ballast);
  return c.found;
}

}  // namespace loopledger::records
