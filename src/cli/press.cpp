// SPDX-License-Identifier: MIT
#include "cli/press.h"

#include <charconv>
#include <cstdint>
#include <filesystem>

#include "cli/files.h"
#include "cli/plan_input.h"

namespace loopledger::cli {
namespace {

constexpr std::int64_t kYear10000 = 253402300800;  // seconds; a PDF's year has four digits

}  // namespace

Result<Press> set_up_press(const StockName& paper_name, const std::optional<StockName>& label_name,
                           const std::string& plan_path, Context& context) {
  Diagnostics problems;
  Press press;
  auto paper = load_stock(paper_name.name, plan_path, paper_name.place, context);
  append(problems, paper.diagnostics());
  if (paper) {
    press.paper = std::move(*paper);
    press.labels = press.paper;
  }
  if (label_name) {
    auto labels = load_stock(label_name->name, plan_path, label_name->place, context);
    append(problems, labels.diagnostics());
    if (labels) {
      press.labels = std::move(*labels);
    }
  }
  const std::string data = data_folder(context);
  if (data.empty()) {
    problems.push_back(error("disk-data", "can't find the folder with fonts and templates",
                             "set LOOPLEDGER_DATA to the folder that holds `fonts`"));
    return problems;
  }
  press.fonts = pdf::fonts_in((std::filesystem::path(data) / "fonts").string());
  auto metrics = pdf::load_metrics(press.fonts);
  append(problems, metrics.diagnostics());
  if (has_errors(problems)) {
    return problems;
  }
  press.metrics = std::move(*metrics);
  return {std::move(press), std::move(problems)};
}

std::optional<Moment> creation_date(const std::optional<Date>& date, const Context& context) {
  if (const auto epoch = context.env("SOURCE_DATE_EPOCH")) {
    Moment moment;
    const auto [end, code] =
        std::from_chars(epoch->data(), epoch->data() + epoch->size(), moment.seconds);
    if (code == std::errc{} && end == epoch->data() + epoch->size() && moment.seconds >= 0 &&
        moment.seconds < kYear10000) {
      return moment;
    }
  }
  return date ? std::optional(midnight_utc(*date)) : std::nullopt;
}

}  // namespace loopledger::cli
