// SPDX-License-Identifier: MIT
//
// What a bag label's QR code says: text that any phone shows as it is. Upper case, QR alphanumeric
// characters only, what is wound first:
//
//   TH-01-J MADE 1180T 44GFCM 1.496G 303MM L1 260131
//
// = id, state (EST before break-in, MADE after), turns to wind to or best, torque if known, washed
// mass, loop, version word, date; at most 61 characters. Short form: "TH-01-J 1180T 44GFCM"; then
// the id alone. The version word L1 is never reused for another layout.
//
// What is not known is left out, and so is a figure outside what its field holds: turns 1 to 99999,
// torque 0.01 to 9999 gf.cm, mass 0.001 to 9999 g, loop 1 to 9999 mm, dates 2000 to 2099. With all
// fields at their widest the text has 61 characters.
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

inline constexpr std::size_t kTagMaxCharacters = 61;  // version 3 at level M [qr]
inline constexpr std::size_t kTagMaxBytes = 300;      // of a text taken in, addresses among them

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
/// Where two of them would say the same, it comes once.
[[nodiscard]] std::vector<std::string> tag_texts(const TagFigures& figures);

/// The address that replaces the text when the plan gives a link: `{id}` becomes the id with check.
[[nodiscard]] std::string tag_address(std::string_view link, const MotorId& id);

/// Reads what a symbol says: one of the forms above, character for character as tag_texts would
/// write it, or an address whose path or query has one part that is an id with its right check
/// character (any case). Nothing else is ever taken as ours.
/// Errors: `tag-form`, `tag-version`, `id-check`.
[[nodiscard]] Result<TagFigures> read_label(std::string_view text);

/// Reads what a person typed or pasted: a label's text in any case and spacing, or an id as typed.
/// Untrusted input: at most 300 bytes. Errors: as above, and those of `id_from`.
[[nodiscard]] Result<TagFigures> read_tag(std::string_view text);

}  // namespace loopledger::tag
