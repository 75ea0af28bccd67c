// SPDX-License-Identifier: MIT
//
// The completions that the build made, bash's in a bash of its own. That zsh and fish can read
// theirs is asked of them in CMakeLists.txt.
#include "terminal/completion.h"

#include <doctest/doctest.h>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include "support/cli_run.h"

using namespace loopledger;
using terminal::Completed;
using terminal::OptionHelp;
using test::has;
using test::run;
using test::TempFolder;

namespace {

std::string made_for(const std::string& shell) {
  std::ifstream in(LOOPLEDGER_BUILD_DIR "/loopledger." + shell, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

std::set<std::string> found_in(const std::string& text, const std::string& pattern) {
  const std::regex regex(pattern);
  std::set<std::string> found;
  for (auto it = std::sregex_iterator(text.begin(), text.end(), regex);
       it != std::sregex_iterator(); ++it) {
    found.insert((*it)[1]);
  }
  return found;
}

std::set<std::string> commands_told() {
  const std::string help = run({"--help"}).out;
  return found_in(help.substr(help.find("Subcommands:")), "\n  ([a-z]+) ");
}

std::set<std::string> options_of(const std::string& command) {
  const std::string help = run({command, "--help"}).out;
  return found_in(help.substr(help.find("\nOptions:")), "[ ,](--[a-z-]+)");
}

/// From `head` to the next `tail`.
std::string part(const std::string& text, const std::string& head, const std::string& tail) {
  const std::size_t from = text.find(head);
  REQUIRE_MESSAGE(from != std::string::npos, head);
  return text.substr(from, text.find(tail, from + head.size()) - from);
}

/// What bash offers for the last of the words, in a folder with `night.toml`, `out/` and two
/// records. @param before what the shell does first
std::set<std::string> offered(const TempFolder& folder, const std::string& words,
                              const std::string& before = "true") {
  const std::string script =
      "cd '" + folder.path("") + "' && " + before +
      " && source '" LOOPLEDGER_BUILD_DIR "/loopledger.bash' && COMP_WORDS=(loopledger " + words +
      ") && COMP_CWORD=$((${#COMP_WORDS[@]} - 1)) && _loopledger && "
      "printf '<%s>' \"${COMPREPLY[@]}\" >offered";
  std::ofstream(folder.path("script")) << script;
  REQUIRE(std::system(
              ("env -u LOOPLEDGER_RECORDS bash --norc '" + folder.path("script") + "'").c_str()) ==
          0);
  std::set<std::string> all = found_in(folder.read("offered"), "<([^>]*)>");
  all.erase("");
  return all;
}

using Offered = std::set<std::string>;

void fill(const TempFolder& folder) {
  for (const char* name : {"out", "records"}) {
    std::filesystem::create_directory(folder.path(name));
  }
  for (const char* name : {"night.toml", "records/TH-01.toml", "records/LA-02.toml"}) {
    std::ofstream(folder.path(name)) << "format = 1\n";
  }
}

}  // namespace

TEST_CASE("every command and every option of the help is in each completion") {
  const std::string bash = made_for("bash");
  const std::string zsh = made_for("zsh");
  const std::string fish = made_for("fish");
  std::size_t options = 0;
  CHECK(commands_told().size() >= 14);
  for (const std::string& command : commands_told()) {
    const std::string in_bash = part(bash, "    " + command + ")\n      options='", "\n      ;;");
    const std::string in_zsh = part(zsh, "    " + command + ")\n", "\n      ;;");
    CHECK_MESSAGE(has(part(bash, "((COMP_CWORD == 1))", "return"), " " + command + " "), command);
    CHECK_MESSAGE(has(zsh, "    '" + command + ":"), command);
    CHECK_MESSAGE(has(fish, "-n __fish_use_subcommand -a " + command + " "), command);
    for (const std::string& option : options_of(command)) {
      CHECK_MESSAGE(std::regex_search(in_bash, std::regex("options='.*" + option + "[ ']")),
                    command, " ", option);
      CHECK_MESSAGE(std::regex_search(in_zsh, std::regex(option + "=?\\[")), command, " ", option);
      CHECK_MESSAGE(std::regex_search(fish, std::regex("from " + command + "'[^\n]* -l " +
                                                       option.substr(2) + " ")),
                    command, " ", option);
      ++options;
    }
  }
  CHECK(options > 60);
}

TEST_CASE("bash completes commands, options, choices, files, folders and ids") {
  const TempFolder folder;
  fill(folder);
  CHECK(offered(folder, "sc") == Offered{"scan", "schema"});
  CHECK(offered(folder, "--vers") == Offered{"--version"});
  CHECK(offered(folder, "check --u") == Offered{"--units"});
  CHECK(offered(folder, "check --units ''") == Offered{"metric", "inch"});
  CHECK(offered(folder, "check --units = i") == Offered{"inch"});
  CHECK(offered(folder, "list --sort st") == Offered{"state"});
  CHECK(offered(folder, "check n") == Offered{"night.toml"});
  CHECK(offered(folder, "check --units inch n") == Offered{"night.toml"});
  CHECK(offered(folder, "print night.toml --out o") == Offered{"out"});
  CHECK(offered(folder, "print night.toml --out n") == Offered{});
  CHECK(offered(folder, "show ''") == Offered{"LA-02", "TH-01"});
  CHECK(offered(folder, "show t") == Offered{"TH-01"});
  CHECK(offered(folder, "label th1 l") == Offered{"LA-02"});
  CHECK(offered(folder, "log th") == Offered{"TH-01"});
  CHECK(offered(folder, "log TH-01 l") == Offered{});
  CHECK(offered(folder, "list --owner t") == Offered{});
}

TEST_CASE("bash completes the last of a list") {
  const TempFolder folder;
  fill(folder);
  CHECK(offered(folder, "match 2 --by mass,l") == Offered{"mass,loop"});
  CHECK(offered(folder, "print night.toml --only TH-01,la") == Offered{"TH-01,LA-02"});
}

TEST_CASE("a plan that lists the records' folder is not asked: LOOPLEDGER_RECORDS is") {
  const TempFolder folder;
  fill(folder);
  std::filesystem::rename(folder.path("records"), folder.path("kept"));
  CHECK(offered(folder, "show ''") == Offered{});
  CHECK(offered(folder, "show ''", "export LOOPLEDGER_RECORDS=kept") == Offered{"LA-02", "TH-01"});
}

TEST_CASE("what completes a value follows from its choices and its name") {
  const auto of = [](const std::string& name, const std::string& value, bool by_place, bool many) {
    return terminal::completed_by(OptionHelp{name, value, "", by_place, false, many}, name);
  };
  const Completed by = of("--by", "TEXT:{mass,loop}", false, true);
  CHECK((by.kind == Completed::Kind::words && by.list));
  CHECK(by.words == std::vector<std::string>{"mass", "loop"});
  CHECK(of("PLAN", "TEXT", true, false).kind == Completed::Kind::files);
  CHECK(of("--records", "TEXT", false, false).kind == Completed::Kind::folders);
  const Completed ids = of("ID", "TEXT", true, true);
  CHECK((ids.kind == Completed::Kind::motors && !ids.list));
  CHECK(of("--owner", "TEXT", false, false).kind == Completed::Kind::nothing);
}

TEST_CASE("help with quotes and brackets is harmless in every shell") {
  const std::vector<terminal::CommandHelp> all{
      {"loopledger", "", "", {}},
      {"fold", "It's [so]", "", {{"-x,--longer", "", "Don't [stop]\nnow", false, false, false}}}};
  CHECK(has(terminal::zsh_completion(all), "'fold:It'\\''s \\[so\\]'"));
  CHECK(has(terminal::zsh_completion(all), "'(-x --longer)--longer[Don'\\''t \\[stop\\] now]'"));
  CHECK(has(terminal::fish_completion(all),
            "complete -c loopledger -n '__fish_seen_subcommand_from fold' -s x -l longer -d "
            "'Don\\'t [stop] now'\n"));
  CHECK(has(terminal::bash_completion(all), "options='-x --longer'"));
}
