// SPDX-License-Identifier: MIT
#include "records/mend.h"

#include <fmt/format.h>

#include "base/text.h"
#include "records/lines.h"
#include "records/read.h"
#include "records/read_entry.h"
#include "records/write.h"

namespace loopledger::records {
namespace {

bool is_entry(const Line& line, const std::string& file) {
  return !says_nothing(line.text) && read_entry(line, file).ok();
}

/// The torn end moved away, or the missing last line end added.
void close_end(Mended& mended, const std::string& file) {
  const Layout layout = lay_out(mended.text);
  if (layout.lines.empty() || layout.lines.back().ended) {
    return;
  }
  const Line last = layout.lines.back();
  if (says_nothing(last.text) || is_entry(last, file)) {
    mended.done.push_back(fmt::format("added the missing line end of line {}", last.number));
    mended.text += '\n';
    return;
  }
  mended.done.push_back(fmt::format("moved the torn line {}, {} bytes, out of the record",
                                    last.number, last.text.size()));
  mended.moved += mended.text.substr(last.begin);
  mended.text.resize(last.begin);
}

/// The [entries] line put back behind the head; what stands in its place is moved away. Comments
/// come behind it, where a damaged one does no harm to the head.
void restore_header(Mended& mended, const std::string& file) {
  const Layout layout = lay_out(mended.text);
  if (layout.entries || !layout.sum) {
    return;
  }
  std::size_t i = layout.first_entry;
  std::string between;
  for (; i < layout.lines.size() && !is_entry(layout.lines[i], file); ++i) {
    const Line& line = layout.lines[i];
    (says_nothing(line.text) ? between : mended.moved) += std::string(line.text) + '\n';
  }
  const std::size_t head = layout.first_entry < layout.lines.size()
                               ? layout.lines[layout.first_entry].begin
                               : mended.text.size();
  const std::string rest =
      i < layout.lines.size() ? mended.text.substr(layout.lines[i].begin) : std::string();
  const bool blank = trimmed(between).empty();
  mended.text = fmt::format("{}{}{}\n{}{}", mended.text.substr(0, head),
                            blank && !between.empty() ? between : "\n", kEntriesHeader,
                            blank ? "" : between, rest);
  mended.done.emplace_back("put the line [entries] back");
}

/// A sum that is damaged so far that its line is not known for one: "sum = …" in any other form.
bool is_broken_sum(std::string_view line) {
  constexpr std::string_view kKey = "sum";
  line = trimmed(line);
  return line.starts_with(kKey) && trimmed(line.substr(kKey.size())).starts_with('=');
}

/// The sum of the head made right; @pre the head reads.
std::string with_head_sum(std::string_view text, const Layout& layout) {
  std::string head;
  bool planned = false;
  for (std::size_t i = 0; i < *layout.entries; ++i) {
    const std::string_view line = trimmed(layout.lines[i].text);
    planned = line.starts_with('[') ? line.starts_with("[planned]") : planned;
    if (i != layout.sum && !(planned && is_broken_sum(line))) {
      head += std::string(layout.lines[i].text) + '\n';
    }
  }
  while (head.ends_with("\n\n")) {
    head.pop_back();
  }
  return fmt::format("{}sum = \"{}\"\n\n{}", head, head_sum(head),
                     text.substr(layout.lines[*layout.entries].begin));
}

/// What a line says without its sum, wherever in the line that is, and without the closing brace;
/// empty when the line doesn't end in one.
std::string without_sum(std::string_view line, const EntryLine& parts) {
  line.remove_suffix(parts.comment.size());
  std::string body(line.substr(0, parts.body.size()));
  const std::string_view rest = line.substr(body.size());
  if (const std::size_t open = rest.find('"'); open != std::string_view::npos) {
    const std::size_t close = rest.find('"', open + 1);
    body += close == std::string_view::npos ? std::string_view() : rest.substr(close + 1);
  }
  body = trimmed(body);
  if (!body.ends_with('}')) {
    return {};
  }
  body.pop_back();
  while (body.ends_with(' ') || body.ends_with('\t') || body.ends_with(',')) {
    body.pop_back();
  }
  return body;
}

/// A hand-edited line with a right sum; empty when that can't be done to it.
std::string accepted_line(const Line& line, const Entry& entry, const std::string& file) {
  const EntryLine parts = take_apart(line.text);
  const std::string body = without_sum(line.text, parts);
  if (body.empty()) {
    return {};
  }
  std::string fresh = summed_line(body);
  if (!parts.comment.empty()) {
    fresh.insert(fresh.size() - 1, fmt::format("  {}", parts.comment));
  }
  Line again = line;
  again.text = std::string_view(fresh).substr(0, fresh.size() - 1);
  const auto read = read_entry(again, file);
  return read && !read->edited && read->key == entry.key && says_the_same(*read, entry)
             ? fresh
             : std::string();
}

/// Right sums on the lines that can be read; the others are named.
void accept_lines(Mended& mended, const std::string& file) {
  const Layout layout = lay_out(mended.text);
  std::string out = mended.text.substr(0, layout.first_entry < layout.lines.size()
                                              ? layout.lines[layout.first_entry].begin
                                              : mended.text.size());
  for (std::size_t i = layout.first_entry; i < layout.lines.size(); ++i) {
    const Line& line = layout.lines[i];
    const std::size_t end =
        i + 1 < layout.lines.size() ? layout.lines[i + 1].begin : mended.text.size();
    std::string kept = mended.text.substr(line.begin, end - line.begin);
    if (!says_nothing(line.text) && !is_sound(take_apart(line.text))) {
      const auto entry = read_entry(line, file);
      const bool readable = entry.ok() && entry.diagnostics().empty();
      const std::string fresh = readable ? accepted_line(line, *entry, file) : std::string();
      if (!fresh.empty()) {
        mended.done.push_back(
            fmt::format("accepted line {} as it stands: {}", line.number, printable(line.text)));
        kept = fresh;
      }
    }
    out += kept;
  }
  mended.text = std::move(out);
}

void accept_head(Mended& mended, const std::string& file) {
  const Layout layout = lay_out(mended.text);
  const auto record = read_record(mended.text, file);
  if (record && record->planned_edited && layout.entries) {
    std::string fresh = with_head_sum(mended.text, layout);
    if (read_record(fresh, file)) {
      mended.text = std::move(fresh);
      mended.done.emplace_back("accepted the figures as planned as they stand");
    }
  }
}

}  // namespace

Mended mend_text(std::string_view text, const std::string& file, bool accept) {
  Mended mended;
  mended.text = std::string(text);
  const auto before = read_record(text, file);
  if (!before) {
    const std::string code = before.diagnostics().front().code;
    if (code == "record-torn" || code == "record-empty") {
      mended.whole_moved = true;
      mended.moved = std::move(mended.text);
      mended.text.clear();
      mended.done.emplace_back("moved the whole record: it was torn before its entries began");
    } else {
      mended.left = before.diagnostics();
    }
    return mended;
  }
  close_end(mended, file);
  restore_header(mended, file);
  if (accept) {
    accept_head(mended, file);
    accept_lines(mended, file);
  }
  mended.left = read_record(mended.text, file).diagnostics();
  return mended;
}

}  // namespace loopledger::records
