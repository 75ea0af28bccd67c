// SPDX-License-Identifier: MIT
#include "commands/scan.h"

#include <fmt/format.h>

#include "commands/exit_code.h"
#include "commands/find_record.h"
#include "commands/outcome.h"
#include "motor/motor_label.h"
#include "motor/tag_fits.h"
#include "records/ledger.h"
#include "tag/id.h"

namespace loopledger::commands {
namespace {

std::string either_and(const std::vector<std::string_view>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    text += i == 0 ? "" : i + 1 == words.size() ? " and " : ", ";
    text += words[i];
  }
  return text;
}

Diagnostic other_ledger(const ScannedTag& looked, const std::string& file) {
  const std::string id = tag::with_check(looked.tag.figures.id);
  return warning(
      "scan-other-ledger",
      fmt::format("the label of {} is from another ledger: its {} {} not the motor's "
                  "that this one holds",
                  id, either_and(looked.misfits), looked.misfits.size() == 1 ? "is" : "are"),
      "--records names the ledger to look in; loopledger show " + printed(looked.tag.figures.id) +
          " shows this one's motor",
      {file, 0, 0});
}

Diagnostic out_of_date(const ScannedTag& looked, const std::string& file) {
  const std::string id = printed(looked.tag.figures.id);
  return warning("scan-stale",
                 fmt::format("the label of {} is out of date: it says \"{}\", now \"{}\"", id,
                             tag::tag_texts(looked.tag.figures).front(),
                             motor::label_tag(*looked.record, motor::now_of(*looked.record))),
                 fmt::format("`loopledger label {}` prints a new one", id), {file, 0, 0});
}

ScannedTag look_up(ReadTag tag, const std::string& file, records::Ledger& ledger,
                   Diagnostics& said) {
  ScannedTag looked;
  looked.tag = std::move(tag);
  const tag::TagFigures& figures = looked.tag.figures;
  auto record = ledger.read(figures.id);
  for (Diagnostic problem : record.diagnostics()) {
    looked.known = looked.known || problem.code != "none-record";
    if (problem.code == "none-record") {
      problem = note("scan-unknown", "the ledger holds no motor " + tag::with_check(figures.id),
                     "--records names the ledger to look in", {file, 0, 0});
    }
    said.push_back(std::move(problem));
  }
  if (record) {
    looked.known = true;
    looked.misfits = motor::tag_misfits(figures, *record);
    looked.record = std::move(*record);
    if (!looked.misfits.empty()) {
      said.push_back(other_ledger(looked, file));
    } else if (motor::tag_is_stale(figures, *looked.record, motor::now_of(*looked.record))) {
      looked.stale = true;
      said.push_back(out_of_date(looked, file));
    }
  }
  return looked;
}

ScannedImage scanned(const std::string& file, records::Ledger& ledger, World& world,
                     Diagnostics& said) {
  ReadImage read = read_tags(file, world.files);
  append(said, read.said);
  ScannedImage image{file, {}};
  for (ReadTag& tag : read.tags) {
    image.tags.push_back(
        look_up(std::move(tag), file == "-" ? kStandardInput : file, ledger, said));
  }
  return image;
}

}  // namespace

ScanAnswer scan(const ScanRequest& request, World& world, const Scanned& seen) {
  ScanAnswer answer;
  const auto today = today_from(request.today, world);
  if (!today) {
    answer.said = today.diagnostics();
    answer.exit_code = exit_code_of(answer.said);
    return answer;
  }
  answer.today = *today;
  records::Ledger ledger(world.disk, records_folder(request.records, {}, world));
  const std::vector<std::string> files = image_files(request.images, world.files, answer.said);
  answer.asked_for = files.size();
  const auto progress = world.watched("reading pictures", files.size());
  bool any_tag = false;
  for (const std::string& file : files) {
    answer.images.push_back(scanned(file, ledger, world, answer.said));
    any_tag = any_tag || !answer.images.back().tags.empty();
    progress->step();
    if (seen) {
      progress->hide();
      seen(answer.images.back(), answer);
    }
  }
  answer.exit_code = any_tag ? kDone : exit_code_of(answer.said);
  return answer;
}

}  // namespace loopledger::commands
