// SPDX-License-Identifier: MIT
//
// The same plan is the same PDFs: the program itself, run from different folders, into different
// folders, in different languages and time zones.
#include <doctest/doctest.h>

#include <cstdlib>
#include <string>
#include <vector>

#include "support/cli_run.h"

using namespace loopledger;
using test::has;
using test::TempFolder;

namespace {

constexpr const char* kEveningPlan = R"(format = 1
title = "Wieczór łączony, Přístav"
date = 2026-02-05
bench = { scale_step = "1 mg" }
[strips.tan]
width = "2.4 mm"
samples = [["1 m", "2 g"], ["1 m", "2 g"], ["1 m", "2 g"]]
pieces = [{ tag = "a", length = "9 m" }]
[[motors]]
id = "TH"
count = 5
mass = "1.5 g"
owner = "Żaneta"
)";

constexpr const char* kPdfs[] = {"cut-sheet.pdf", "break-in.pdf", "labels.pdf"};

/// Prints the plan in a shell of its own; the PDFs, one after the other.
std::string printed_with(const std::string& environment, const std::string& cwd) {
  const TempFolder folder;
  folder.write("here/night.toml", kEveningPlan);
  folder.write("there/nothing", "");
  const std::string out = cwd == "here" ? "out" : "../far/away";
  const std::string plan = cwd == "here" ? "night.toml" : "../here/night.toml";
  const std::string command = "cd " + folder.path(cwd) + " && env " + environment +
                              " '" LOOPLEDGER_PROGRAM "' print " + plan + " --out " + out +
                              " >/dev/null 2>" + folder.path("err");
  REQUIRE_MESSAGE(std::system(command.c_str()) == 0, folder.read("err"));
  std::string all;
  for (const char* pdf : kPdfs) {
    const std::string bytes =
        folder.read((cwd == "here" ? "here/out/" : "far/away/") + std::string(pdf));
    REQUIRE(bytes.starts_with("%PDF-"));
    all += bytes;
  }
  return all;
}

}  // namespace

TEST_CASE("folder, language, time zone and time of day leave no trace in the PDFs") {
  const std::string first = printed_with("LANG=C.UTF-8", "here");
  for (const char* environment :
       {"LANG=C LC_ALL=C", "LC_ALL=C.UTF-8 TZ=Pacific/Kiritimati", "TZ=America/St_Johns",
        "LC_NUMERIC=de_DE.UTF-8 LC_ALL=de_DE.UTF-8", "-i"}) {
    for (const char* cwd : {"here", "there"}) {
      CAPTURE(environment);
      CAPTURE(cwd);
      CHECK((printed_with(environment, cwd) == first));
    }
  }
}

TEST_CASE("SOURCE_DATE_EPOCH is the date that the PDFs bear, in every time zone") {
  const std::string dated = printed_with("SOURCE_DATE_EPOCH=1767225661 TZ=Asia/Tokyo", "here");
  CHECK(dated == printed_with("SOURCE_DATE_EPOCH=1767225661", "there"));
  std::size_t found = 0;
  for (std::size_t at = 0;
       (at = dated.find("/CreationDate (D:20260101000101Z", at)) != std::string::npos; ++at) {
    ++found;
  }
  CHECK(found == 3);
  CHECK(has(printed_with("LANG=C", "here"), "/CreationDate (D:20260205000000Z"));
}

TEST_CASE("a SOURCE_DATE_EPOCH that is no moment of our calendar's years leaves the plan's date") {
  const std::string plain = printed_with("LANG=C", "here");
  for (const char* wrong : {"SOURCE_DATE_EPOCH=soon", "SOURCE_DATE_EPOCH=-1", "SOURCE_DATE_EPOCH=",
                            "SOURCE_DATE_EPOCH=999999999999999", "SOURCE_DATE_EPOCH=1e9"}) {
    CAPTURE(wrong);
    CHECK((printed_with(wrong, "here") == plain));
  }
}
