// SPDX-License-Identifier: MIT
#include "tag/id.h"

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

#include "base/text.h"
#include "tag/id_slips.h"

namespace loopledger::tag {
namespace {

constexpr std::size_t kTypedMaxBytes = 40;
constexpr std::size_t kSlipsNamed = 5;

bool is_letter(char c) { return c >= 'A' && c <= 'Z'; }
bool all_digits(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), is_digit);
}

/// One way to split what was typed. `check` 0: none.
struct Reading {
  std::string stem;
  std::string number;  ///< digits, with the leading zeros typed
  char check = 0;
  bool letters_for_digits = false;  ///< O, I or L stood in the number
};

std::optional<MotorId> id_of(const Reading& reading) {
  if (!is_stem(reading.stem) || !all_digits(reading.number) || reading.number.size() > 9) {
    return std::nullopt;
  }
  int number = 0;
  for (const char c : reading.number) {
    number = number * 10 + (c - '0');
  }
  if (number < 1 || number > kMotorNumberMax) {
    return std::nullopt;
  }
  return MotorId{reading.stem, number};
}

/// Stem and number are exactly as on a label.
bool as_printed(const Reading& reading) {
  const auto id = id_of(reading);
  return id && !reading.letters_for_digits && printed(*id) == reading.stem + "-" + reading.number;
}

bool check_is_right(const MotorId& id, char typed) {
  const char right = check_character(id);
  return typed == right || (right == 'O' && typed == '0') || (right == 'I' && typed == '1');
}

/// Upper case, every kind of dash a hyphen; empty when other characters are in it.
std::string normalised(std::string_view typed) {
  static constexpr std::array<std::string_view, 7> kDashes{"‐", "‑", "‒", "–", "—", "―", "−"};
  std::string text = upper_ascii(trimmed(typed));
  for (const std::string_view dash : kDashes) {
    for (auto at = text.find(dash); at != std::string::npos; at = text.find(dash)) {
      text.replace(at, dash.size(), "-");
    }
  }
  const bool clean = std::all_of(text.begin(), text.end(),
                                 [](char c) { return is_digit(c) || is_letter(c) || c == '-'; });
  return clean ? text : std::string{};
}

std::vector<std::string> split_at_hyphens(const std::string& text) {
  std::vector<std::string> parts(1);
  for (const char c : text) {
    if (c == '-') {
      parts.emplace_back();
    } else {
      parts.back() += c;
    }
  }
  return parts;
}

/// Stem and the longest run of digits at the end.
Reading split_at_digits(std::string_view text, char check) {
  std::size_t start = text.size();
  while (start > 0 && is_digit(text[start - 1])) {
    --start;
  }
  return {std::string(text.substr(0, start)), std::string(text.substr(start)), check, false};
}

Reading behind_hyphen(const std::string& stem, std::string_view number, char check) {
  Reading reading{stem, std::string(number), check, false};
  for (char& c : reading.number) {
    const char digit = c == 'O' ? '0' : (c == 'I' || c == 'L') ? '1' : c;
    reading.letters_for_digits = reading.letters_for_digits || digit != c;
    c = digit;
  }
  return reading;
}

/// Every way to split the text, those without a check first.
std::vector<Reading> readings_of(const std::vector<std::string>& parts) {
  const std::string& last = parts.back();
  if (std::any_of(parts.begin(), parts.end(), [](const auto& p) { return p.empty(); })) {
    return {};
  }
  const std::string_view but_one = std::string_view(last).substr(0, last.size() - 1);
  switch (parts.size()) {
    case 1:
      return {split_at_digits(last, 0), split_at_digits(but_one, last.back())};
    case 2: {
      std::vector<Reading> found{behind_hyphen(parts[0], last, 0)};
      if (last.size() == 1) {
        found.push_back(split_at_digits(parts[0], last.back()));
      } else {
        found.push_back(behind_hyphen(parts[0], but_one, last.back()));
      }
      return found;
    }
    case 3:
      if (last.size() == 1) {
        return {behind_hyphen(parts[0], parts[1], last.back())};
      }
      return {};
    default:
      return {};
  }
}

struct Choice {
  std::optional<Reading> plain;         ///< valid, without a check
  std::optional<Reading> right;         ///< valid, with a right check
  std::optional<Reading> wrong;         ///< valid, with a wrong check
  std::optional<Reading> out_of_order;  ///< has a check, but its number is none
};

Choice choice_of(std::string_view typed) {
  Choice choice;
  if (typed.size() > kTypedMaxBytes) {
    return choice;
  }
  const auto parts = split_at_hyphens(normalised(typed));
  for (Reading& reading : readings_of(parts)) {
    const auto id = id_of(reading);
    if (reading.check == 0) {
      if (id) {
        choice.plain = std::move(reading);
      }
    } else if (!id) {
      choice.out_of_order = std::move(reading);
    } else if (check_is_right(*id, reading.check)) {
      choice.right = std::move(reading);
    } else if (parts.size() == 3 || is_letter(reading.check)) {
      choice.wrong = std::move(reading);  // a last digit is more likely part of a number
    }
  }
  return choice;
}

std::string quoted(std::string_view typed) {
  return "\"" + printable(shortened(trimmed(typed), static_cast<int>(kTypedMaxBytes))) + "\"";
}

Diagnostic two_ways(std::string_view typed, const MotorId& plain, const Reading& checked) {
  const MotorId other = *id_of(checked);
  return error("id-form",
               quoted(typed) + " can be " + printed(plain) + ", or " + printed(other) +
                   " with its check character " + checked.check,
               "write " + with_check(plain) + " or " + with_check(other));
}

Diagnostic wrong_check(std::string_view typed) {
  std::vector<MotorId> near = ids_one_slip_away(typed);
  near.resize(std::min(near.size(), kSlipsNamed));
  std::vector<std::string> names;
  names.reserve(near.size());
  for (const MotorId& id : near) {
    names.push_back(with_check(id));
  }
  const std::vector<std::string_view> views(names.begin(), names.end());
  return error("id-check", "the check character of " + quoted(typed) + " does not fit the id",
               names.empty() ? "read the label again" : "one slip away: " + either(views));
}

Diagnostic no_id(std::string_view typed) {
  return error("id-form",
               "expected a motor id such as \"TH-01\" or \"th1\", found " + quoted(typed),
               "an id is a stem of 1 to 8 letters or digits, a number from 1 to 9999, and "
               "maybe its check character: TH-01-" +
                   std::string(1, check_character(MotorId{"TH", 1})));
}

}  // namespace

char check_character(std::string_view text) {
  std::size_t p = 36;
  for (const char c : text) {
    std::size_t t = (p + kIdAlphabet.find(c)) % 36;
    t = t == 0 ? 36 : t;
    p = 2 * t % 37;
  }
  return kIdAlphabet[(37 - p) % 36];
}

char check_character(const MotorId& id) {
  std::string text = printed(id);
  text.erase(std::remove(text.begin(), text.end(), '-'), text.end());
  return check_character(text);
}

std::string with_check(const MotorId& id) { return printed(id) + "-" + check_character(id); }

Result<TypedId> id_from(std::string_view typed) {
  const Choice choice = choice_of(typed);
  if (choice.plain) {
    const MotorId id = *id_of(*choice.plain);
    if (choice.right && as_printed(*choice.right) && !as_printed(*choice.plain)) {
      return two_ways(typed, id, *choice.right);
    }
    return TypedId{id, false};
  }
  if (choice.right) {
    const MotorId id = *id_of(*choice.right);
    return TypedId{id, choice.right->check == check_character(id)};
  }
  if (choice.wrong || !ids_one_slip_away(typed).empty()) {
    return wrong_check(typed);
  }
  return no_id(typed);
}

std::vector<MotorId> ids_one_slip_away(std::string_view typed) {
  const Choice choice = choice_of(typed);
  if (choice.plain || choice.right) {
    return {};
  }
  if (choice.wrong) {
    const MotorId id = *id_of(*choice.wrong);
    return slips_from(id.stem, printed(id).substr(id.stem.size() + 1), choice.wrong->check);
  }
  if (choice.out_of_order) {
    return slips_from(choice.out_of_order->stem, choice.out_of_order->number,
                      choice.out_of_order->check);
  }
  return {};
}

}  // namespace loopledger::tag
