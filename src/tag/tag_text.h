// SPDX-License-Identifier: MIT
//
// What a bag label's QR code says: text that any phone shows as it is. Upper case, QR alphanumeric
// characters only, what is wound first:
//
//   TH-01-K MADE 1180T 44GFCM 1.496G 303MM L1 260131
//
// = id, state (EST before break-in, MADE after), turns to wind to or best, torque if known, washed
// mass, loop, version word, date; at most 61 characters. Short form: "TH-01-K 1180T 44GFCM"; then
// the id alone. The version word L1 is never reused for another layout.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.h"
#include "base/motor_id.h"
#include "base/quantity.h"
#include "base/result.h"

namespace loopledger::tag {

enum class TagState { est, made };

struct TagFigures {
  MotorId id;
  std::optional<TagState> state;
  std::optional<Turns> turns;
  std::optional<Torque> torque;
  std::optional<Mass> mass;
  std::optional<Length> loop;
  std::optional<Date> date;
};

/// The texts for a motor, longest first: full, short, id alone. Never longer than 61 characters.
[[nodiscard]] std::vector<std::string> tag_texts(const TagFigures& figures);

/// The address that replaces the text when the plan gives a link: `{id}` becomes the id with check.
[[nodiscard]] std::string tag_address(std::string_view link, const MotorId& id);

/// Reads any of the forms above, an address that carries an id with a right check character, or an
/// id as typed. Untrusted input: at most 300 bytes. Errors: `tag-form`, `tag-version`, `id-check`.
[[nodiscard]] Result<TagFigures> read_tag(std::string_view text);

}  // namespace loopledger::tag
