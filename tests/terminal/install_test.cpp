// SPDX-License-Identifier: MIT
//
// What `cmake --install` puts into a folder, used from there.
#include <doctest/doctest.h>

#include <cstdlib>
#include <filesystem>
#include <string>

#include "support/cli_run.h"

using namespace loopledger;
using test::has;
using test::TempFolder;

namespace {

namespace fs = std::filesystem;

/// In a shell without any variable of ours; whether it exited with 0.
bool shell(const std::string& command) {
  return std::system(("env -i PATH=\"$PATH\" " + command).c_str()) == 0;
}

void install_to(const std::string& prefix) {
  REQUIRE(shell("\"" LOOPLEDGER_CMAKE "\" --install \"" LOOPLEDGER_BUILD_DIR
                "\" --strip --prefix " +
                prefix + " >" + prefix + ".log 2>&1"));
}

}  // namespace

TEST_CASE("an installed tree that was moved finds its templates and fonts, through a link too") {
  const TempFolder folder;
  install_to(folder.path("first"));
  fs::create_directories(folder.path("another/place"));
  fs::rename(folder.path("first"), folder.path("another/place/moved"));
  const std::string program = folder.path("another/place/moved/bin/loopledger");
  fs::create_symlink(program, folder.path("link"));
  const std::string night = folder.path("night.toml");
  CHECK(shell(program + " new " + night + " >/dev/null"));
  CHECK(shell(folder.path("link") + " print " + night + " --labels a4-3x8-70x37 >/dev/null"));
  CHECK(folder.holds("out/labels.pdf"));
  CHECK(shell(program + " --version >" + folder.path("version")));
  const std::string version = folder.read("version");
  CHECK_MESSAGE(has(version, folder.path("another/place/moved/share/loopledger/templates")),
                version);
  CHECK_FALSE(has(version, LOOPLEDGER_BUILD_DIR));
}

TEST_CASE(
    "manual, completion, licences, examples and the user's guide are installed with the program") {
  const TempFolder folder;
  install_to(folder.path("tree"));
  const std::string manual = folder.path("tree/share/man/man1/loopledger.1");
  CHECK((fs::exists(manual) || fs::exists(manual + ".gz")));
  CHECK(folder.holds("tree/share/bash-completion/completions/loopledger"));
  CHECK(folder.holds("tree/share/zsh/site-functions/_loopledger"));
  CHECK(folder.holds("tree/share/fish/vendor_completions.d/loopledger.fish"));
  CHECK(folder.holds("tree/share/doc/loopledger/README.md"));
  CHECK(folder.holds("tree/share/doc/loopledger/examples/club-night.toml"));
  CHECK_FALSE(folder.holds("tree/share/doc/loopledger/examples/out"));
  CHECK(folder.holds("tree/share/loopledger/templates/rules/fai-f1d.toml"));
  CHECK(folder.holds("tree/share/loopledger/templates/schema/plan.schema.json"));
  CHECK(folder.holds("tree/share/loopledger/templates/manual/plan.md"));
  const std::string copyright = folder.read("tree/share/doc/loopledger/copyright");
  CHECK(has(copyright, "License: MIT\n MIT License\n .\n Copyright (c)"));
  CHECK(has(copyright, "Bitstream Vera"));
  CHECK(has(copyright, "Apache-2.0"));
  for (const auto& entry : fs::directory_iterator(folder.path("tree/share/loopledger/fonts"))) {
    const std::string name = entry.path().stem().string();
    if (entry.path().extension() == ".ttf") {
      const std::string family = name.substr(0, name.find('-'));
      CHECK_MESSAGE(has(copyright, "Files: fonts/" + family + "*"), name);
    }
  }
}
