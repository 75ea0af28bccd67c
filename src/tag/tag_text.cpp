// SPDX-License-Identifier: MIT
#include "tag/tag_text.h"

#include <algorithm>
#include <cassert>

#include "base/quantity_text.h"
#include "tag/id.h"
#include "tag/tag_fields.h"

namespace loopledger::tag {
namespace {

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) {
    if (!word.empty()) {
      text += text.empty() ? word : " " + word;
    }
  }
  return text;
}

}  // namespace

std::string turns_word(const std::optional<Turns>& turns) {
  if (!turns || !(turns->count() >= 1) || !(turns->count() < 99999.5)) {
    return {};
  }
  return shown_at_most(*turns) + "T";  // never up, past what the motor may be wound to
}

std::string torque_word(const std::optional<Torque>& torque) {
  const double v = torque ? torque->in_gf_cm() : 0;
  if (!(v >= 0.005) || !(v < 9999.5)) {
    return {};
  }
  return fixed(v, v < 0.995 ? 2 : v < 9.95 ? 1 : 0) + "GFCM";
}

int mass_decimals(Mass mass) { return mass.in_g() < 99.9995 ? 3 : 1; }

std::string mass_word(const std::optional<Mass>& mass) {
  if (!mass || !(mass->in_g() >= 0.0005) || !(mass->in_g() < 9999.5)) {
    return {};
  }
  return fixed(mass->in_g(), mass_decimals(*mass)) + "G";
}

std::string loop_word(const std::optional<Length>& loop) {
  if (!loop || !(loop->in_mm() >= 0.5) || !(loop->in_mm() < 9999.5)) {
    return {};
  }
  return fixed(loop->in_mm(), 0) + "MM";
}

std::string date_word(const std::optional<Date>& date) {
  if (!date || !is_valid(*date) || date->year < 2000 || date->year > 2099) {
    return {};
  }
  return compact(*date);
}

std::string state_word(const std::optional<TagState>& state) {
  return !state ? "" : *state == TagState::est ? "EST" : "MADE";
}

std::vector<std::string> tag_texts(const TagFigures& f) {
  const std::string id = with_check(f.id);
  const std::string short_form = joined({id, turns_word(f.turns), torque_word(f.torque)});
  const std::string state = state_word(f.state);
  const std::string mass = mass_word(f.mass);
  const std::string loop = loop_word(f.loop);
  const std::string date = date_word(f.date);
  std::vector<std::string> texts;
  if (!(state + mass + loop + date).empty()) {
    texts.push_back(joined({id, state, turns_word(f.turns), torque_word(f.torque), mass, loop,
                            std::string(kVersionWord), date}));
  }
  if (short_form != id) {
    texts.push_back(short_form);
  }
  texts.push_back(id);
  assert(texts.front().size() <= kTagMaxCharacters);
  return texts;
}

std::string tag_address(std::string_view link, const MotorId& id) {
  static constexpr std::string_view kPlaceholder = "{id}";
  std::string address(link);
  const std::string written = with_check(id);
  for (auto at = address.find(kPlaceholder); at != std::string::npos;
       at = address.find(kPlaceholder, at + written.size())) {
    address.replace(at, kPlaceholder.size(), written);
  }
  return address;
}

}  // namespace loopledger::tag
