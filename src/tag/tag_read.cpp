// SPDX-License-Identifier: MIT
//
// Reading tags back. The words are split by their units, and then the figures found must print
// exactly the text that was read: the writer is the only definition of the format.
#include <algorithm>
#include <optional>
#include <utility>

#include "base/quantity_text.h"
#include "base/text.h"
#include "tag/id.h"
#include "tag/tag_fields.h"
#include "tag/tag_text.h"

namespace loopledger::tag {
namespace {

bool is_alphanumeric(char c) {
  return is_digit(c) || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
}

std::vector<std::string_view> words_of(std::string_view text) {
  std::vector<std::string_view> words;
  std::size_t start = 0;
  for (std::size_t i = 0; i <= text.size(); ++i) {
    if (i == text.size() || text[i] == ' ' || text[i] == '\t') {
      if (i > start) {
        words.push_back(text.substr(start, i - start));
      }
      start = i + 1;
    }
  }
  return words;
}

Diagnostic not_a_tag(std::string_view text) {
  return error("tag-form",
               "expected a label's text such as \"" +
                   tag_texts({MotorId{"TH", 1}, {}, Turns::of(1180), {}, {}, {}, {}}).front() +
                   "\", found \"" + printable(shortened(text, 70)) + "\"",
               "an id alone, such as th1, is enough");
}

bool is_other_version(std::string_view word) {
  return word.size() >= 2 && word.size() <= 4 && word.front() == 'L' && word != kVersionWord &&
         std::all_of(word.begin() + 1, word.end(), is_digit);
}

/// Decimal number in front of a unit. Empty: the word has not that unit or no plain number.
std::optional<double> number_before(std::string_view word, std::string_view unit) {
  if (word.size() <= unit.size() || !word.ends_with(unit)) {
    return std::nullopt;
  }
  const std::string_view digits = word.substr(0, word.size() - unit.size());
  const bool plain =
      std::all_of(digits.begin(), digits.end(), [](char c) { return is_digit(c) || c == '.'; });
  return plain ? number_from(digits) : std::nullopt;
}

/// Puts one word into its field; false when it is none. Order and doubles are caught by the
/// comparison with the writer.
bool take_word(std::string_view word, TagFigures& f) {
  if (word == kVersionWord) {
    return true;
  }
  if (word == "EST" || word == "MADE") {
    f.state = word == "EST" ? TagState::est : TagState::made;
    return true;
  }
  if (const auto torque = number_before(word, "GFCM")) {
    f.torque = Torque::gf_cm(*torque);
    return true;
  }
  if (const auto loop = number_before(word, "MM")) {
    f.loop = Length::mm(*loop);
    return true;
  }
  if (const auto mass = number_before(word, "G")) {
    f.mass = Mass::g(*mass);
    return true;
  }
  if (const auto turns = number_before(word, "T")) {
    f.turns = Turns::of(*turns);
    return true;
  }
  f.date = date_from_compact(word);
  return f.date.has_value();
}

/// The figures of a text that tag_texts would write. `text` has single spaces and upper case.
Result<TagFigures> figures_of(std::string_view text) {
  const auto words = words_of(text);
  if (words.size() < 2 && (words.empty() || std::count(text.begin(), text.end(), '-') != 2)) {
    return not_a_tag(text);
  }
  const auto id = id_from(words.front());
  if (!id) {
    return id.diagnostics().front().code == "id-check" ? Result<TagFigures>(id.diagnostics())
                                                       : not_a_tag(text);
  }
  if (with_check(id->id) != words.front()) {
    return not_a_tag(text);
  }
  if (std::any_of(words.begin() + 1, words.end(), is_other_version)) {
    return error("tag-version",
                 "the label of " + printed(id->id) + " has a layout that this version can't read",
                 "update the program, or look the motor up by its id");
  }
  TagFigures figures;
  figures.id = id->id;
  for (std::size_t i = 1; i < words.size(); ++i) {
    if (!take_word(words[i], figures)) {
      return not_a_tag(text);
    }
  }
  const auto written = tag_texts(figures);
  if (std::find(written.begin(), written.end(), text) == written.end()) {
    return not_a_tag(text);
  }
  return figures;
}

/// Where path and query of an address begin; npos when the text is no address.
std::size_t path_of(std::string_view text) {
  const auto scheme = text.find("://");
  if (scheme == std::string_view::npos || scheme == 0 ||
      !std::all_of(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(scheme),
                   is_alphanumeric)) {
    return std::string_view::npos;
  }
  return text.find_first_of("/?#", scheme + 3);
}

Result<TagFigures> figures_of_address(std::string_view text, std::size_t path) {
  std::optional<MotorId> found;
  std::size_t start = path + 1;
  for (std::size_t i = start; i <= text.size(); ++i) {
    if (i < text.size() && (is_alphanumeric(text[i]) || text[i] == '-')) {
      continue;
    }
    const std::string part = upper_ascii(text.substr(start, i - start));
    start = i + 1;
    const auto id = id_from(part);
    if (!id || with_check(id->id) != part) {
      continue;
    }
    if (found && *found != id->id) {
      return not_a_tag(text);
    }
    found = id->id;
  }
  if (!found) {
    return not_a_tag(text);
  }
  TagFigures figures;
  figures.id = *found;
  return figures;
}

}  // namespace

Result<TagFigures> read_label(std::string_view text) {
  if (text.size() > kTagMaxBytes) {
    return not_a_tag(text);
  }
  if (const auto path = path_of(text); path != std::string_view::npos) {
    return figures_of_address(text, path);
  }
  return figures_of(text);
}

Result<TagFigures> read_tag(std::string_view text) {
  const std::string_view typed = trimmed(text);
  if (typed.size() > kTagMaxBytes || path_of(typed) != std::string_view::npos) {
    return read_label(typed);
  }
  const auto words = words_of(typed);
  if (words.size() <= 1) {
    const auto id = id_from(typed);
    if (!id) {
      return id.diagnostics();
    }
    TagFigures figures;
    figures.id = id->id;
    return figures;
  }
  std::string single_spaced;
  for (const std::string_view word : words) {
    single_spaced += single_spaced.empty() ? "" : " ";
    single_spaced += word;
  }
  return figures_of(upper_ascii(single_spaced));
}

}  // namespace loopledger::tag
