// SPDX-License-Identifier: MIT
//
// Our symbols, read by a second reader that shares nothing with the one that we use: zbarimg.
#include <doctest/doctest.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <memory>
#include <string>

#include "photo/picture.h"
#include "photo/symbols.h"
#include "tag/id.h"
#include "tag/tag_text.h"

using namespace loopledger;
using namespace loopledger::photo;
using namespace loopledger::tag;

namespace {

/// What zbarimg reads in a PNG file: one line a symbol.
std::string read_by_zbar(const std::filesystem::path& file) {
  const std::string command =
      "zbarimg --quiet --raw -Sdisable -Sqrcode.enable '" + file.string() + "' 2>/dev/null";
  const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
  std::string read;
  std::array<char, 512> part{};
  while (pipe && std::fgets(part.data(), part.size(), pipe.get()) != nullptr) {
    read += part.data();
  }
  return read;
}

bool has_zbar() { return std::system("command -v zbarimg >/dev/null 2>&1") == 0; }

std::vector<std::string> sample_texts() {
  std::vector<std::string> texts;
  for (const int number : {1, 42, 9999}) {
    for (const std::string& text :
         tag_texts({MotorId{"ABCDEFGH", number}, TagState::est, Turns::of(98765),
                    Torque::gf_cm(4321), Mass::g(29.876), Length::mm(1234), Date{2026, 2, 28}})) {
      texts.push_back(text);
    }
  }
  texts.push_back(tag_address("https://loft.example/motors/{id}?from=label", MotorId{"TH", 1}));
  texts.push_back(std::string(200, 'Z'));
  return texts;
}

}  // namespace

TEST_CASE("every symbol reads back to its text") {
  for (const std::string& text : sample_texts()) {
    for (const int module : {2, 4, 7}) {
      const auto symbols = symbols_in(test::drawn(text, module));
      REQUIRE_MESSAGE(symbols.size() == 1, text);
      CHECK(symbols[0].text == text);
    }
  }
}

TEST_CASE("a second, independent reader reads every symbol to its text") {
  if (!has_zbar()) {
    MESSAGE("SKIPPED: zbarimg is not installed (Debian package zbar-tools); nothing was compared");
    return;
  }
  const auto file = std::filesystem::temp_directory_path() /
                    ("loopledger-reader-" + std::to_string(getpid()) + ".png");
  for (const std::string& text : sample_texts()) {
    std::ofstream(file, std::ios::binary) << test::png(test::drawn(text, 4));
    CHECK(read_by_zbar(file) == text + "\n");
  }
  std::filesystem::remove(file);
}
