// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <filesystem>

#include "support/cli_run.h"
#include "support/done.h"

using namespace loopledger;
using test::done;
using test::has;
using test::run;
using test::TempFolder;
using test::too_wide;

namespace {

constexpr const char* kPrintPlan = R"(format = 1
title = "Invented night"
date = 2026-02-05
bench = { scale_step = "1 mg" }
rules.club = { limit = "1.5 g", counts = ["rubber"] }
[strips.tan]
width = "2.4 mm"
samples = [["1 m", "2 g"], ["1 m", "2 g"], ["1 m", "2 g"]]
[[motors]]
id = "TH"
count = 2
rule = "club"
mass = "limit"
)";

std::string changed(const std::string& from, const std::string& to) {
  std::string text = kPrintPlan;
  text.replace(text.find(from), from.size(), to);
  return text;
}

}  // namespace

TEST_CASE("print writes three PDFs and a record for each motor, beside the plan") {
  const TempFolder folder;
  const auto ran = run({"print", folder.write("night.toml", kPrintPlan)});
  REQUIRE_MESSAGE(ran.code == 0, ran.err);
  for (const char* name : {"out/cut-sheet.pdf", "out/break-in.pdf", "out/labels.pdf"}) {
    CHECK(folder.read(name).starts_with("%PDF-"));
  }
  CHECK(has(folder.read("records/TH-01.toml"), "format = 1"));
  CHECK(folder.holds("records/TH-02.toml"));
  CHECK(has(ran.out, "Opened 2 records in " + folder.path("records")));
}

TEST_CASE("the same plan printed again gives the same bytes and leaves the records alone") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", kPrintPlan);
  REQUIRE(run({"print", plan}).code == 0);
  const std::string sheet = folder.read("out/cut-sheet.pdf");
  const std::string labels = folder.read("out/labels.pdf");
  const std::string record = folder.read("records/TH-01.toml");
  const auto again = run({"print", plan});
  CHECK(again.code == 0);
  CHECK(has(again.out, "Opened 0 records"));
  CHECK(has(again.out, "2 were there already, unchanged"));
  CHECK(folder.read("out/cut-sheet.pdf") == sheet);
  CHECK(folder.read("out/labels.pdf") == labels);
  CHECK(folder.read("records/TH-01.toml") == record);
}

TEST_CASE("a name corrected in the plan is told to be another one in the records") {
  const TempFolder folder;
  const std::string text = kPrintPlan;
  const auto owned = [&](const char* owner) {
    return folder.write("night.toml", text + "owner = \"" + owner + "\"\n");
  };
  REQUIRE(run({"print", owned("Ava")}).code == 0);
  CHECK(done(run({"print", owned("Ava")})).err.empty());
  const auto again = run({"print", owned("Eva")});
  CHECK(again.code == 0);
  CHECK(has(again.err,
            "(2 motors): the plan says owner \"Eva\", the record \"Ava\" [print-renamed]"));
  CHECK(has(again.err, "hint: a record keeps what it was opened with"));
}

TEST_CASE("a record with other figures is refused, with the next free id, and nothing is written") {
  const TempFolder folder;
  REQUIRE(run({"print", folder.write("night.toml", kPrintPlan)}).code == 0);
  const std::string labels = folder.read("out/labels.pdf");
  for (const auto& [from, to] : {std::pair<std::string, std::string>{"\"1.5 g\"", "\"1.2 g\""},
                                 {"strips.tan", "strips.red"},
                                 {"[[motors]]\n", "[[motors]]\nallowance = \"25 mm\"\n"},
                                 {"[\"rubber\"]", "[\"rubber\", \"lubricant\"]"}}) {
    const auto ran = run({"print", folder.write("night.toml", changed(from, to))});
    CHECK(ran.code == 1);
    CHECK_MESSAGE(has(ran.err, "TH-01-J to TH-02-H (2 motors) have records with other figures"),
                  ran.err);
    CHECK(has(ran.err, "the next free one is TH-03: first = 3"));
    CHECK_FALSE(has(ran.err, "planned by themselves"));
    CHECK(folder.read("out/labels.pdf") == labels);
    const auto alone = run({"print", folder.path("night.toml"), "--only", "th2"});
    CHECK(alone.code == 1);
    CHECK(has(alone.err, "with --only these are planned by themselves, maybe from other pieces"));
    CHECK(has(alone.err, "hint: `loopledger label TH-02` prints a label as the record has it"));
  }
  // What does not change the motor is no reason to refuse.
  CHECK(
      run({"print", folder.write("night.toml", changed("Invented night", "Another title"))}).code ==
      0);
}

TEST_CASE("nothing is written when the plan has a fault") {
  const TempFolder folder;
  const auto ran = run({"print", folder.write("night.toml", changed("\"2.4 mm\"", "\"2.4 g\""))});
  CHECK(ran.code == 1);
  CHECK_FALSE(folder.holds("out"));
  CHECK_FALSE(folder.holds("records"));
}

TEST_CASE("only some motors, or only those without a record, can be printed") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", kPrintPlan);
  REQUIRE(run({"print", plan, "--only", "th2"}).code == 0);
  CHECK_FALSE(folder.holds("records/TH-01.toml"));
  CHECK(folder.holds("records/TH-02.toml"));
  const auto rest = run({"print", plan, "--new"});
  CHECK(rest.code == 0);
  CHECK(has(rest.out, "Opened 1 record in"));
  const auto none = run({"print", plan, "--new"});
  CHECK(none.code == 1);
  CHECK(has(none.err, "every motor of the plan has a record"));
  const auto wrong = run({"print", plan, "--only", "th9"});
  CHECK(wrong.code == 1);
  CHECK(has(wrong.err, "the plan has no motor TH-09"));
}

TEST_CASE("an unknown stock names the nearest one at its place in the plan") {
  const TempFolder folder;
  const auto ran = run({"print", folder.write("night.toml", "labels = \"a4-3x8-70x36\"\n" +
                                                                std::string(kPrintPlan))});
  CHECK(ran.code == 1);
  CHECK(has(ran.err, ":1:10: error: there is no template \"a4-3x8-70x36\" in templates/stock"));
  CHECK(has(ran.err, "did you mean \"a4-3x8-70x37\"?"));
}

TEST_CASE("records and PDFs go where the options and the environment say") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", kPrintPlan);
  REQUIRE(run({"print", plan, "--out", folder.path("p")}, {},
              {{"LOOPLEDGER_RECORDS", folder.path("r")}})
              .code == 0);
  CHECK(folder.holds("p/labels.pdf"));
  CHECK(folder.holds("r/TH-01.toml"));
  REQUIRE(run({"print", plan, "--records", folder.path("q")}, {},
              {{"LOOPLEDGER_RECORDS", folder.path("r")}})
              .code == 0);
  CHECK(folder.holds("q/TH-01.toml"));
}

TEST_CASE("a folder that can't be written leaves no records behind") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", kPrintPlan);
  const auto ran = run({"print", plan, "--out", folder.write("blocked", "a file")});
  CHECK(ran.code == 3);
  CHECK_FALSE(folder.holds("records/TH-01.toml"));
  for (const auto& entry : std::filesystem::directory_iterator(folder.path())) {
    CHECK(entry.path().string().find(".tmp-") == std::string::npos);
  }
}

TEST_CASE(
    "print --test-page needs no plan, opens no record, and says where to write what was read") {
  const TempFolder folder;
  const std::string out = folder.path("out");
  const auto ran = run({"print", "--test-page", "--labels", "a4-3x8-70x37", "--out", out}, {},
                       {{"XDG_CONFIG_HOME", folder.path("settings")}});
  REQUIRE_MESSAGE(ran.code == 0, ran.err);
  CHECK(folder.read("out/test-page.pdf").starts_with("%PDF-"));
  CHECK(has(ran.out, folder.path("settings/loopledger/printer.toml")));
  const auto home =
      run({"print", "--test-page", "--out", out}, {}, {{"HOME", folder.path("anna")}});
  CHECK(has(home.out, folder.path("anna/.config/loopledger/printer.toml")));
  CHECK(has(ran.out, "[stock.\"a4-3x8-70x37\"]"));
  CHECK(has(ran.out, "bars = "));
  CHECK_FALSE(folder.holds("records"));

  const auto roll = run({"print", "--test-page", "--labels", "roll-40x20-203dpi", "--out", out});
  CHECK(roll.code == 0);
  CHECK_FALSE(has(roll.out, "bars = "));

  const auto planned =
      run({"print", "--test-page", folder.write("night.toml", kPrintPlan)}, {}, {});
  CHECK(planned.code == 0);
  CHECK(has(planned.out, "A4 paper"));
  CHECK_FALSE(folder.holds("records"));
}

TEST_CASE("print without a plan and without --test-page is a usage error that shows how") {
  const auto ran = run({"print"});
  CHECK(ran.code == 2);
  CHECK(has(ran.err, "loopledger print night.toml"));
}

TEST_CASE("the user's printer file moves what is printed, says so, and a fault in it is told") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", kPrintPlan);
  REQUIRE(run({"print", plan}).code == 0);
  const std::string before = folder.read("out/labels.pdf");
  const std::string printer = folder.write("printer.toml", "shift = [\"0.6 mm\", \"-0.3 mm\"]\n");
  const std::map<std::string, std::string> settings{{"LOOPLEDGER_PRINTER", printer}};
  const auto moved = run({"print", plan}, {}, settings);
  CHECK_MESSAGE(moved.code == 0, moved.err);
  CHECK_MESSAGE(has(moved.err, "labels.pdf is moved 0.6 mm left and 0.3 mm down, as " + printer),
                moved.err);
  CHECK(folder.read("out/labels.pdf") != before);

  (void)folder.write("printer.toml", "shift = [\"60 mm\", \"0 mm\"]\n");
  const auto wrong = run({"print", plan}, {}, settings);
  CHECK(wrong.code == 1);
  CHECK(has(wrong.err, "printer.toml:1:10: error: shift: expected at least -20 mm"));
  CHECK(run({"print", plan}, {}, {{"LOOPLEDGER_PRINTER", folder.path("none.toml")}}).code == 3);
}

TEST_CASE("stock, layout and copies on the command line win over the plan's") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", kPrintPlan);
  const auto sheet = run({"print", plan, "--labels", "roll-50x25-300dpi", "--copies", "3"});
  CHECK_MESSAGE(sheet.code == 0, sheet.err);
  CHECK(has(sheet.out, "labels.pdf (6 pages)"));
  const std::string mine = folder.write(
      "mine.toml", "code_share = \"0 %\"\nlines = [{ name = \"id\", show = \"{id}\" }]\n");
  CHECK(run({"print", plan, "--layout", "mine.toml"}).code == 0);
  const auto misspelt = run({"print", plan, "--layout", "slipp"});
  CHECK(misspelt.code == 1);
  CHECK_MESSAGE(has(misspelt.err, "did you mean \"slip\"?"), misspelt.err);
  std::string named = kPrintPlan;
  named.replace(named.find("date ="), 0, "slip = \"mine.toml\"\n");
  CHECK(run({"print", folder.write("named.toml", named)}).code == 0);
  const auto letter = run({"print", plan, "--paper", "letter"});
  CHECK(letter.code == 0);
}

TEST_CASE("a plan's name behind a list of ids is the plan") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", kPrintPlan);
  const auto ran = run({"print", "--only", "th1,th2", plan});
  CHECK_MESSAGE(ran.code == 0, ran.err);
  CHECK(has(ran.out, "Opened 2 records"));
}

TEST_CASE("print offers the shelf's new pieces, which a plan reads back") {
  const TempFolder folder;
  std::string text = kPrintPlan;
  const std::string at = "[[motors]]";
  text.replace(text.find(at), 0,
               "ends = \"5 mm\"\nkeep = \"200 mm\"\n"
               "pieces = [{ tag = \"a\", length = \"2 m\" }, { tag = \"b\", length = \"3 m\", mass "
               "= \"6.0348 g\" }]\n");
  const auto ran = run({"print", folder.write("night.toml", text)});
  REQUIRE_MESSAGE(ran.code == 0, ran.err);
  const std::size_t from = ran.out.find("[strips.");
  REQUIRE(from != std::string::npos);
  CHECK(has(ran.out, "When all is cut, the shelf's pieces are:\n[strips.\"tan\"]\npieces = ["));
  const std::string line = ran.out.substr(ran.out.find("pieces = [", from));
  std::string next = kPrintPlan;
  next.replace(next.find(at), 0, line);
  const auto again = run({"check", folder.write("next.toml", next)});
  CHECK_MESSAGE(again.code == 0, again.err);

  std::string many = text;
  many.replace(many.find("{ tag = \"b\""), 0,
               "{ tag = \"a piece with a longer tag\", length = \"50 mm\" }, "
               "{ tag = \"another such piece\", length = \"60 mm\" }, ");
  const auto wide = run({"print", folder.write("many.toml", many), "--out", folder.path("many")});
  CHECK_MESSAGE(too_wide(wide.out.substr(wide.out.find("[strips."))).empty(), wide.out);
  std::string read_back = kPrintPlan;
  read_back.replace(read_back.find(at), 0, wide.out.substr(wide.out.find("pieces = [")));
  CHECK(run({"check", folder.write("next.toml", read_back)}).code == 0);

  // The two motors fit either piece: the longer one is left whole.
  CHECK_MESSAGE(has(line, "{ tag = \"b\", length = \"3000.0 mm\", mass = \"6.0348 g\" }"), line);

  const auto json = run({"check", folder.path("night.toml"), "--json"});
  CHECK(has(json.out, "\"shelf_after\""));
  CHECK(has(json.out, "\"more\""));
  CHECK(has(json.out, "\"longest_gap_mm\""));
}

TEST_CASE("an empty LOOPLEDGER_PRINTER is as none, and a relative settings folder is ignored") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", kPrintPlan);
  CHECK(run({"print", plan}, {}, {{"LOOPLEDGER_PRINTER", ""}}).code == 0);
  const auto ran = run({"print", "--test-page", "--out", folder.path("out")}, {},
                       {{"XDG_CONFIG_HOME", "settings"}, {"HOME", folder.path("anna")}});
  CHECK(has(ran.out, folder.path("anna/.config/loopledger/printer.toml")));
}

TEST_CASE("--test-page takes nothing that is for motors' labels") {
  const TempFolder folder;
  const std::string plan = folder.write("night.toml", kPrintPlan);
  for (const std::vector<std::string>& words :
       std::vector<std::vector<std::string>>{{"--layout", "slip"},
                                             {"--only", "TH-01"},
                                             {"--new"},
                                             {"--short"},
                                             {"--start", "2"},
                                             {"--copies", "2"}}) {
    std::vector<std::string> line{"print", plan, "--test-page"};
    line.insert(line.end(), words.begin(), words.end());
    const auto ran = run(line);
    CHECK(ran.code == 2);
    CHECK_MESSAGE(has(ran.err, "--test-page"), ran.err);
    CHECK_MESSAGE(has(ran.err, words.front()), ran.err);
  }
  CHECK_FALSE(folder.holds("out/test-page.pdf"));
}

TEST_CASE("the fault of a layout that is for all labels is told once") {
  const TempFolder folder;
  const std::string err =
      run({"print", folder.write("night.toml", kPrintPlan), "--layout", "nosuch"}).err;
  const std::size_t first = err.find("nosuch");
  REQUIRE(first != std::string::npos);
  CHECK_MESSAGE(err.find("error: ", first) == std::string::npos, err);
}

TEST_CASE("print --test-page --json names the file") {
  const TempFolder folder;
  const auto ran = run({"print", "--test-page", "--json", "--out", folder.path("out")});
  CHECK(has(ran.out, "\"files\": [\"" + folder.path("out/test-page.pdf") + "\"]"));
}
