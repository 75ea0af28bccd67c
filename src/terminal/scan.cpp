// SPDX-License-Identifier: MIT
//
// `scan IMAGE...`: pictures of bag labels, or typed tags -> the records of the motors, with what
// each label says where the ledger does not know it.
#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <optional>
#include <ostream>
#include <utility>

#include "base/text.h"
#include "commands/exit_code.h"
#include "commands/find_record.h"
#include "commands/today.h"
#include "json/json.h"
#include "json/record_json.h"
#include "motor/motor_label.h"
#include "motor/tag_fits.h"
#include "posix/files.h"
#include "posix/posix_disk.h"
#include "records/ledger.h"
#include "tag/id.h"
#include "terminal/command.h"
#include "terminal/command_line.h"
#include "terminal/day_options.h"
#include "terminal/record_view.h"
#include "terminal/scan_input.h"

namespace loopledger::terminal {
namespace {

struct ScanOptions {
  std::vector<std::string> images;
  std::string records;
  std::optional<Units> units;
  commands::TodayRequest today;
  bool all = false;
  bool json = false;
};

/// A tag beside what the ledger holds of its id.
struct Looked {
  const ReadTag* tag = nullptr;
  bool known = false;
  std::optional<records::Record> record;
  std::vector<std::string_view> misfits;  ///< not empty: a motor of another ledger
  bool stale = false;                     ///< the label is out of date
};

std::string either_and(const std::vector<std::string_view>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    text += i == 0 ? "" : i + 1 == words.size() ? " and " : ", ";
    text += words[i];
  }
  return text;
}

Diagnostic other_ledger(const Looked& looked, const std::string& file) {
  const std::string id = tag::with_check(looked.tag->figures.id);
  return warning(
      "scan-other-ledger",
      fmt::format("the label of {} is from another ledger: its {} {} not the motor's "
                  "that this one holds",
                  id, either_and(looked.misfits), looked.misfits.size() == 1 ? "is" : "are"),
      "--records names the ledger to look in; loopledger show " + printed(looked.tag->figures.id) +
          " shows this one's motor",
      {file, 0, 0});
}

Diagnostic out_of_date(const Looked& looked, const std::string& file) {
  const std::string id = printed(looked.tag->figures.id);
  return warning("scan-stale",
                 fmt::format("the label of {} is out of date: it says \"{}\", now \"{}\"", id,
                             tag::tag_texts(looked.tag->figures).front(),
                             motor::label_tag(*looked.record, motor::now_of(*looked.record))),
                 fmt::format("`loopledger label {}` prints a new one", id), {file, 0, 0});
}

Looked look_up(const ReadTag& tag, const std::string& file, records::Ledger& ledger,
               Diagnostics& said) {
  Looked looked;
  looked.tag = &tag;
  auto record = ledger.read(tag.figures.id);
  for (Diagnostic problem : record.diagnostics()) {
    looked.known = looked.known || problem.code != "none-record";
    if (problem.code == "none-record") {
      problem = note("scan-unknown", "the ledger holds no motor " + tag::with_check(tag.figures.id),
                     "--records names the ledger to look in", {file, 0, 0});
    }
    said.push_back(std::move(problem));
  }
  if (record) {
    looked.known = true;
    looked.misfits = motor::tag_misfits(tag.figures, *record);
    looked.record = std::move(*record);
    if (!looked.misfits.empty()) {
      said.push_back(other_ledger(looked, file));
    } else if (motor::tag_is_stale(tag.figures, *looked.record, motor::now_of(*looked.record))) {
      looked.stale = true;
      said.push_back(out_of_date(looked, file));
    }
  }
  return looked;
}

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

void show(const Looked& looked, const RecordView& view, bool brief, Context& context) {
  const tag::TagFigures& figures = looked.tag->figures;
  if (looked.record && looked.misfits.empty()) {
    context.out << (brief ? record_summary(*looked.record, view)
                          : record_text(*looked.record, view));
    return;
  }
  const char* why = looked.record  ? "a motor of another ledger"
                    : looked.known ? "its record can't be read"
                                   : "not in this ledger";
  const std::string says = label_words(figures, view.units);
  context.out << tag::with_check(figures.id) << ": " << why << '.'
              << (says.empty() ? "" : " The label says: ") << says << '\n';
}

json::Json tag_json(const Looked& looked, const motor::Today& today) {
  const MotorId& id = looked.tag->figures.id;
  json::Json object = json::Json::object();
  object.set("text", looked.tag->text);
  object.set("id", printed(id));
  object.set("check_char", std::string(1, tag::check_character(id)));
  object.set("known", looked.known);
  object.set("label_stale", looked.stale);
  json::Json misfits = json::Json::array();
  for (const std::string_view word : looked.misfits) {
    misfits.push(word);
  }
  object.set("record", looked.record
                           ? json::record_json(*looked.record, today, {}).drop("diagnostics")
                           : json::Json());
  object.set("misfits", std::move(misfits));
  return object;
}

json::Json image_json(const std::string& file, const std::vector<Looked>& looked,
                      const motor::Today& today) {
  json::Json tags = json::Json::array();
  for (const Looked& one : looked) {
    tags.push(tag_json(one, today));
  }
  json::Json image = json::Json::object();
  image.set("file", file);
  image.set("tags", std::move(tags));
  return image;
}

/// What has been shown so far.
struct Shown {
  bool any = false;
  bool whole = false;  ///< whole records, which blank lines keep apart
  bool brief = false;
};

void show_image(const std::vector<Looked>& looked, const RecordView& view, bool brief, Shown& shown,
                Context& context) {
  for (const Looked& one : looked) {
    context.out << (shown.whole && !brief ? "\n" : "");
    show(one, view, brief, context);
    shown.whole = shown.whole || !brief;
    shown.brief = shown.brief || (brief && one.record && one.misfits.empty());
  }
}

/// 0 once a tag was read, whatever else was wrong; else by the first error.
int exit_code_of(bool any_tag, int reported) { return any_tag ? commands::kDone : reported; }

void run_scan(const ScanOptions& options, Context& context) {
  records::Disk& disk = context.world.disk;
  records::Ledger ledger(disk, commands::records_folder(options.records, "", context.world));
  const Units units = options.units.value_or(Units::metric);
  const auto today = commands::today_from(options.today, context.world);
  if (!today) {
    context.exit_code = report_alone(context, today.diagnostics(), options.json);
    return;
  }
  Diagnostics said;
  json::Json images = json::Json::array();
  Shown shown;
  const std::vector<std::string> files = image_files(options.images, said);
  const auto progress = context.world.watched("reading pictures", files.size());
  for (const std::string& file : files) {
    const ReadImage read = read_tags(file, context);
    progress->step();
    append(said, read.said);
    if (!options.json) {
      progress->hide();
    }
    if (files.size() > 1 && !options.json) {
      context.out << fmt::format("{}: {} label{}\n", printable(file), read.tags.size(),
                                 read.tags.size() == 1 ? "" : "s");
    }
    std::vector<Looked> looked;
    for (const ReadTag& tag : read.tags) {
      looked.push_back(look_up(tag, file == "-" ? commands::kStandardInput : file, ledger, said));
    }
    shown.any = shown.any || !looked.empty();
    if (options.json) {
      images.push(image_json(file, looked, *today));
    } else {
      const bool brief = !options.all && (files.size() > 1 || looked.size() > 1);
      show_image(looked, {units, *today, options.all}, brief, shown, context);
    }
  }
  progress->hide();
  if (options.json) {
    json::Json all = json::Json::object();
    all.set("format", 1);
    all.set("images", std::move(images));
    all.set("diagnostics", json::to_json(said));
    context.out << all.text();
  } else if (shown.brief) {
    context.out << "--all shows the whole records\n";
  }
  context.exit_code = exit_code_of(shown.any, report(context, said));
}

}  // namespace

void add_scan(CommandLine& line, Context& context) {
  auto options = std::make_shared<ScanOptions>();
  Command command =
      line.add("scan", "Read bag labels from photos, or typed tags, and show the records");
  command.needed("IMAGE", options->images,
                 "PNG or JPEG files, folders of them, or - for standard input: an image, or typed "
                 "tags, one a line");
  add_today(command, options->today)
      .flag("--all", options->all, "Whole records of several labels, with all entries")
      .records(options->records)
      .units(options->units)
      .json(options->json, "What was read")
      .action([options, &context] { run_scan(*options, context); });
}

}  // namespace loopledger::terminal
