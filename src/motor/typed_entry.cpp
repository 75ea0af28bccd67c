// SPDX-License-Identifier: MIT
#include "motor/typed_entry.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <span>

#include "base/quantity_text.h"
#include "base/text.h"
#include "calc/cranks.h"
#include "records/fields.h"

namespace loopledger::motor {
namespace {

using records::Entry;
using records::Field;
using records::Kind;

std::vector<std::string_view> field_names(Kind kind) {
  std::vector<std::string_view> names;
  for (const Field& field : records::fields_of(kind)) {
    names.push_back(field.name);
  }
  return names;
}

/// The nearest name, or the only one that begins like the word.
std::string_view guess(std::string_view word, const std::vector<std::string_view>& names) {
  const std::string key = lower_ascii(word);
  std::string_view begun;
  for (const std::string_view name : names) {
    if (key.size() >= 2 && name.starts_with(key)) {
      if (!begun.empty()) {
        begun = {};
        break;
      }
      begun = name;
    }
  }
  return begun.empty() ? nearest(key, names) : begun;
}

std::string hint_for(std::string_view word, const std::vector<std::string_view>& names,
                     std::string_view what) {
  const std::string all = fmt::format("{}: {}", what, fmt::join(names, ", "));
  const std::string_view near = guess(word, names);
  return near.empty() ? all : fmt::format("did you mean \"{}\"? {}", near, all);
}

/// Fields that a value alone may be for, by kind; the rest is only set by name.
std::vector<std::string_view> wordless_fields(Kind kind) {
  switch (kind) {
    case Kind::weighed:
      return {"stage", "reading"};
    case Kind::tied:
      return {"loop", "reading"};
    case Kind::break_in:
      return {"turns", "torque", "loop_after", "temperature"};
    case Kind::wound:
      return {"turns", "torque", "end", "temperature"};
    case Kind::broke:
      return {"turns", "torque", "where"};
    case Kind::flown:
      return {"time", "temperature"};
    case Kind::labelled:
    case Kind::piece:
    case Kind::note:
    case Kind::retired:
    case Kind::planned:
    case Kind::other:
      break;
  }
  return {};
}

/// The field that takes all that is typed without a name.
std::string_view text_field(Kind kind) {
  switch (kind) {
    case Kind::labelled:
    case Kind::piece:
      return "tag";
    case Kind::note:
      return "text";
    case Kind::retired:
      return "why";
    case Kind::planned:
      return "note";
    default:
      return {};
  }
}

class Words {
 public:
  Words(Entry& entry, std::span<const std::string> words) : entry_(entry), words_(words) {}

  Diagnostics read() {
    while (at_ < words_.size()) {
      const std::string& word = words_[at_];
      const std::size_t equals = word.find('=');
      const bool plain_text =
          !text_field(entry_.kind).empty() && field_of(word.substr(0, equals)) == nullptr;
      if (equals != std::string::npos && equals > 0 && !plain_text) {
        ++at_;
        named(word.substr(0, equals), word.substr(equals + 1));
      } else if (const Field* const field = field_of(word); field != nullptr && more()) {
        ++at_;
        named(word, words_[at_++]);
      } else {
        wordless();
      }
    }
    return std::move(problems_);
  }

 private:
  [[nodiscard]] bool more() const { return at_ + 1 < words_.size(); }
  [[nodiscard]] const Field* field_of(std::string_view name) const {
    return records::find_field(entry_.kind, lower_ascii(name));
  }

  /// Sets a field, once.
  Diagnostics set(const Field& field, const std::string& value) {
    if (set_.contains(field.name)) {
      return {error("log-twice", fmt::format("{} is given twice", field.name),
                    "leave one of them out")};
    }
    Diagnostics problems = records::set_field(entry_, field, value);
    if (problems.empty()) {
      set_.insert(field.name);
    }
    return problems;
  }

  void named(const std::string& name, const std::string& value) {
    const Field* const field = field_of(name);
    if (field == nullptr) {
      const auto names = field_names(entry_.kind);
      problems_.push_back(
          error("log-field",
                fmt::format("an entry \"{}\" has no field \"{}\"", records::word(entry_.kind),
                            printable(shortened(name, 40))),
                hint_for(name, names, "its fields are")));
      return;
    }
    Diagnostics problems = set(*field, value);
    // `torque=41 gf.cm` without quotes: the unit is the next word.
    if (!problems.empty() && at_ < words_.size() && words_[at_].find('=') == std::string::npos &&
        set(*field, fmt::format("{} {}", value, words_[at_])).empty()) {
      ++at_;
      return;
    }
    append(problems_, problems);
  }

  /// A value alone, perhaps with its unit as the next word.
  void wordless() {
    if (const std::string_view text = text_field(entry_.kind); !text.empty()) {
      take_text(*field_of(text));
      return;
    }
    const std::string& word = words_[at_];
    for (const bool with_next : {true, false}) {
      if (with_next && !more()) {
        continue;
      }
      const std::string value = with_next ? fmt::format("{} {}", word, words_[at_ + 1]) : word;
      for (const std::string_view name : wordless_fields(entry_.kind)) {
        if (!set_.contains(name) && set(*field_of(name), value).empty()) {
          at_ += with_next ? 2 : 1;
          return;
        }
      }
    }
    // A reading is in grams if nobody says otherwise: that is what the scale shows.
    const bool reading_next =
        entry_.kind == Kind::weighed || (entry_.kind == Kind::tied && set_.contains("loop"));
    if (reading_next && !set_.contains("reading") &&
        set(*field_of("reading"), word + " g").empty()) {
      ++at_;
      return;
    }
    const auto names = field_names(entry_.kind);
    problems_.push_back(
        error("log-word",
              fmt::format("can't tell what \"{}\" is in an entry \"{}\"",
                          printable(shortened(word, 40)), records::word(entry_.kind)),
              hint_for(word, names, "say it as field=value; its fields are")));
    ++at_;
  }

  /// All words up to the next field=value.
  void take_text(const Field& field) {
    std::string text;
    while (at_ < words_.size()) {
      const std::string& word = words_[at_];
      const std::size_t equals = word.find('=');
      if (equals != std::string::npos && field_of(word.substr(0, equals)) != nullptr) {
        break;
      }
      text += (text.empty() ? "" : " ") + word;
      ++at_;
    }
    append(problems_, set(field, text));
  }

  Entry& entry_;
  std::span<const std::string> words_;
  std::size_t at_ = 0;
  std::set<std::string_view> set_;
  Diagnostics problems_;
};

bool is_crank_word(std::string_view word) {
  const std::string key = lower_ascii(word);
  return key == "crank" || key == "cranks";
}

/// "42 cranks" and "cranks 42" as one word, where they are two.
std::vector<std::string> with_cranks_whole(const std::vector<std::string>& words) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const std::string& word = words[i];
    const bool behind = !out.empty() && number_from(out.back().substr(out.back().find('=') + 1));
    if (is_crank_word(word) && behind) {
      out.back() += " " + word;
    } else if (is_crank_word(word) && i + 1 < words.size() && number_from(words[i + 1])) {
      out.push_back(fmt::format("{}={}", word, words[++i]));
    } else {
      out.push_back(word);
    }
  }
  return out;
}

/// A word that gives cranks: the field that they are turns of, and their number.
struct CrankWord {
  std::string field;
  double cranks = 0;
};

std::optional<CrankWord> crank_word(const std::string& word) {
  const std::size_t equals = word.find('=');
  const std::string field = equals == std::string::npos ? "turns" : word.substr(0, equals);
  const std::string value = equals == std::string::npos ? word : word.substr(equals + 1);
  if (is_crank_word(field)) {
    const auto cranks = number_from(value);
    return cranks ? std::optional(CrankWord{"turns", *cranks}) : std::nullopt;
  }
  const std::size_t blank = value.find(' ');
  const auto cranks = number_from(value.substr(0, blank));
  const bool said = blank != std::string::npos && is_crank_word(trimmed(value.substr(blank)));
  return said && cranks ? std::optional(CrankWord{field, *cranks}) : std::nullopt;
}

}  // namespace

Result<TurnedWords> cranks_as_turns(const std::vector<std::string>& words,
                                    const std::optional<double>& winder_ratio) {
  TurnedWords out{with_cranks_whole(words), false};
  for (std::string& word : out.words) {
    const auto cranks = crank_word(word);
    if (!cranks) {
      continue;
    }
    if (!winder_ratio) {
      return error("log-cranks", "cranks are no turns as long as the winder's ratio is not known",
                   "type the turns, or say the ratio: --winder-ratio 10, or "
                   "LOOPLEDGER_WINDER_RATIO=10, or at the bench [bench] winder_ratio of the plan");
    }
    word = fmt::format("{}={}", cranks->field,
                       rounded(calc::turns_of_cranks(cranks->cranks, *winder_ratio).count(), 6));
    out.in_cranks = out.in_cranks || cranks->field == "turns";
  }
  return out;
}

Diagnostic bad_time(const std::string& typed) {
  return error("log-at",
               fmt::format("expected a time such as \"2026-05-01 10:00\", found \"{}\"",
                           printable(shortened(typed, 40))),
               "the time is taken as UTC");
}

Result<Entry> entry_from_words(const std::string& kind, const std::vector<std::string>& words) {
  const auto known = records::kind_from(kind);
  if (!known) {
    return error(
        "log-kind",
        fmt::format("expected a kind of entry, found \"{}\"", printable(shortened(kind, 40))),
        hint_for(kind, records::kind_words(), "kinds are"));
  }
  Entry entry;
  entry.kind = *known;
  Diagnostics problems = Words(entry, words).read();
  if (const auto missing = records::missing_fields(entry); problems.empty() && !missing.empty()) {
    problems.push_back(error(
        "record-missing",
        fmt::format("an entry \"{}\" needs {}", records::word(*known), fmt::join(missing, " and ")),
        fmt::format("for example: {}", records::example_of(*known))));
  }
  if (!problems.empty()) {
    return problems;
  }
  return entry;
}

Result<TypedEntry> entry_from_typed(const std::string& kind, const std::vector<std::string>& words,
                                    const std::optional<double>& winder_ratio) {
  const auto known = records::kind_from(kind);
  const bool has_turns = known && (records::find_field(*known, "turns") != nullptr ||
                                   records::find_field(*known, "turns_left") != nullptr);
  const auto turned =
      has_turns ? cranks_as_turns(words, winder_ratio) : Result<TurnedWords>({words, false});
  if (!turned) {
    return turned.diagnostics();
  }
  auto entry = entry_from_words(kind, turned->words);
  if (!entry) {
    return entry.diagnostics();
  }
  return TypedEntry{std::move(*entry), turned->in_cranks};
}

}  // namespace loopledger::motor
