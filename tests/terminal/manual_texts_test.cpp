// SPDX-License-Identifier: MIT
//
// The manual in templates/manual against the program: no key, field, kind, code or unit that one
// has and the other has not.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <filesystem>
#include <regex>

#include "base/quantity_text.h"
#include "base/text.h"
#include "plan/label_layout.h"
#include "plan/read_label_layout.h"
#include "plan/read_printer_misses.h"
#include "plan/read_stock.h"
#include "records/fields.h"
#include "records/planned_fields.h"
#include "support/cli_run.h"
#include "support/documents.h"
#include "support/read_json.h"

using namespace loopledger;
using test::first_cell;
using test::has;
using test::quoted_in;
using test::run;
using test::table_rows;
using test::tree_text;
using Words = std::set<std::string>;

namespace {

std::string manual(const std::string& name) { return tree_text("templates/manual/" + name); }

/// What stands in backticks in the first cells of the tables below a heading.
Words told(const std::string& name, const std::string& heading) {
  Words words;
  for (const std::string& row : table_rows(manual(name), heading)) {
    words.merge(quoted_in(first_cell(row)));
  }
  return words;
}

void check_same(const Words& program, const Words& document, const std::string& where) {
  for (const std::string& word : program) {
    CHECK_MESSAGE(document.contains(word), where << " does not tell of `" << word << "`");
  }
  for (const std::string& word : document) {
    CHECK_MESSAGE(program.contains(word), where << " tells of `" << word << "`, which is not");
  }
}

/// Every name that an object of JSON has in a text.
void add_keys(Words& keys, const std::string& json) {
  static const std::regex kKey("\"([A-Za-z0-9_]+)\": ");
  for (auto at = std::sregex_iterator(json.begin(), json.end(), kKey); at != std::sregex_iterator();
       ++at) {
    keys.insert((*at)[1]);
  }
}

constexpr const char* kNight = R"(format = 1
title = "Invented night"
[bench]
scale_step = "1 mg"
[rules.club]
limit = "1.5 g"
counts = ["rubber", "lubricant"]
[strips.tan]
lot = "Tan 1"
width = "2.5 mm"
samples = [["1 m", "2 g"], ["1 m", "2 g"], ["1 m", "2 g"]]
pieces = [{ tag = "a", length = "4 m", mass = "8 g" }, { tag = "b", length = "2 m" }]
[lubricants.oil]
uptake = "1 %"
left = "0.5 %"
[recipes.slow]
steps = [{ stretch = 4, hold = "5 min", note = "slowly" }, { turns = "50 %", torque = "60 %", rest = "1 h" }]
[[motors]]
id = "TH"
count = 3
owner = "Anna"
for = "Heron"
rule = "club"
lubricant = "oil"
recipe = "slow"
mass = "limit"
hooks = "260 mm"
[[motors]]
id = "PA"
rule = "club"
mass = "limit"
hooks = "260 mm"
part = 0.5
)";

constexpr const char* kEvening = R"([[entries]]
id = "th3"
kind = "broke"
turns = 1300
torque = "60 gf.cm"
where = "knot"
)";

/// All that the commands print under --json over a night that has a little of everything.
class Outputs {
 public:
  Outputs() {
    const std::string night = folder_.write("night.toml", kNight);
    folder_.write("evening.toml", kEvening);
    ask({"check", night});
    std::string choosing = kNight;
    choosing.replace(choosing.find("mass = \"limit\"\n"), 15, "");
    ask({"check", folder_.write("choosing.toml", choosing)});
    ask({"print", night, "--out", folder_.path("out")});
    log("th1 weighed washed 1.498");
    log("th1 tied loop=360mm reading=1.5g note=x");
    log("th2 weighed washed 1.497");
    log("th2 tied 361mm");
    log("th1 break_in step=1 turns=500 torque=20gf.cm loop_before=360mm loop_after=372mm "
        "temperature=20C");
    log("th1 wound 1000 41gf.cm pairs=900:30gf.cm,800:22gf.cm,700:16gf.cm end=stopped "
        "backed_off_to=850 temperature=20C");
    log("th2 wound 1010 42gf.cm end=solid");
    log("th1 flown 7:31 turns_left=210");
    log("th1 labelled x");
    log("th1 piece a");
    log("th1 note well");
    log("th3 retired perished");
    ask({"log", "--sure", "--from", folder_.path("evening.toml")});
    std::string record = folder_.read("records/TH-02.toml");
    record +=
        "\"20260502T100000Z-b7k2\" = { kind = \"note\", text = \"x\", newer = 1, corrects = "
        "\"20260401T100000Z-b7k2\", sum = \"00000000\" }\n";
    folder_.write("records/TH-02.toml", record);
    ask({"show", "th1", "--temperature", "12 C", "--launch", "18 gf.cm", "--back-off", "200"});
    ask({"show", "th2"});
    ask({"show", "th3"});
    ask({"show", "pa1"});
    ask({"scan", "-"}, "th1\n");
    ask({"list"});
    ask({"match", "2"});
    ask({"fit", "Tan 1"});
    ask({"card", "th1", "th2", "--out", folder_.path("out")});
    ask({"label", "th1", "--out", folder_.path("out")});
    ask({"mend", folder_.path("records/TH-01.toml")});
    ask({"sources"});
  }
  [[nodiscard]] const Words& keys() const { return keys_; }
  /// By the command that printed it.
  [[nodiscard]] const std::vector<std::pair<std::string, std::string>>& texts() const {
    return texts_;
  }

 private:
  void ask(std::vector<std::string> words, const std::string& input = {}) {
    words.insert(words.end(), {"--json"});
    if (words.front() != "check" && words.front() != "sources") {
      words.insert(words.end(), {"--records", folder_.path("records")});
    }
    const auto ran = run(words, input);
    CHECK_MESSAGE((ran.code == 0 || words[1].ends_with("choosing.toml")), words[0] << ran.err);
    CHECK_MESSAGE(has(ran.out, "\"format\": 1"), words[0] << ran.out);
    add_keys(keys_, ran.out);
    texts_.emplace_back(words[0] + " " + words[1], ran.out);
  }
  /// An entry; its words have no blanks of their own.
  void log(const std::string& line) {
    std::vector<std::string> words{"log", "--sure"};
    std::istringstream in(line);
    for (std::string word; in >> word;) {
      words.push_back(word);
    }
    ask(words);
  }

  test::TempFolder folder_;
  Words keys_;
  std::vector<std::pair<std::string, std::string>> texts_;
};

/// The keys that a reader knows, out of its hint for one that it does not: "keys here are a, b or
/// c".
Words known_by(const Diagnostics& said) {
  Words keys;
  for (const Diagnostic& d : said) {
    if (d.code == "plan-key" && d.hint.starts_with("keys here are ")) {
      static const std::regex kWord("[a-z_]+");
      const std::string list = std::regex_replace(d.hint.substr(14), std::regex(" or "), ", ");
      for (auto at = std::sregex_iterator(list.begin(), list.end(), kWord);
           at != std::sregex_iterator(); ++at) {
        keys.insert(at->str());
      }
    }
  }
  return keys;
}

struct Names {
  Words all;
  template <class T>
  void operator()(std::string_view name, const T& /*value*/) {
    all.emplace(name);
  }
};

/// Codes of errors, warnings and notes in a room's sources.
Words codes_in(const std::string& room) {
  static const std::regex kCode("(?:error|warning|note|problem)\\(\\s*\"([a-z0-9-]+)\"");
  Words codes;
  const std::string folder = std::string(LOOPLEDGER_SOURCE_DIR) + "/src/" + room;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    const std::string text = tree_text("src/" + room + "/" + entry.path().filename().string());
    for (auto at = std::sregex_iterator(text.begin(), text.end(), kCode);
         at != std::sregex_iterator(); ++at) {
      codes.insert((*at)[1]);
    }
  }
  return codes;
}

}  // namespace

TEST_CASE("json.md has every key that the commands print, and no other; all of it is JSON") {
  const Outputs outputs;
  test::check_is_json(outputs.texts());
  Words printed = outputs.keys();
  printed.erase("newer");  // the field of a newer version in the test's own record
  check_same(printed, told("json.md", ""), "json.md");
}

TEST_CASE("record.md has every kind of entry with its fields") {
  const std::vector<std::string> rows = table_rows(manual("record.md"), "Kinds");
  Words kinds;
  for (const std::string& row : rows) {
    const Words name = quoted_in(first_cell(row));
    REQUIRE(name.size() == 1);
    kinds.insert(*name.begin());
    const auto kind = records::kind_from(*name.begin());
    REQUIRE_MESSAGE(kind, row);
    Words fields;
    for (const records::Field& field : records::fields_of(*kind)) {
      const bool always = field.name == "note" || field.name == "corrects";
      if (!always) {
        fields.emplace(field.name);
        const bool needed =
            has(row, fmt::format("`{}` (needed)", field.name)) || has(row, "both needed");
        CHECK_MESSAGE(field.needed == needed, row);
      }
    }
    check_same(fields, quoted_in(row.substr(first_cell(row).size() + 1)), *name.begin());
  }
  Words known;
  for (const std::string_view word : records::kind_words()) {
    known.emplace(word);
  }
  check_same(known, kinds, "record.md");
}

TEST_CASE("record.md has every figure that a motor is made with") {
  Names names;
  const records::Planned planned;
  records::walk_planned(names, planned);
  check_same(names.all, told("record.md", "Figures"), "record.md");
  Names parts;
  const records::PlannedRule rule;
  const records::Window window;
  const Estimate<Turns> estimate;
  const records::BreakInStep step;
  records::walk_rule(parts, rule);
  records::walk_window(parts, window);
  records::walk_estimate(parts, estimate);
  records::walk_step(parts, step);
  const Words all = quoted_in(manual("record.md"));
  for (const std::string& part : parts.all) {
    CHECK_MESSAGE(all.contains(part), part);
  }
}

TEST_CASE("labels.md has the keys of stock, layout and printer, and every field of a label") {
  const std::string paper = "paper = [\"210 mm\", \"297 mm\"]\nzzzzzzzzz = 1\n";
  check_same(known_by(plan::read_stock(paper, "x.toml", "x").diagnostics()),
             told("labels.md", "Stock"), "labels.md, stock");
  const std::string line =
      "zzzzzzzzz = 1\nlines = [{ name = \"x\", show = \"x\", zzzzzzzzz = 1 }]\n";
  Words keys = known_by(plan::read_label_layout(line, "x.toml", "x").diagnostics());
  for (const std::string_view field : plan::kLabelFields) {
    keys.insert(fmt::format("{{{}}}", field));
  }
  check_same(keys, told("labels.md", "Layouts"), "labels.md, layouts");
  for (const std::string& key :
       known_by(plan::read_printer_misses("zzzzzzzzz = 1\n", "x.toml").diagnostics())) {
    CHECK_MESSAGE(has(manual("labels.md"), key), key);
  }
}

TEST_CASE("plan.md has every code of reading and working out a plan, and no code that is not") {
  Words codes = codes_in("plan");
  codes.merge(codes_in("calc"));
  codes.merge(codes_in("cutting"));
  codes.merge(codes_in("base"));
  const Words here = quoted_in(manual("plan.md"));
  const Words labels = quoted_in(manual("labels.md"));
  for (const std::string& code : codes) {
    CHECK_MESSAGE((here.contains(code) || labels.contains(code)), code);
  }
  for (const char* room : {"commands", "posix", "terminal", "motor", "sheets", "page"}) {
    codes.merge(codes_in(room));
  }
  for (const std::string& code : told("plan.md", "What can be wrong")) {
    CHECK_MESSAGE(codes.contains(code), code);
  }
  CHECK(codes.size() > 20);
}

TEST_CASE("plan.md has the units that hints name, kind by kind") {
  int kinds = 0;
  for (const std::string& row : table_rows(manual("plan.md"), "The plan, key by key")) {
    const std::string kind = std::regex_replace(first_cell(row), std::regex("^ +| +$"), "");
    for (const UnitName& unit : unit_names()) {
      if (unit.kind == kind && unit.in_hint) {
        CHECK_MESSAGE(has(lower_ascii(row), fmt::format("`{}`", unit.name)), unit.name);
      }
    }
    ++kinds;
  }
  CHECK(kinds == 7);
}

TEST_CASE("the changes begin with the version that the program has") {
  std::string version = run({"--version"}).out;
  version = version.substr(version.find(' ') + 1);
  version.erase(version.find('\n'));
  const std::string text = manual("changes.md");
  const std::size_t first = text.find("\n## ");
  REQUIRE(first != std::string::npos);
  CHECK(text.substr(first + 4, version.size() + 1) == version + "\n");
}
