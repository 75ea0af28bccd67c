// SPDX-License-Identifier: MIT
//
// A plan with its figures for tests of what is printed: an invented evening in an invented harbour
// town, with names that stretch fonts and columns. The figures hang together roughly; they are made
// here by hand so that these tests do not depend on the calculator.
#pragma once

#include <string>
#include <vector>

#include "calc/figures.h"
#include "plan/label_layout.h"
#include "plan/plan.h"
#include "plan/stock.h"

namespace loopledger::test {

struct InventedBatch {
  plan::Plan plan;
  calc::Batch batch;
};

/// `motors` motors of five owners, all to the same limit.
[[nodiscard]] InventedBatch invented_batch(int motors);

/// A sheet of templates/stock by its name.
[[nodiscard]] plan::Stock stock(const std::string& name);
/// All label sheets of templates/stock, and the plain papers.
[[nodiscard]] std::vector<plan::Stock> label_stocks();

/// A layout of templates/layouts by its name, and all that a run needs.
[[nodiscard]] plan::LabelLayout layout(const std::string& name);
[[nodiscard]] plan::LabelLayouts layouts();

}  // namespace loopledger::test
