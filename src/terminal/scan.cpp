// SPDX-License-Identifier: MIT
//
// `scan IMAGE...` in words, a picture as soon as it is read.
#include "commands/scan.h"

#include <fmt/format.h>

#include <memory>
#include <optional>
#include <ostream>

#include "base/text.h"
#include "json/scan_json.h"
#include "tag/id.h"
#include "terminal/command.h"
#include "terminal/command_line.h"
#include "terminal/day_options.h"
#include "terminal/record_view.h"

namespace loopledger::terminal {
namespace {

struct ScanOptions {
  commands::ScanRequest request;
  std::optional<Units> units;
  bool all = false;
  bool json = false;
};

/// What the label itself says, for a motor that the ledger can't show; empty: its id only.
std::string label_words(const tag::TagFigures& f, Units units) {
  std::vector<std::string> parts;
  if (f.state) {
    parts.emplace_back(*f.state == tag::TagState::made ? "broken in" : "not broken in yet");
  }
  if (f.turns) {
    parts.push_back(fmt::format("{} turns", fixed(f.turns->count(), 0)));
  }
  if (f.torque) {
    parts.push_back(shown(*f.torque, units));
  }
  if (f.mass) {
    parts.push_back("washed " + shown(*f.mass, Mass::mg(1)));
  }
  if (f.loop) {
    parts.push_back("loop " + shown(*f.loop, units));
  }
  if (f.date) {
    parts.push_back("dated " + iso(*f.date));
  }
  std::string text;
  for (const std::string& part : parts) {
    text += (text.empty() ? "" : ", ") + part;
  }
  return text;
}

std::string tag_text(const commands::ScannedTag& looked, const RecordView& view, bool brief) {
  if (looked.found()) {
    return brief ? record_summary(*looked.record, view) : record_text(*looked.record, view);
  }
  const char* why = looked.record  ? "a motor of another ledger"
                    : looked.known ? "its record can't be read"
                                   : "not in this ledger";
  const tag::TagFigures& figures = looked.tag.figures;
  const std::string says = label_words(figures, view.units);
  return fmt::format("{}: {}.{}{}\n", tag::with_check(figures.id), why,
                     says.empty() ? "" : " The label says: ", says);
}

/// What has been shown so far.
struct Shown {
  bool whole = false;  ///< whole records, which blank lines keep apart
  bool brief = false;
};

void show_image(const commands::ScannedImage& image, const commands::ScanAnswer& answer,
                const ScanOptions& options, Shown& shown, Context& context) {
  const std::size_t labels = image.tags.size();
  if (answer.asked_for > 1) {
    context.out << fmt::format("{}: {} label{}\n", printable(image.file), labels,
                               labels == 1 ? "" : "s");
  }
  const RecordView view{options.units.value_or(Units::metric), *answer.today, options.all};
  const bool brief = !options.all && (answer.asked_for > 1 || labels > 1);
  for (const commands::ScannedTag& one : image.tags) {
    context.out << (shown.whole && !brief ? "\n" : "") << tag_text(one, view, brief);
    shown.whole = shown.whole || !brief;
    shown.brief = shown.brief || (brief && one.found());
  }
}

void run_scan(const ScanOptions& options, Context& context) {
  Shown shown;
  commands::Scanned show;
  if (!options.json) {
    show = [&](const commands::ScannedImage& image, const commands::ScanAnswer& so_far) {
      show_image(image, so_far, options, shown, context);
    };
  }
  const commands::ScanAnswer answer = commands::scan(options.request, context.world, show);
  if (options.json) {
    context.out << json::to_json(answer).text();
  } else if (shown.brief) {
    context.out << "--all shows the whole records\n";
  }
  report(context, answer.said);
  context.exit_code = answer.exit_code;
}

}  // namespace

void add_scan(CommandLine& line, Context& context) {
  auto options = std::make_shared<ScanOptions>();
  Command command =
      line.add("scan", "Read bag labels from photos, or typed tags, and show the records");
  command.needed("IMAGE", options->request.images,
                 "PNG or JPEG files, folders of them, or - for standard input: an image, or typed "
                 "tags, one a line");
  add_today(command, options->request.today)
      .flag("--all", options->all, "Whole records of several labels, with all entries")
      .records(options->request.records)
      .units(options->units)
      .json(options->json, "What was read")
      .action([options, &context] { run_scan(*options, context); });
}

}  // namespace loopledger::terminal
