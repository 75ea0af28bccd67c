// SPDX-License-Identifier: MIT
#include <algorithm>
#include <string>

#include "fuzz/claim.h"
#include "fuzz/targets.h"
#include "plan/read_label_layout.h"
#include "plan/read_printer_misses.h"
#include "plan/read_stock.h"

namespace loopledger::fuzz {
namespace {

const std::string kMineFile = "mine.toml";
constexpr Length kSlack = Length::mm(0.2);

void stock(std::string_view text) {
  const auto stock = plan::read_stock(text, kMineFile, "mine");
  claim_result(stock, text.size());
  if (!stock) {
    return;
  }
  claim_harmless(stock->text);
  claim(stock->paper_width > Length{} && stock->paper_width <= Length::m(2) &&
            stock->paper_height > Length{} && stock->paper_height <= Length::m(2),
        "paper out of its bounds");
  if (!stock->is_labels()) {
    return;
  }
  claim(stock->rows > 0 && stock->per_sheet() <= 200 * 200, "labels out of their bounds");
  claim(stock->label_width > Length{} && stock->label_height > Length{}, "labels without a size");
  claim(stock->left + stock->pitch_x * (stock->columns - 1) + stock->label_width <=
                stock->paper_width + kSlack &&
            stock->top + stock->pitch_y * (stock->rows - 1) + stock->label_height <=
                stock->paper_height + kSlack,
        "labels that leave their sheet");
  claim(stock->columns == 1 || stock->pitch_x >= stock->label_width - kSlack,
        "labels that lie on each other");
}

void parts(const std::vector<plan::LabelPart>& parts) {
  for (const plan::LabelPart& part : parts) {
    for (const plan::LabelPiece& piece : part) {
      claim_harmless(piece.text);
      claim(piece.kind != plan::LabelPiece::Kind::field ||
                std::ranges::find(plan::kLabelFields, piece.text) != plan::kLabelFields.end(),
            "a field that no label has", piece.text);
    }
  }
}

void layout(std::string_view text) {
  const auto layout = plan::read_label_layout(text, kMineFile, "mine");
  claim_result(layout, text.size());
  if (!layout) {
    return;
  }
  claim_harmless(layout->text);
  claim(layout->code_share >= Share{} && layout->code_share <= Share::ratio(1),
        "a code wider than its label");
  for (const plan::LabelLine& line : layout->lines) {
    claim_harmless(line.name);
    claim(line.least > Length{} && line.capitals > Length{} && line.capitals <= Length::m(1),
          "capitals out of their bounds", line.name);
    claim(line.wrap >= 1 && line.rank >= 1, "a line that is not drawn", line.name);
    parts(line.parts);
    parts(line.otherwise);
  }
}

void miss(const plan::PrinterMiss& miss) {
  const auto near = [](Length shift) {
    return shift >= Length::mm(-20) && shift <= Length::mm(20);
  };
  const auto bar = [](Length l) { return l >= Length::mm(90) && l <= Length::mm(110); };
  claim(near(miss.right) && near(miss.down) && bar(miss.bar_across) && bar(miss.bar_down),
        "a printer that misses by more than it may");
}

void printer(std::string_view text) {
  const auto printer = plan::read_printer_misses(text, kMineFile);
  claim_result(printer, text.size());
  if (printer) {
    miss(printer->usual);
    for (const auto& [name, own] : printer->by_stock) {
      miss(own);
      miss(printer->miss_on(name));
    }
  }
}

}  // namespace

void templates(std::string_view input) {
  stock(input);
  layout(input);
  printer(input);
}

}  // namespace loopledger::fuzz
