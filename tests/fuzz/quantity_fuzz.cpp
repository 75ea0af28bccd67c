// SPDX-License-Identifier: MIT
#include <cmath>

#include "base/date.h"
#include "base/quantity_text.h"
#include "base/terms.h"
#include "base/text.h"
#include "fuzz/claim.h"
#include "fuzz/targets.h"

namespace loopledger::fuzz {
namespace {

bool near(double a, double b) { return std::fabs(a - b) <= 1e-12 * std::fabs(a) || a == b; }

double raw(Temperature t) { return t.in_deg_c(); }
template <class Q>
double raw(Q q) {
  return q.in_si();
}

/// What is read is finite, and is read again from what is written of it.
template <class Read>
void there_and_back(std::string_view input, const Read& read) {
  const auto first = read(input);
  claim_result(first, input.size());
  if (!first) {
    return;
  }
  claim(std::isfinite(raw(*first)), "a quantity that is not finite", input);
  const std::string written = exact(*first);
  claim_harmless(written);
  const auto again = read(written);
  claim(again.ok(), "what was written can't be read", written);
  claim(near(raw(*first), raw(*again)), "what was written reads as something else", written);
  claim(exact(*again) == written, "written twice it differs", written);
}

template <class Read>
void there_and_back_with_u(std::string_view input, const Read& read) {
  const auto first = read(input);
  claim_result(first, input.size());
  if (!first) {
    return;
  }
  claim(std::isfinite(raw(first->value)) && std::isfinite(raw(first->u)) && raw(first->u) >= 0,
        "no finite value with an uncertainty from 0 on", input);
  const std::string written = exact(*first);
  const auto again = read(written);
  claim(again.ok(), "what was written can't be read", written);
  claim(near(raw(first->value), raw(again->value)) && near(raw(first->u), raw(again->u)),
        "what was written reads as something else", written);
}

void quantities(std::string_view input) {
  there_and_back(input, length_from);
  there_and_back(input, area_from);
  there_and_back(input, mass_from);
  there_and_back(input, density_from);
  there_and_back(input, pressure_from);
  there_and_back(input, torque_from);
  there_and_back(input, duration_from);
  there_and_back(input, share_from);
  there_and_back(input, temperature_from);
  there_and_back_with_u(input, uncertain_mass_from);
  there_and_back_with_u(input, uncertain_share_from);
  there_and_back_with_u(input, uncertain_linear_density_from);
  there_and_back_with_u(input, uncertain_pressure_from);
  const auto factor = uncertain_factor_from(input);
  claim_result(factor, input.size());
  claim(!factor || (std::isfinite(factor->value) && factor->u >= 0), "a factor without bounds");
}

/// What a plain reader and the one with "±" both take is the same to both.
void alike(std::string_view input) {
  const auto plain = mass_from(input);
  const auto with_u = uncertain_mass_from(input);
  claim(!plain || (with_u.ok() && with_u->value == *plain && with_u->u == Mass{}),
        "a mass that differs with the reader", input);
}

void numbers(std::string_view input) {
  const auto number = number_from(input);
  if (!number) {
    return;
  }
  claim(std::isfinite(*number), "a number that is not finite", input);
  const auto again = number_from(shortest(*number));
  claim(again.has_value() && *again == *number, "the shortest text is of another number", input);
  for (const int digits : {1, 3, 6}) {
    claim_harmless(rounded(*number, digits));
    claim_harmless(fixed(*number, digits));
    claim(fixed(*number, digits) != "-0", "minus nothing", input);
  }
}

void shown_ones(std::string_view input) {
  const auto mass = mass_from(input);
  if (mass && mass->in_g() > 0 && mass->in_g() < 1e6) {
    const int decimals = gram_decimals(*mass);
    claim(decimals >= 0 && decimals <= 6, "decimals of a scale");
    claim_harmless(shown(*mass, *mass));
  }
  const auto time = duration_from(input);
  if (time && std::fabs(time->in_s()) < 1e9) {
    claim_harmless(shown(*time));
  }
}

void dates(std::string_view input) {
  if (const auto date = date_from_iso(input)) {
    claim(is_valid(*date), "a date that is none", input);
    claim(date_from_iso(iso(*date)) == date, "a date that is read as another", input);
    claim(date_of(midnight_utc(*date)) == *date, "a midnight of another day", input);
  }
  if (const auto date = date_from_compact(input)) {
    claim(is_valid(*date) && compact(*date) == input, "a short date that is written otherwise",
          input);
  }
  for (const auto moment : {moment_from_stamp(input), moment_from_text(input)}) {
    claim(!moment || moment_from_stamp(stamp(*moment)) == moment, "a moment of another time",
          input);
  }
}

void texts(std::string_view input) {
  const std::string safe = printable(input);
  claim_harmless(safe);
  claim(printable(safe) == safe, "printed twice it differs", safe);
  claim(first_bad_utf8(input).has_value() || to_utf8(code_points(input)) == input,
        "text that changes on its way through code points", input);
  claim(code_points(to_utf8(code_points(input))) == code_points(input), "code points that change",
        input);
  claim(trimmed(trimmed(input)) == trimmed(input), "trimmed twice it differs", input);
  claim(lower_ascii(upper_ascii(input)) == lower_ascii(input), "a case that is lost", input);
  for (const int columns : {1, 7, 60}) {
    claim(terminal_width(shortened(input, columns)) <= columns, "wider than it may be", input);
  }
  (void)stage_from(input);
  (void)weighed_from(input);
  (void)wind_end_from(input);
  (void)break_place_from(input);
}

}  // namespace

void quantity(std::string_view input) {
  quantities(input);
  alike(input);
  numbers(input);
  shown_ones(input);
  dates(input);
  texts(input);
}

}  // namespace loopledger::fuzz
