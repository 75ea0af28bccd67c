// SPDX-License-Identifier: MIT
#include "terminal/manual.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <regex>
#include <set>
#include <string>

#include "support/cli_run.h"

using namespace loopledger;
using test::has;
using test::run;

namespace {

std::string text_of(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

/// The page that the build made.
const std::string& page() {
  static const std::string kPage = text_of(LOOPLEDGER_MANUAL);
  return kPage;
}

std::set<std::string> all_of(const std::string& text, const std::string& pattern) {
  const std::regex regex(pattern);
  std::set<std::string> found;
  for (auto it = std::sregex_iterator(text.begin(), text.end(), regex);
       it != std::sregex_iterator(); ++it) {
    found.insert((*it)[1]);
  }
  return found;
}

/// What the manual says of a command, or of the program when there is none.
std::string section_of(const std::string& command) {
  const std::string head =
      command.empty() ? ".SS Options of the program itself\n" : ".SS \"" + command + " ";
  const std::size_t at = page().find(head);
  REQUIRE_MESSAGE(at != std::string::npos, command);
  const std::size_t end = page().find("\n.S", at + 1);
  return page().substr(at, end - at);
}

std::set<std::string> commands_of_help() {
  const std::string help = run({"--help"}).out;
  return all_of(help.substr(help.find("Subcommands:")), "\n  ([a-z]+) ");
}

}  // namespace

TEST_CASE("every command and every option of the help is in the manual") {
  const std::set<std::string> commands = commands_of_help();
  CHECK(commands.size() >= 14);
  std::size_t options = 0;
  for (const std::string& command : commands) {
    const std::string section = section_of(command);
    for (const std::string& option : all_of(run({command, "--help"}).out, "(--[a-z-]+)")) {
      CHECK_MESSAGE(has(section + section_of(""), terminal::troff_text(option)), command, " ",
                    option);
      ++options;
    }
  }
  CHECK(options > 60);
  for (const std::string& option : all_of(run({"--help"}).out, "(--[a-z-]+)")) {
    CHECK_MESSAGE(has(section_of(""), terminal::troff_text(option)), option);
  }
}

TEST_CASE("the manual names no command that does not exist") {
  CHECK(all_of(page(), "\n\\.SS \"([a-z]+)") == commands_of_help());
  const std::string examples = page().substr(page().find(".SH EXAMPLES"));
  for (const std::string& command : all_of(examples, "\n    loopledger ([a-z]+)")) {
    CHECK_MESSAGE(commands_of_help().count(command) == 1, command);
  }
}

TEST_CASE("the manual tells every exit code and every variable that the program asks for") {
  const std::filesystem::path src = std::string(LOOPLEDGER_SOURCE_DIR) + "/src";
  const auto codes = all_of(text_of(src / "commands/exit_code.h"), "=\\s*([0-9]+);");
  CHECK(codes.size() == 6);
  for (const std::string& code : codes) {
    CHECK_MESSAGE(has(page(), ".TP\n.B " + code + "\n"), code);
  }
  std::set<std::string> variables;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(src)) {
    if (entry.is_directory()) {
      continue;
    }
    const std::string text = text_of(entry.path());
    variables.merge(all_of(text, "env\\(\"([A-Z_]+)\""));
    variables.merge(all_of(text, "value_of\\(env, \"([A-Z_]+)\""));
  }
  CHECK(variables.size() >= 8);
  for (const std::string& variable : variables) {
    CHECK_MESSAGE(has(page(), ".TP\n.B " + variable + "\n"), variable);
  }
}

TEST_CASE("text goes into the manual as it stands in the help") {
  CHECK(terminal::troff_text("a-b \\ 'x' `y` \"z\" ~^ 3 ± 1") ==
        "a\\-b \\e \\(aqx\\(aq \\(gay\\(ga \\(dqz\\(dq \\(ti\\(ha 3 \\[u00B1] 1");
  const std::string text =
      terminal::manual_commands({{"loopledger", "", "", {}},
                                 {"fold",
                                  "Fold it",
                                  ".first\nsecond",
                                  {{"ID", "TEXT", ".toml files", true, true, true},
                                   {"-x,--longer", "", "More", false, false, false}}}});
  CHECK(has(text, ".SS \"fold [options] ID ...\"\nFold it\n"));
  CHECK(has(text, ".TP\n\\fBID\\fR\n\\&.toml files\n"));
  CHECK(has(text, ".TP\n\\fB\\-x, \\-\\-longer\\fR\nMore\n"));
  CHECK(has(text, ".nf\n\\&.first\nsecond\n.fi\n"));
  CHECK(terminal::manual(".SH A\n", {}).empty());
}
