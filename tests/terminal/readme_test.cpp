// SPDX-License-Identifier: MIT
//
// The README as a reader would follow it: its commands run in their order in an empty folder, and
// what they print is what it shows.
#include <doctest/doctest.h>
#include <sys/wait.h>

#include <cstdlib>
#include <filesystem>

#include "commands/exit_code.h"
#include "support/cli_run.h"
#include "support/documents.h"

using namespace loopledger;
using test::has;
using test::lines_of;
using test::run;
using test::tree_text;
namespace fs = std::filesystem;

namespace {

struct Block {
  std::string language;
  std::vector<std::string> lines;
};

std::vector<Block> fenced(const std::string& text) {
  std::vector<Block> blocks;
  bool open = false;
  for (const std::string& line : lines_of(text)) {
    if (line.starts_with("```")) {
      open = !open;
      if (open) {
        blocks.push_back({line.substr(3), {}});
      }
    } else if (open) {
      blocks.back().lines.push_back(line);
    }
  }
  return blocks;
}

struct Command {
  std::string text;
  std::vector<std::string> shown;
};

std::vector<Command> commands_in(const Block& block) {
  std::vector<Command> all;
  for (const std::string& line : block.lines) {
    if (line.starts_with("$ ")) {
      all.push_back({line.substr(2), {}});
    } else {
      REQUIRE(!all.empty());
      all.back().shown.push_back(line);
    }
  }
  return all;
}

/// Whether a line is as shown; "…" in it stands for anything.
bool is_like(const std::string& line, const std::string& shown) {
  static const std::string kDots = "…";
  std::size_t at = 0;
  std::size_t from = 0;
  for (std::size_t dots = shown.find(kDots);; dots = shown.find(kDots, from)) {
    const std::string part = shown.substr(from, dots - from);
    const std::size_t found = line.find(part, at);
    if (found == std::string::npos || (from == 0 && found != 0)) {
      return false;
    }
    at = found + part.size();
    if (dots == std::string::npos) {
      return at == line.size() || (from > 0 && line.ends_with(part));
    }
    from = dots + kDots.size();
  }
}

/// Whether the output is as shown; a line "…" stands for any number of lines.
bool is_output(const std::vector<std::string>& lines, std::size_t line,
               const std::vector<std::string>& shown, std::size_t at) {
  if (at == shown.size()) {
    return line == lines.size();
  }
  if (shown[at] == "…") {
    for (std::size_t next = line; next <= lines.size(); ++next) {
      if (is_output(lines, next, shown, at + 1)) {
        return true;
      }
    }
    return false;
  }
  return line < lines.size() && is_like(lines[line], shown[at]) &&
         is_output(lines, line + 1, shown, at + 1);
}

/// A folder as a stranger has it after the build: the program, the examples, nothing else.
class Checkout {
 public:
  Checkout() {
    fs::create_directories(folder_.path("build"));
    fs::create_symlink(LOOPLEDGER_PROGRAM, folder_.path("build/loopledger"));
    fs::create_symlink(std::string(LOOPLEDGER_SOURCE_DIR) + "/examples", folder_.path("examples"));
  }
  /// Runs a line of the shell in the folder; standard error is kept apart.
  [[nodiscard]] test::Ran shell(const std::string& line) const {
    const std::string all =
        "cd " + folder_.path() +
        " && unset LOOPLEDGER_RECORDS LOOPLEDGER_PRINTER && HOME=" + folder_.path() +
        " LOOPLEDGER_DATA='" LOOPLEDGER_SOURCE_DIR "' && export HOME LOOPLEDGER_DATA && { " + line +
        "; } > said.out 2> said.err";
    const int status = std::system(all.c_str());
    return {WEXITSTATUS(status), folder_.read("said.out"), folder_.read("said.err")};
  }

 private:
  test::TempFolder folder_;
};

std::string readme() { return tree_text("README.md"); }

}  // namespace

TEST_CASE("every command of the README does what it shows") {
  const Checkout checkout;
  int ran = 0;
  for (const Block& block : fenced(readme())) {
    if (block.language != "console") {
      continue;
    }
    for (const Command& command : commands_in(block)) {
      const test::Ran said = checkout.shell(command.text);
      CAPTURE(command.text);
      CHECK_MESSAGE(said.code == 0, said.err);
      CHECK_MESSAGE((command.shown.empty() || is_output(lines_of(said.out), 0, command.shown, 0)),
                    said.out);
      ++ran;
    }
  }
  CHECK(ran >= 10);
}

TEST_CASE("what the README runs outside of the program is a script that is there") {
  for (const Block& block : fenced(readme())) {
    CAPTURE(block.language);
    CHECK((block.language == "console" || block.language == "sh" || block.language == "toml"));
    for (const std::string& line : block.lines) {
      if (block.language == "sh" && line.starts_with("sh ")) {
        const std::string script = line.substr(3, line.find(' ', 3) - 3);
        CHECK_MESSAGE(
            std::system(("sh -n '" LOOPLEDGER_SOURCE_DIR "/" + script + "'").c_str()) == 0, script);
      }
    }
  }
}

TEST_CASE("a line of output is like a shown one with its gaps filled, and not otherwise") {
  CHECK(is_like("Wrote a.pdf (2 pages)", "Wrote a.pdf (2 pages)"));
  CHECK(is_like("  20260501T100000Z-b7k2  wound", "  …  wound"));
  CHECK(is_like("AB-01…04  1", "AB-01…04  1"));
  CHECK_FALSE(is_like("Wrote a.pdf (2 pages)", "Wrote a.pdf (1 page)"));
  CHECK_FALSE(is_like("Wrote a.pdf (2 pages)", "Wrote a.pdf"));
  CHECK_FALSE(is_like("  x  wound to", "  …  wound"));
  CHECK(is_output({"a", "b", "c"}, 0, {"a", "…"}, 0));
  CHECK(is_output({"a", "b", "c"}, 0, {"…", "c"}, 0));
  CHECK_FALSE(is_output({"a", "b", "c"}, 0, {"a", "…", "b"}, 0));
}

TEST_CASE("the README is short, and names every command and every exit code") {
  const std::string text = readme();
  CHECK(lines_of(text).size() < 315);
  const std::string help = run({"--help"}).out;
  const std::size_t from = help.find("Subcommands:");
  REQUIRE(from != std::string::npos);
  std::string told;
  for (const std::string& row : test::table_rows(text, "Commands")) {
    told += test::first_cell(row) + "\n";
  }
  int commands = 0;
  for (const std::string& line : lines_of(help.substr(from))) {
    if (line.starts_with("  ") && line.size() > 2 && line[2] != ' ') {
      const std::string name = line.substr(2, line.find(' ', 2) - 2);
      CHECK_MESSAGE((has(told, "`" + name + " ") || has(told, "`" + name + "`")), name);
      ++commands;
    }
  }
  CHECK(static_cast<int>(test::table_rows(text, "Commands").size()) == commands);
  std::set<std::string> codes;
  for (const std::string& row : test::table_rows(text, "Exit codes")) {
    codes.insert(test::first_cell(row));
  }
  std::set<std::string> known;
  for (const int code : {commands::kDone, commands::kInputErrors, commands::kUsage,
                         commands::kEnvironment, commands::kNothingFound, commands::kInternal}) {
    known.insert(" " + std::to_string(code) + " ");
  }
  CHECK(codes == known);
}

TEST_CASE("every option that the documents name is an option of some command") {
  const std::string help = run({"--help-all"}).out;
  static const std::regex kOption("--[a-z][a-z-]+");
  for (const char* path :
       {"README.md", "templates/manual/plan.md", "templates/manual/record.md",
        "templates/manual/json.md", "templates/manual/labels.md", "templates/manual/changes.md"}) {
    std::string text = tree_text(path);
    REQUIRE_MESSAGE(!text.empty(), path);
    for (const char* other : {"cmake --build", "cmake --install", "--prefix DIR"}) {
      for (auto at = text.find(other); at != std::string::npos; at = text.find(other)) {
        text.erase(at, std::string(other).size());
      }
    }
    for (auto at = std::sregex_iterator(text.begin(), text.end(), kOption);
         at != std::sregex_iterator(); ++at) {
      CHECK_MESSAGE(has(help, at->str()), path << ": " << at->str());
    }
  }
}

TEST_CASE("every file that a document links to is there") {
  static const std::regex kLink("\\]\\(([^)#]+)(#[^)]*)?\\)");
  int links = 0;
  for (const auto& document :
       {"README.md", "DEVELOPERS.md", "templates/manual/plan.md", "templates/manual/record.md",
        "templates/manual/json.md", "templates/manual/labels.md", "templates/manual/changes.md"}) {
    const fs::path path = fs::path(LOOPLEDGER_SOURCE_DIR) / document;
    const std::string text = tree_text(document);
    for (auto at = std::sregex_iterator(text.begin(), text.end(), kLink);
         at != std::sregex_iterator(); ++at) {
      const std::string target = (*at)[1];
      if (!target.starts_with("http")) {
        CHECK_MESSAGE(fs::exists(path.parent_path() / target), document << ": " << target);
        ++links;
      }
    }
  }
  CHECK(links > 20);
}
