// SPDX-License-Identifier: MIT
#include "calc/strip_figures.h"

#include "calc/linear_density.h"

namespace loopledger::calc {

std::vector<StripFigures> strip_figures(const plan::Plan& plan) {
  std::vector<StripFigures> all;
  for (const plan::Strip& strip : plan.strips) {
    StripFigures figures;
    figures.density = linear_density(strip, plan.bench);
    for (const plan::Piece& piece : strip.pieces) {
      figures.piece_density.push_back(
          piece_density(piece, figures.density, strip.talc.value, plan.bench));
      figures.piece_length.push_back(piece_length(piece, figures.density, strip.talc.value));
    }
    all.push_back(std::move(figures));
  }
  return all;
}

}  // namespace loopledger::calc
