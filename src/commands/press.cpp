// SPDX-License-Identifier: MIT
#include "commands/press.h"

#include <fmt/format.h>

#include <charconv>
#include <cstdint>

#include "base/text.h"
#include "commands/plan_input.h"
#include "page/printer_fit.h"
#include "plan/read_printer.h"

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

Result<plan::Printer> load_printer(const PrinterFile& file, World& world) {
  const std::string& path = file.path;
  if (path.empty() || (!file.asked && !world.files.is_there(path))) {
    return plan::Printer{};
  }
  auto text = world.files.read(path, kMaxTextFile);
  if (!text) {
    return text.diagnostics();
  }
  // An empty file says nothing, which is no fault.
  return text->find_first_not_of(" \t\r\n") == std::string::npos ? plan::Printer{}
                                                                 : plan::read_printer(*text, path);
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
Diagnostics load_layouts(const PressOrder& order, plan::LabelLayouts& to, World& world) {
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

PressOrder order_of(const std::string& paper, const std::string& labels,
                    const std::string& layout) {
  PressOrder order;
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

Result<Press> set_up_press(const PressOrder& order, World& world) {
  Diagnostics problems;
  Press press;
  take_loaded(load_stock(order.paper.name, order.beside, order.paper.place, world), press.paper,
              problems);
  press.labels = press.paper;
  if (order.labels) {
    take_loaded(load_stock(order.labels->name, order.beside, order.labels->place, world),
                press.labels, problems);
  }
  append(problems, load_layouts(order, press.layouts, world));
  const PrinterFile printer = printer_file(world);
  press.printer_file = printer.path;
  take_loaded(load_printer(printer, world), press.printer, problems);
  take_loaded(source_date(world), press.epoch, problems);
  auto fonts = load_fonts(world);
  if (!fonts) {
    problems.push_back(
        error("disk-data", fmt::format("no fonts are in {}", world.templates.places_asked()),
              "set LOOPLEDGER_DATA to the folder that holds `fonts` and `templates`"));
    return problems;
  }
  press.fonts = std::move(*fonts);
  auto metrics = pdf::load_metrics(press.fonts);
  append(problems, metrics.diagnostics());
  if (has_errors(problems)) {
    return problems;
  }
  press.metrics = std::move(*metrics);
  return {std::move(press), std::move(problems)};
}

Diagnostics fit_to_printer(page::Document& document, const plan::Stock& stock, const Press& press,
                           const std::string& file) {
  document.fit = page::printer_fit(press.printer.miss_on(stock.name), stock.dpi);
  const std::string change = page::described(document.fit);
  if (change.empty()) {
    return {};
  }
  return {
      note("printer-fit", fmt::format("{} is {}, as {} says", file, change, press.printer_file))};
}

std::optional<Moment> creation_date(const std::optional<Date>& date, const Press& press) {
  if (press.epoch) {
    return press.epoch;
  }
  return date ? std::optional(midnight_utc(*date)) : std::nullopt;
}

}  // namespace loopledger::commands
