// SPDX-License-Identifier: MIT
#include "terminal/cutting_text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "calc/cut_after.h"
#include "cutting/cutting_plan.h"
#include "motor/group_words.h"
#include "records/toml_text.h"
#include "sheets/figures_text.h"
#include "terminal/text_table.h"

namespace loopledger::terminal {
namespace {

constexpr std::size_t kLineColumns = 90;
constexpr int kNameColumns = 30;

/// "TH-01 608, TH-02 1216": where each motor's strip ends, from the clean end; broken into lines.
std::string cuts_text(const calc::PieceCuts& cuts, const calc::Batch& batch, Units units) {
  const std::vector<Length> positions = sheets::cut_marks(cuts, batch, units);
  std::string text;
  std::string line;
  for (std::size_t i = 0; i < positions.size(); ++i) {
    const std::string at = sheets::mark_number(positions[i], units);
    const std::string cut = fmt::format("{} {}{}", printed(batch.motors[cuts.motors[i]].id), at,
                                        i + 1 < positions.size() ? "," : "");
    if (!line.empty() && line.size() + 1 + cut.size() > kLineColumns) {
      text += "    " + line + "\n";
      line.clear();
    }
    line += (line.empty() ? "" : " ") + cut;
  }
  return text + "    " + line + "\n";
}

/// "left 1084 mm, to keep".
std::string left_text(const calc::PieceCuts& cuts, Units units) {
  return cuts.left <= cutting::kNothingLeft ? "nothing left"
                                            : fmt::format("left {}, {}", shown(cuts.left, units),
                                                          cuts.scrap ? "scrap" : "to keep");
}

/// Down to whole tenths: the shelf never lists more than there is.
double tenths_down(double value) { return std::floor(value * 10 + 1e-6) / 10; }

std::string more_text(const plan::Plan& plan, const calc::Batch& batch) {
  std::string text;
  for (const calc::MoreMotors& more : batch.cutting.more) {
    text +=
        fmt::format("    {} more like {}\n", more.count, motor::ids_text(plan.motors[more.group]));
  }
  return text.empty() ? text : "  what stays on the shelf would give, each kind alone:\n" + text;
}

std::string shelf_piece(const calc::ShelfPiece& piece) {
  const std::string mass =
      piece.mass
          ? fmt::format(", mass = \"{} g\"", fixed(tenths_down(piece.mass->in_mg()) / 1000, 4))
          : "";
  return fmt::format("{{ tag = {}, length = \"{} mm\"{} }}", records::toml_string(piece.tag),
                     fixed(tenths_down(piece.length.in_mm()), 1), mass);
}

}  // namespace

std::string cutting_text(const plan::Plan& plan, const calc::Batch& batch, Units units) {
  if (!batch.cutting.made) {
    return "\nNo cutting plan: no strip lists its pieces.\n";
  }
  std::string text =
      fmt::format("\nCutting plan, {} from the clean end\n", units == Units::inch ? "in" : "mm");
  for (const calc::PieceCuts& cuts : batch.cutting.pieces) {
    const plan::Strip& strip = plan.strips[cuts.strip];
    text += wrapped(fmt::format(
        "  {} {}, {}{}; {}", shortened(printable(strip.name), kNameColumns),
        shortened(printable(strip.pieces[cuts.piece].tag), kNameColumns), shown(cuts.length, units),
        cuts.ends > Length{}
            ? fmt::format(", first {} off for a clean end", shown(cuts.ends, units))
            : "",
        left_text(cuts, units)));
    text += cuts_text(cuts, batch, units);
  }
  return text + wrapped("  " + sheets::proof_text(batch.cutting, units)) + more_text(plan, batch);
}

std::string shelf_lines(const plan::Plan& plan, const calc::Batch& batch) {
  std::string text;
  for (const calc::StripAfter& after : batch.cutting.after) {
    std::vector<std::string> pieces;
    for (const calc::ShelfPiece& piece : after.pieces) {
      pieces.push_back(shelf_piece(piece));
    }
    std::string list = fmt::format("pieces = [{}]", fmt::join(pieces, ", "));
    if (terminal_width(list) > kTerminalColumns) {
      list = fmt::format("pieces = [\n  {},\n]", fmt::join(pieces, ",\n  "));
    }
    text +=
        fmt::format("[strips.{}]\n{}\n", records::toml_string(plan.strips[after.strip].name), list);
  }
  return text;
}

}  // namespace loopledger::terminal
