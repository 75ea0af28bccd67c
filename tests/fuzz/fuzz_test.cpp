// SPDX-License-Identifier: MIT
//
// Every seed, and every file that a fuzzer found a fault with, read once more.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "fuzz/claim.h"
#include "fuzz/targets.h"
#include "fuzz/whole_png.h"

using namespace loopledger;
namespace fs = std::filesystem;

namespace {

const fs::path kHere = fs::path(LOOPLEDGER_SOURCE_DIR) / "tests" / "fuzz";

std::string bytes_of(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

std::vector<fs::path> files_in(const fs::path& folder) {
  std::vector<fs::path> files;
  if (fs::exists(folder)) {
    for (const fs::directory_entry& entry : fs::directory_iterator(folder)) {
      files.push_back(entry.path());
    }
  }
  std::ranges::sort(files);
  return files;
}

void holds_for_all(const std::string& name, void (*target)(std::string_view)) {
  const std::vector<fs::path> seeds = files_in(kHere / "seeds" / name);
  CHECK_FALSE(seeds.empty());
  std::vector<fs::path> files = files_in(kHere / "found" / name);
  files.insert(files.end(), seeds.begin(), seeds.end());
  for (const fs::path& file : files) {
    CAPTURE(file.filename());
    CHECK_NOTHROW(target(bytes_of(file)));
  }
}

}  // namespace

TEST_CASE("quantities: seeds and what was found") { holds_for_all("quantity", fuzz::quantity); }
TEST_CASE("plans: seeds and what was found") { holds_for_all("plan", fuzz::plan); }
TEST_CASE("templates: seeds and what was found") { holds_for_all("templates", fuzz::templates); }
TEST_CASE("records: seeds and what was found") { holds_for_all("record", fuzz::record); }
TEST_CASE("tags: seeds and what was found") { holds_for_all("tag", fuzz::tag); }
TEST_CASE("images: seeds and what was found") { holds_for_all("image", fuzz::image); }
TEST_CASE("pictures: seeds and what was found") { holds_for_all("scan", fuzz::scan); }

TEST_CASE("no folder of seeds or finds is without its target") {
  for (const char* kind : {"seeds", "found"}) {
    for (const fs::path& folder : files_in(kHere / kind)) {
      CAPTURE(folder);
      CHECK(fs::exists(kHere / (folder.filename().string() + "_fuzz.cpp")));
    }
  }
}

TEST_CASE("what the targets claim can fail") {
  CHECK_NOTHROW(fuzz::claim(true, "it holds"));
  CHECK_THROWS_AS(fuzz::claim(false, "it does not"), fuzz::Broken);
  CHECK_NOTHROW(fuzz::claim_harmless("Żółw ± 2\n", true));
  for (const char* text : {"\x1b[2J", "\xff", "a\nb", "\u202e", "\u0085"}) {
    CAPTURE(text);
    CHECK_THROWS_AS(fuzz::claim_harmless(text), fuzz::Broken);
  }
  CHECK_THROWS_AS(fuzz::claim_diagnostics({error("", "no code")}, 10), fuzz::Broken);
  CHECK_THROWS_AS(fuzz::claim_diagnostics({error("a", std::string(5000, 'x'))}, 10), fuzz::Broken);
  CHECK_THROWS_AS(fuzz::claim_diagnostics(Diagnostics(500, error("a", "b")), 10), fuzz::Broken);
}

TEST_CASE("a PNG gets right checksums, other bytes stay") {
  std::string png = bytes_of(kHere / "seeds" / "image" / "label.png");
  REQUIRE(png.size() > 40);
  CHECK(fuzz::with_right_checksums(png) == png);
  std::string broken = png;
  broken[29] = static_cast<char>(broken[29] ^ 1);  // in the checksum of the first chunk
  CHECK(fuzz::with_right_checksums(broken) == png);
  CHECK(fuzz::with_right_checksums("GIF89a") == "GIF89a");
}
