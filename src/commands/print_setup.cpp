// SPDX-License-Identifier: MIT
#include "commands/print_setup.h"

#include <fmt/format.h>

#include <charconv>
#include <cstdint>

#include "base/text.h"
#include "commands/plan_input.h"
#include "plan/read_printer_misses.h"

namespace loopledger::commands {
namespace {

constexpr std::int64_t kYear10000 = 253402300800;  // seconds; a PDF's year has four digits

struct PrinterFile {
  std::string path;    ///< empty: none can be told
  bool asked = false;  ///< named by the user: it must be there
};

/// LOOPLEDGER_PRINTER, else the user's own.
PrinterFile printer_file(World& world) {
  if (auto named = world.env("LOOPLEDGER_PRINTER"); named && !named->empty()) {
    return {*named, true};
  }
  return {world.templates.printer_file()};
}

Result<plan::PrinterMisses> load_misses(const PrinterFile& file, World& world) {
  const std::string& path = file.path;
  if (path.empty() || (!file.asked && !world.files.is_there(path))) {
    return plan::PrinterMisses{};
  }
  auto text = world.files.read(path, kMaxTextFile);
  if (!text) {
    return text.diagnostics();
  }
  // An empty file says nothing, which is no fault.
  return text->find_first_not_of(" \t\r\n") == std::string::npos
             ? plan::PrinterMisses{}
             : plan::read_printer_misses(*text, path);
}

/// SOURCE_DATE_EPOCH when it is a moment before the year 10000; unset and empty are the same.
Result<std::optional<Moment>> source_date(World& world) {
  const std::string epoch = world.env("SOURCE_DATE_EPOCH").value_or("");
  Moment moment;
  const char* const end = epoch.data() + epoch.size();
  const auto [to, code] = std::from_chars(epoch.data(), end, moment.seconds);
  if (code == std::errc{} && to == end && moment.seconds >= 0 && moment.seconds < kYear10000) {
    return std::optional(moment);
  }
  Diagnostics said;
  if (!epoch.empty()) {
    said.push_back(warning("source-date",
                           fmt::format("SOURCE_DATE_EPOCH: expected seconds since 1970, before the "
                                       "year 10000, found \"{}\"; the PDF bears the plan's date",
                                       shortened(epoch, 40)),
                           "SOURCE_DATE_EPOCH=$(date +%s), or unset it", {"loopledger", 0, 0}));
  }
  return {std::optional<Moment>(), std::move(said)};
}

/// Takes the value or the faults.
template <class T>
void take_loaded(Result<T> loaded, T& to, Diagnostics& problems) {
  append(problems, loaded.diagnostics());
  if (loaded) {
    to = std::move(*loaded);
  }
}

/// One layout named for all labels is loaded, and its faults are told, once.
Diagnostics load_layouts(const PrintOrder& order, plan::LabelLayouts& to, World& world) {
  Diagnostics problems;
  const auto load = [&](const TemplateName& named, plan::LabelLayout& layout) {
    take_loaded(load_layout(named.name, order.beside, named.place, world), layout, problems);
  };
  load(order.slip, to.slip);
  if (order.bag.name == order.slip.name && order.remnant.name == order.slip.name) {
    to.bag = to.remnant = to.slip;
    return problems;
  }
  load(order.bag, to.bag);
  load(order.remnant, to.remnant);
  return problems;
}

/// Nothing: there are none.
std::optional<pdf::Fonts> load_fonts(World& world) {
  bool all = true;
  pdf::Fonts fonts = pdf::own_fonts([&](const std::string& file) {
    auto found = world.templates.font(file);
    all = all && found;
    pdf::FontFile font;
    if (found) {
      font.name = std::move(found->file);
      font.bytes = std::make_shared<const std::string>(std::move(found->text));
    }
    return font;
  });
  return all ? std::optional(std::move(fonts)) : std::nullopt;
}

}  // namespace

PrintOrder order_of(const std::string& paper, const std::string& labels,
                    const std::string& layout) {
  PrintOrder order;
  if (!paper.empty()) {
    order.paper = {paper, {}};
  }
  if (!labels.empty()) {
    order.labels = TemplateName{labels, {}};
  }
  if (!layout.empty()) {
    order.slip = order.bag = order.remnant = {layout, {}};
  }
  return order;
}

PrintOrder order_of(const plan::Plan& plan, const std::string& paper, const std::string& labels,
                    const std::string& layout) {
  PrintOrder order = order_of(paper, labels, layout);
  order.beside = plan.file;
  if (paper.empty()) {
    order.paper = {plan.paper.value, plan.paper.place};
  }
  if (labels.empty() && plan.labels.given) {
    order.labels = TemplateName{plan.labels.value, plan.labels.place};
  }
  if (layout.empty()) {
    order.slip = {plan.slip.value, plan.slip.place};
  }
  return order;
}

Result<PrintSetup> set_up_printing(const PrintOrder& order, World& world) {
  Diagnostics problems;
  PrintSetup setup;
  take_loaded(load_stock(order.paper.name, order.beside, order.paper.place, world), setup.paper,
              problems);
  setup.labels = setup.paper;
  if (order.labels) {
    take_loaded(load_stock(order.labels->name, order.beside, order.labels->place, world),
                setup.labels, problems);
  }
  append(problems, load_layouts(order, setup.layouts, world));
  const PrinterFile printer = printer_file(world);
  setup.printer_file = printer.path;
  take_loaded(load_misses(printer, world), setup.misses, problems);
  take_loaded(source_date(world), setup.epoch, problems);
  auto fonts = load_fonts(world);
  if (!fonts) {
    problems.push_back(
        error("disk-data", fmt::format("no fonts are in {}", world.templates.places_asked()),
              "set LOOPLEDGER_DATA to the folder that holds `fonts` and `templates`"));
    return problems;
  }
  setup.fonts = std::move(*fonts);
  auto metrics = pdf::load_metrics(setup.fonts);
  append(problems, metrics.diagnostics());
  if (has_errors(problems)) {
    return problems;
  }
  setup.metrics = std::move(*metrics);
  return {std::move(setup), std::move(problems)};
}

std::optional<Moment> creation_date(const std::optional<Date>& date, const PrintSetup& setup) {
  if (setup.epoch) {
    return setup.epoch;
  }
  return date ? std::optional(midnight_utc(*date)) : std::nullopt;
}

}  // namespace loopledger::commands
