// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <filesystem>
#include <string>

#include "support/cli_run.h"

using namespace loopledger;
using test::has;
using test::Ran;
using test::run;
using test::TempFolder;

namespace {

namespace fs = std::filesystem;

constexpr const char* kOwnPlan = R"(format = 1
title = "Invented night"
date = 2026-02-05
labels = "mine"
bench = { scale_step = "1 mg" }
[strips.tan]
width = "2.4 mm"
samples = [["1 m", "2 g"], ["1 m", "2 g"], ["1 m", "2 g"]]
[rules.club]
take = "club"
counts = ["rubber"]
[recipes.gentle]
take = "gentle"
[[motors]]
id = "TH"
rule = "club"
recipe = "gentle"
mass = "limit"
)";

constexpr const char* kOwnStock = R"(text = "Invented sheet of 6 labels of 90 x 90 mm"
paper = ["210 mm", "297 mm"]
columns = 2
rows = 3
label = ["90 mm", "90 mm"]
pitch = ["100 mm", "95 mm"]
left = "10 mm"
top = "7 mm"
)";

const std::string kShipped = std::string(LOOPLEDGER_SOURCE_DIR) + "/templates/";

/// A stock, a rule, a recipe and a layout of the user's own, in `folder`/loopledger.
void fill(const TempFolder& folder) {
  folder.write("loopledger/templates/stock/mine.toml", kOwnStock);
  folder.write("loopledger/templates/rules/club.toml", "limit = \"1.5 g\"\n");
  folder.write("loopledger/templates/recipes/gentle.toml",
               "source = \"invented\"\nsteps = [{ stretch = 3.0, hold = \"7 min\" }]\n");
  fs::create_directories(folder.path("loopledger/templates/layouts"));
  fs::copy_file(kShipped + "layouts/slip.toml",
                folder.path("loopledger/templates/layouts/large.toml"));
}

Ran printed(const TempFolder& work, const std::map<std::string, std::string>& environment,
            const std::vector<std::string>& more = {}) {
  std::vector<std::string> words{"print", work.write("night.toml", kOwnPlan), "--layout", "large"};
  words.insert(words.end(), more.begin(), more.end());
  return run(words, {}, environment);
}

}  // namespace

TEST_CASE("templates of the user's own are found by name beside the shipped ones") {
  const TempFolder work;
  const TempFolder home;
  fill(home);
  for (const auto& setting : std::map<std::string, std::string>{
           {"XDG_DATA_HOME", home.path()},
           {"XDG_DATA_DIRS", "relative:" + work.path("nothing") + "::" + home.path()}}) {
    CAPTURE(setting.first);
    const auto ran = printed(work, {setting});
    CHECK_MESSAGE(ran.code == 0, ran.err);
    CHECK(has(run({"check", work.path("night.toml")}, {}, {setting}).out, "7 min"));
  }
  const TempFolder user;
  fs::create_directories(user.path(".local/share"));
  fs::rename(home.path("loopledger"), user.path(".local/share/loopledger"));
  CHECK(printed(work, {{"HOME", user.path()}}).code == 0);
  CHECK(printed(work, {{"HOME", user.path()}, {"XDG_DATA_HOME", ""}}).code == 0);
  CHECK(printed(work, {{"HOME", user.path()}, {"XDG_DATA_HOME", user.path()}}).code == 1);
  CHECK(printed(work, {}).code == 1);
}

TEST_CASE("of two templates with one name the user's wins, and its faults are shown in its file") {
  const TempFolder work;
  const TempFolder home;
  const std::string own =
      home.write("loopledger/templates/stock/a4.toml", "text = \"Mine\"\npapr = 1\n");
  const std::string plan = work.write("new.toml", run({"new", "-"}).out);
  CHECK(run({"new", work.path("night.toml")}).code == 0);
  const std::map<std::string, std::string> environment{{"XDG_DATA_HOME", home.path()}};
  const auto ran = run({"print", work.path("night.toml")}, {}, environment);
  CHECK(ran.code == 1);
  CHECK_MESSAGE(has(ran.err, own + ":2:1: error"), ran.err);
  CHECK_FALSE(work.holds("out"));
  fs::remove(own);
  CHECK(run({"print", work.path("night.toml")}, {}, environment).code == 0);
}

TEST_CASE("a layout of the user's own is found in the folder that layouts lay in once") {
  const TempFolder work;
  const TempFolder home;
  fill(home);
  const std::map<std::string, std::string> environment{{"XDG_DATA_HOME", home.path()}};
  const std::string templates = home.path("loopledger/templates/");
  fs::rename(templates + "layouts", templates + "sheets");
  const auto old = printed(work, environment);
  CHECK_MESSAGE(old.code == 0, old.err);
  const auto misspelt =
      run({"print", work.path("night.toml"), "--layout", "larg"}, {}, environment);
  CHECK(misspelt.code == 1);
  CHECK_MESSAGE(has(misspelt.err, "there is no template \"larg\" in templates/layouts"),
                misspelt.err);
  CHECK_MESSAGE(has(misspelt.err, "did you mean \"large\"?"), misspelt.err);
  // One of a shipped layout's name still goes before it, and `layouts` before `sheets`.
  const std::string slip = home.write("loopledger/templates/sheets/slip.toml", "txt = \"Mine\"\n");
  const auto own = run({"print", work.path("night.toml")}, {}, environment);
  CHECK(own.code == 1);
  CHECK_MESSAGE(has(own.err, slip + ":1:1: error"), own.err);
  fs::create_directories(templates + "layouts");
  fs::copy_file(kShipped + "layouts/slip.toml", templates + "layouts/slip.toml");
  CHECK(run({"print", work.path("night.toml")}, {}, environment).code == 0);
}

TEST_CASE("a folder that LOOPLEDGER_DATA names may have its layouts where they lay once") {
  const TempFolder work;
  const TempFolder data;
  fs::copy(LOOPLEDGER_SOURCE_DIR "/templates", data.path("templates"), fs::copy_options::recursive);
  fs::create_directory_symlink(LOOPLEDGER_SOURCE_DIR "/fonts", data.path("fonts"));
  const std::map<std::string, std::string> environment{{"LOOPLEDGER_DATA", data.path()}};
  const auto printed_to = [&](const std::string& out) {
    return run({"print", "--test-page", "--out", work.path(out)}, {}, environment);
  };
  CHECK(printed_to("a").code == 0);
  fs::rename(data.path("templates/layouts"), data.path("templates/sheets"));
  CHECK(printed_to("b").code == 0);
  CHECK(work.read("a/test-page.pdf") == work.read("b/test-page.pdf"));
  fs::remove_all(data.path("templates/sheets"));
  const auto none = printed_to("c");
  CHECK(none.code == 3);
  CHECK_MESSAGE(has(none.err, "no templates/layouts are in LOOPLEDGER_DATA"), none.err);
}

TEST_CASE("a misspelt name is answered with the user's own names too") {
  const TempFolder home;
  fill(home);
  const std::map<std::string, std::string> environment{{"XDG_DATA_HOME", home.path()}};
  const auto near = run({"print", "--test-page", "--labels", "mime"}, {}, environment);
  CHECK(near.code == 1);
  CHECK_MESSAGE(has(near.err, "did you mean \"mine\"?"), near.err);
  const auto far = run({"print", "--test-page", "--labels", "whatever-it-is"}, {}, environment);
  CHECK_MESSAGE(has(far.err, "letter-3x10-2.625x1, mine, roll-40x20-203dpi"), far.err);
  // Shipped and user's folder hold "a4": it is named once.
  home.write("loopledger/templates/stock/a4.toml", kOwnStock);
  const auto once = run({"print", "--test-page", "--labels", "whatever-it-is"}, {}, environment);
  CHECK_MESSAGE(has(once.err, "templates there are a4, a4-2x7-99.1x38.1"), once.err);
}

TEST_CASE("LOOPLEDGER_DATA stands for all other folders") {
  const TempFolder work;
  const TempFolder home;
  fill(home);
  const TempFolder data;
  const std::map<std::string, std::string> both{{"XDG_DATA_HOME", home.path()},
                                                {"LOOPLEDGER_DATA", data.path()}};
  const auto empty = run({"print", "--test-page", "--labels", "mine"}, {}, both);
  CHECK(empty.code == 3);
  CHECK_MESSAGE(
      has(empty.err, "error: no templates/stock are in LOOPLEDGER_DATA (" + data.path() +
                         ") [disk-data]\n"
                         "  hint: set LOOPLEDGER_DATA to the folder that holds `templates` and "
                         "`fonts`\n"),
      empty.err);
  fs::copy(LOOPLEDGER_SOURCE_DIR "/templates", data.path("templates"), fs::copy_options::recursive);
  const auto fontless = run({"print", "--test-page", "--out", work.path("out")}, {}, both);
  CHECK(fontless.code == 3);
  CHECK_MESSAGE(has(fontless.err, "error: no fonts are in LOOPLEDGER_DATA (" + data.path() +
                                      ") [disk-data]\n  hint: set LOOPLEDGER_DATA to "),
                fontless.err);
  fs::create_directory_symlink(LOOPLEDGER_SOURCE_DIR "/fonts", data.path("fonts"));
  CHECK(run({"print", "--test-page", "--out", work.path("out")}, {}, both).code == 0);
  CHECK(run({"print", "--test-page", "--labels", "mine"}, {}, both).code == 1);
}

TEST_CASE("--version names the program's version, its libraries' and where templates are") {
  const TempFolder home;
  fill(home);
  const auto ran = run({"--version"}, {}, {{"XDG_DATA_HOME", home.path()}});
  CHECK(ran.code == 0);
  CHECK(ran.out.starts_with("loopledger " LOOPLEDGER_PROJECT_VERSION "\n"));
  for (const char* name : {"libharu", "ZXing-cpp", "toml++", "FreeType", "libjpeg", "libpng", "fmt",
                           "Boost", "CLI11"}) {
    const std::size_t at = ran.out.find(std::string("\n  ") + name);
    CAPTURE(name);
    REQUIRE(at != std::string::npos);
    const std::string line = ran.out.substr(at + 1, ran.out.find('\n', at + 1) - at - 1);
    const std::size_t digit = line.find_first_of("0123456789", line.rfind(' '));
    CHECK_MESSAGE(digit == line.rfind(' ') + 1, line);
    CHECK_MESSAGE(line.find('.', digit) != std::string::npos, line);
  }
  const std::size_t own = ran.out.find(home.path("loopledger/templates"));
  CHECK(own != std::string::npos);
  CHECK(ran.out.find("/share/loopledger/templates", own + home.path("loopledger").size()) !=
        std::string::npos);
  const auto lost = run({"--version"}, {}, {{"LOOPLEDGER_DATA", home.path("absent")}});
  CHECK(has(lost.out, "no folder with templates and fonts was found"));
}
