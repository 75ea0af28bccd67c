// SPDX-License-Identifier: MIT
//
// What a record still says after damage: truncated at every byte, every byte flipped. The rule:
// what reads as sound is exactly what was written, and what is lost is reported.
#include <doctest/doctest.h>

#include <algorithm>
#include <map>

#include "records/format.h"
#include "records/lines.h"
#include "records/mend.h"
#include "records/read.h"
#include "records/write.h"
#include "records/write_planned.h"
#include "samples.h"

using namespace loopledger;
using namespace loopledger::records;
using namespace loopledger::test;

namespace {

const std::string kFile = "records/TH-01.toml";

/// The sound lines that a record was written with, by key.
std::map<std::string, std::string> written_lines() {
  std::map<std::string, std::string> lines;
  for (const Entry& e : one_of_each()) {
    lines[e.key] = *entry_line(e);
  }
  return lines;
}

bool has_code(const Diagnostics& diagnostics, std::string_view code) {
  for (const Diagnostic& d : diagnostics) {
    if (d.code == code) {
      return true;
    }
  }
  return false;
}

}  // namespace

TEST_CASE("keys of very many parts are refused, not walked") {
  std::string key = "a";
  for (int i = 0; i < 300000; ++i) {
    key += ".a";
  }
  const auto record = read_record(key + " = 1\nformat = 1\n", "TH-01.toml");
  REQUIRE_FALSE(record.ok());
  CHECK(record.diagnostics().front().code == "record-size");
  const std::string line = key.substr(0, 30000) + "a = { kind = \"note\", text = \"x\" }\n";
  const auto read = read_record(sample_text() + line, "TH-01.toml");
  REQUIRE(read.ok());
  CHECK(read->entries.size() == read_record(sample_text(), "TH-01.toml")->entries.size());
  CHECK(read.diagnostics().front().code == "record-line");
}

TEST_CASE("a record cut off at any byte keeps every whole entry, and says that it is torn") {
  const std::string whole = sample_text();
  const auto lines = written_lines();
  const std::size_t head = whole.find("[entries]\n") + 10;
  for (std::size_t length = 0; length < whole.size(); ++length) {
    CAPTURE(length);
    const std::string text = whole.substr(0, length);
    const auto record = read_record(text, kFile);
    if (!record) {
      REQUIRE(length < head);
      const std::string code = record.diagnostics().front().code;
      REQUIRE((code == "record-torn" || code == "record-empty"));
      continue;
    }
    REQUIRE_FALSE(record->planned_edited);
    REQUIRE(planned_lines(record->planned) == planned_lines(full_planned()));
    // Every line that is there whole, with or without its line end, is there.
    std::size_t expected = 0;
    for (const auto& [key, line] : lines) {
      const std::size_t at = whole.find(line);
      expected += at + line.size() - 1 <= length ? 1U : 0U;
    }
    REQUIRE(record->entries.size() == expected);
    for (const Entry& e : record->entries) {
      REQUIRE_FALSE(e.edited);
      REQUIRE(*entry_line(e) == lines.at(e.key));
    }
    const bool clean = length >= head && text.ends_with('\n');
    REQUIRE(record->torn != clean);
    REQUIRE(record.diagnostics().empty() == clean);
  }
}

TEST_CASE("a record cut off at any byte can be mended, and nothing is thrown away") {
  const std::string whole = sample_text();
  const std::size_t head = whole.find("sum = ");
  for (std::size_t length = 0; length < whole.size(); ++length) {
    CAPTURE(length);
    const std::string text = whole.substr(0, length);
    const auto before = read_record(text, kFile);
    const Mended mended = mend_text(text, kFile, false);
    if (mended.whole_moved) {
      REQUIRE(length < head + std::string("sum = \"00000000\"\n").size());
      REQUIRE(mended.moved == text);
      continue;
    }
    REQUIRE(mended.left.empty());
    const auto after = read_record(mended.text, kFile);
    REQUIRE(after);
    REQUIRE_FALSE(after->torn);
    REQUIRE(after->entries.size() == before->entries.size());
    REQUIRE(mended.text.starts_with(text.substr(0, text.rfind('\n') + 1)));
    REQUIRE((mended.moved.empty() || text.ends_with(mended.moved)));
    if (mended.done.empty()) {
      REQUIRE(mended.text == text);
    }
  }
}

namespace {

/// Empty when all that reads as sound in `text` is what was written, and damage is reported.
std::string wrongly_sound(const std::string& text, bool in_head) {
  static const auto kLines = written_lines();
  static const std::string kPlanned = planned_lines(full_planned());
  const auto record = read_record(text, kFile);
  if (!record) {
    return {};
  }
  if (!record->planned_edited && in_head && planned_lines(record->planned) != kPlanned) {
    return "planned figures";
  }
  const auto lines = lines_of(text);
  std::size_t sound = 0;
  for (const Entry& e : record->entries) {
    if (!e.edited) {
      ++sound;
      const auto at = kLines.find(e.key);
      const auto& line = lines[static_cast<std::size_t>(e.line) - 1];
      if (at == kLines.end() || !at->second.starts_with(line.text)) {
        return e.key;
      }
    }
  }
  const bool all = sound == kLines.size() && !record->planned_edited;
  return !all && record.diagnostics().empty() ? "loss without a word" : std::string();
}

}  // namespace

TEST_CASE("whatever byte is changed, nothing reads as sound that is not what was written") {
  const std::string whole = sample_text();
  const std::size_t head = whole.find("[entries]\n");
  for (std::size_t at = 0; at < whole.size(); ++at) {
    // One bit, in turn, and the characters that mean most in a record, at line ends and quotes
    // both.
    const auto bit = static_cast<char>(static_cast<unsigned char>(whole[at]) ^ (1U << at % 8));
    const bool telling = whole[at] == '\n' || whole[at] == '"' || at % 2 == 0;
    for (const char other : {bit, telling ? '#' : '\n'}) {
      std::string text = whole;
      text[at] = other;
      if (const std::string wrong = wrongly_sound(text, at < head); !wrong.empty()) {
        FAIL("byte " << at << " as " << static_cast<int>(other) << ": " << wrong);
      }
    }
  }
}

TEST_CASE("no single bit that is flipped in an entry goes unseen") {
  const std::string line = *entry_line(one_of_each()[4]);
  for (std::size_t at = 0; at + 1 < line.size(); ++at) {
    for (unsigned bit = 0; bit < 8; ++bit) {
      std::string text = line.substr(0, line.size() - 1);
      text[at] = static_cast<char>(static_cast<unsigned char>(text[at]) ^ (1U << bit));
      CHECK_FALSE(is_sound(take_apart(text)));
    }
  }
}

TEST_CASE("a torn end is reported with its place, and the rest reads") {
  std::string text = new_record_text({{"TH", 1}, 'T', small_planned()});
  const int lines = static_cast<int>(std::count(text.begin(), text.end(), '\n'));
  text += *entry_line(entry_of("20260501T100000Z-b7k2", Kind::note, {{"text", "a"}}));
  text += R"("20260501T100100Z-b7k3" = { kind = "wou)";
  const auto record = read_record(text, kFile);
  REQUIRE(record);
  CHECK(record->torn);
  CHECK(record->entries.size() == 1);
  const std::string at = std::to_string(lines + 2);
  CHECK(render(record.diagnostics()) ==
        "records/TH-01.toml:" + at +
            ":1: warning: the record ends in a torn line of 39 bytes; all before it is whole "
            "[record-torn]\n   " +
            at +
            " | \"20260501T100100Z-b7k3\" = { kind = \"wou\n"
            "      | ^\n"
            "  hint: `loopledger mend` moves the torn part into a file beside it\n");
}

TEST_CASE("one bad line does not hide the others") {
  std::string text = new_record_text({{"TH", 1}, 'T', small_planned()});
  text += *entry_line(entry_of("20260501T100000Z-b7k2", Kind::note, {{"text", "a"}}));
  text += "turns were great today\n";
  text += "\"20260501T100100Z-b7k3\" = { kind = \"flown\", time = \"7 min\" }\n";
  text += *entry_line(entry_of("20260501T100200Z-b7k4", Kind::note, {{"text", "b"}}));
  const auto record = read_record(text, kFile);
  REQUIRE(record);
  REQUIRE(record->entries.size() == 3);
  CHECK_FALSE(record->torn);
  CHECK_FALSE(record->entries[0].edited);
  CHECK(record->entries[1].edited);
  CHECK_FALSE(record->entries[2].edited);
  CHECK(record.diagnostics().size() == 2);
  CHECK(record.diagnostics()[0].code == "record-line");
  CHECK(record.diagnostics()[1].code == "record-edited");
  REQUIRE(record->lost.size() == 1);
  CHECK(record->lost[0] + 1 == record->entries[1].line);
}

TEST_CASE("an entry whose quote became a # is lost; one that somebody commented out is not") {
  const std::string line = *entry_line(entry_of("20260501T100000Z-b7k2", Kind::broke, {}));
  const std::string head = new_record_text({{"TH", 1}, 'T', small_planned()});
  REQUIRE(line.front() == '"');
  CHECK(read_record(head + "#" + line.substr(1), kFile)->lost.size() == 1);
  CHECK(read_record(head + "#" + line, kFile)->lost.empty());
  CHECK(read_record(head + "<<<<<<< mine\n" + line + "=======\n", kFile)->lost.empty());
}

TEST_CASE("comments, blank lines and other line ends do not make a record edited") {
  std::string text = "# mine\n" + sample_text();
  const std::size_t sum = text.find("\nsum = ") + 1;
  text.insert(sum, "  # a remark\n\n");
  text += "\n# flown at the winter meet\n";
  const auto record = read_record(text, kFile);
  REQUIRE(record);
  CHECK(record.diagnostics().empty());
  CHECK_FALSE(record->planned_edited);
  std::string crlf;
  for (const char c : text) {
    crlf += c == '\n' ? std::string("\r\n") : std::string(1, c);
  }
  const auto again = read_record(crlf, kFile);
  REQUIRE(again);
  CHECK(render(again.diagnostics()) == "");
  CHECK(again->entries.size() == one_of_each().size());
}

TEST_CASE("a comment may follow an entry, an entry in a comment is pointed out") {
  std::string text = new_record_text({{"TH", 1}, 'T', small_planned()});
  std::string line = *entry_line(entry_of("20260501T100000Z-b7k2", Kind::note, {{"text", "a"}}));
  line.insert(line.size() - 1, "  # calm air");
  CHECK(read_record(text + line, kFile).diagnostics().empty());
  CHECK(has_code(read_record(text + "#" + line, kFile).diagnostics(), "record-hidden"));
}

TEST_CASE("the same line twice is one entry, one key for two things is not sound") {
  const std::string text = new_record_text({{"TH", 1}, 'T', small_planned()});
  const auto a = entry_of("20260501T100000Z-b7k2", Kind::note, {{"text", "a"}});
  const auto b = entry_of("20260501T100000Z-b7k2", Kind::note, {{"text", "b"}});
  const auto merged = read_record(text + *entry_line(a) + *entry_line(a), kFile);
  CHECK(merged->entries.size() == 1);
  CHECK(merged.diagnostics().empty());
  const auto clash = read_record(text + *entry_line(a) + *entry_line(b), kFile);
  REQUIRE(clash->entries.size() == 2);
  CHECK(clash->entries[1].edited);
  CHECK(has_code(clash.diagnostics(), "record-twice"));
  // A line by hand in front of it takes nothing out.
  const std::string by_hand = "\"20260501T100000Z-b7k2\" = { kind = \"note\", text = \"c\" }\n";
  const auto behind = read_record(text + by_hand + *entry_line(a), kFile);
  REQUIRE(behind->entries.size() == 2);
  CHECK(behind->entries[0].edited);
  CHECK_FALSE(behind->entries[1].edited);
}

TEST_CASE("kinds and fields of a newer version are kept, shown and sound") {
  const std::string text = new_record_text({{"TH", 1}, 'T', small_planned()});
  const std::string lines =
      summed_line(R"("20260501T100000Z-b7k2" = { kind = "soaked", bath = "soap", hours = 3)") +
      summed_line(R"("20260501T100100Z-b7k3" = { kind = "flown", time = "7 min", żagiel = 1)");
  const auto bad_key = read_record(text + lines, kFile);
  CHECK(bad_key->entries.size() == 1);  // a bare key must be ASCII
  const std::string good =
      summed_line(R"("20260501T100000Z-b7k2" = { kind = "soaked", bath = "soap", hours = 3)") +
      summed_line(R"("20260501T100100Z-b7k3" = { kind = "flown", time = "7 min", "ż" = ["ó", 1])");
  const auto record = read_record(text + good, kFile);
  REQUIRE(record->entries.size() == 2);
  CHECK(record.diagnostics().empty());
  CHECK(record->entries[0].kind == Kind::other);
  CHECK(record->entries[0].kind_text == "soaked");
  CHECK_FALSE(record->entries[0].edited);
  using Unknown = std::vector<std::pair<std::string, std::string>>;
  CHECK(record->entries[0].unknown == Unknown{{"bath", "\"soap\""}, {"hours", "3"}});
  CHECK(record->entries[1].unknown == Unknown{{"ż", "[\"ó\", 1]"}});
}

TEST_CASE("a value that can't be understood is kept as it stands and is no figure") {
  const std::string text =
      new_record_text({{"TH", 1}, 'T', small_planned()}) +
      summed_line(R"("20260501T100000Z-b7k2" = { kind = "wound", turns = 1200,)"
                  R"( torque = "41 furlongs", end = "burst")");
  const auto record = read_record(text, kFile);
  REQUIRE(record->entries.size() == 1);
  CHECK_FALSE(record->entries[0].torque);
  CHECK_FALSE(record->entries[0].end);
  CHECK(record->entries[0].turns == Turns::of(1200));
  CHECK(record->entries[0].unknown.size() == 2);
  CHECK(record.diagnostics().size() == 2);
  CHECK(record.diagnostics()[0].code == "record-field");
}

TEST_CASE("files that are no records are told apart from torn ones") {
  CHECK(read_record("title = \"a plan\"\n", kFile).diagnostics().front().code == "record-foreign");
  CHECK(read_record("hello, world\n", kFile).diagnostics().front().code == "record-head");
  CHECK(read_record("", kFile).diagnostics().front().code == "record-empty");
  std::string newer = sample_text();
  newer.replace(newer.find("format = 1"), 10, "format = 2");
  CHECK(read_record(newer, kFile).diagnostics().front().code == "record-format");
  CHECK(read_record(std::string(kMaxRecordBytes + 1, 'x'), kFile).diagnostics().front().code ==
        "record-size");
  std::string lost = sample_text();
  lost.replace(lost.find("aim = "), 3, "aio");
  const auto record = read_record(lost, kFile);
  REQUIRE_FALSE(record);
  CHECK(record.diagnostics().front().code == "record-missing");
}

TEST_CASE("entries still read when the figures as planned do not") {
  std::string text = sample_text();
  text.replace(text.find("aim = "), 6, "aim : ");
  CHECK(read_record(text, kFile).diagnostics().front().code == "record-head");
  const auto entries = read_entries_only(text, kFile);
  REQUIRE(entries);
  CHECK(entries->entries.size() == one_of_each().size());
}

TEST_CASE("a record without its sum and its [entries] line is not sent to mend, which can't help") {
  const std::string text = new_record_text({{"TH", 1}, 'T', small_planned()});
  const std::string head =
      text.substr(text.find("format = "), text.find("sum = ") - text.find("format = "));
  const auto record = read_record(head, kFile);
  REQUIRE(record);
  CHECK(record->torn);
  REQUIRE(has_code(record.diagnostics(), "record-entries"));
  CHECK(render(record.diagnostics()).find("write [entries] on a line of its own") !=
        std::string::npos);
  CHECK(mend_text(head, kFile, true).text == head);
  const auto whole = read_record(head + "\n[entries]\n", kFile);
  REQUIRE(whole);
  CHECK_FALSE(whole->torn);
}

TEST_CASE("an entry of more fields than any has is none, and costs no time") {
  std::string body = R"("20260501T100000Z-b7k2" = { kind = "wound")";
  for (int i = 0; i < 2000; ++i) {
    body += ", f" + std::to_string(i) + " = 1";
  }
  const std::string text = new_record_text({{"TH", 1}, 'T', small_planned()}) + summed_line(body);
  const auto record = read_record(text, kFile);
  REQUIRE(record);
  CHECK(record->entries.empty());
  REQUIRE(record.diagnostics().size() == 1);
  CHECK(record.diagnostics()[0].message == "expected an entry of at most 200 fields, found 2002");
}

TEST_CASE("a record full of rubbish still gives its entries, and is told of in a thousand lines") {
  std::string text = new_record_text({{"TH", 1}, 'T', small_planned()});
  for (int i = 0; i < 3000; ++i) {
    text += "rubbish\n";
  }
  text += *entry_line(entry_of("20260501T100000Z-b7k2", Kind::note, {{"text", "a"}}));
  const auto record = read_record(text, kFile);
  REQUIRE(record);
  CHECK(record->entries.size() == 1);
  REQUIRE(record.diagnostics().size() == 1001);
  CHECK(record.diagnostics().back().message == "and 2000 more such");
}

TEST_CASE("a head beyond all bounds is refused before it is read") {
  std::string text = new_record_text({{"TH", 1}, 'T', small_planned()});
  std::string keys = text;
  std::string more;
  for (int i = 0; i < 400; ++i) {
    more += "k" + std::to_string(i) + " = 1\n";
  }
  keys.insert(keys.find("[planned]\n") + 10, more);
  CHECK(read_record(keys, kFile).diagnostics().front().code == "record-size");
  text.insert(0, "#" + std::string(kMaxHeadBytes, 'x') + "\n");
  CHECK(read_record(text, kFile).diagnostics().front().code == "record-size");
}
