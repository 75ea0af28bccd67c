// SPDX-License-Identifier: MIT
//
// The user's language changes nothing: the same text is read and written where the decimal point is
// a comma, also when a library has set that locale for the whole process.
#include <doctest/doctest.h>

#include <clocale>
#include <cstdlib>
#include <locale>
#include <string>
#include <vector>

#include "ledger_bench.h"
#include "support/program.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

/// German numbers: "1.234,5".
class CommaNumbers : public std::numpunct<char> {
 protected:
  [[nodiscard]] char do_decimal_point() const override { return ','; }
  [[nodiscard]] char do_thousands_sep() const override { return '.'; }
  [[nodiscard]] std::string do_grouping() const override { return "\3"; }
};

/// German for the C library and for C++ streams while it lives; `works` tells of the former.
class German {
 public:
  explicit German(const std::string& folder) {
    ::setenv("LOCPATH", folder.c_str(), 1);  // NOLINT(concurrency-mt-unsafe)
    before_ = std::locale::global(std::locale(std::locale::classic(), new CommaNumbers));
    works = std::setlocale(LC_ALL, "de_DE.UTF-8") != nullptr;  // NOLINT(concurrency-mt-unsafe)
  }
  German(const German&) = delete;
  German& operator=(const German&) = delete;
  ~German() {
    std::locale::global(before_);
    (void)std::setlocale(LC_ALL, "C");  // NOLINT(concurrency-mt-unsafe)
    ::unsetenv("LOCPATH");              // NOLINT(concurrency-mt-unsafe)
  }
  bool works = false;

 private:
  std::locale before_;
};

/// A German locale in the folder; false, and said, where this system can't make one.
bool made_german(const TempFolder& folder) {
  const Ran made = shell(folder, "localedef -i de_DE -f UTF-8 ./de_DE.UTF-8");
  if (made.code != 0) {
    MESSAGE(
        "localedef can't make de_DE.UTF-8 here (Debian: package locales); only C++ streams are "
        "tested with a decimal comma");
  }
  return made.code == 0;
}

/// One command after the other on a fresh ledger; all that they said and wrote.
std::string told_by_all() {
  const LedgerBench ledger;
  const std::string plan = ledger.folder.path("night.toml");
  std::string all;
  const auto add = [&](const Ran& ran) {
    all += ledger.told(std::to_string(ran.code) + "\n" + ran.out + ran.err);
  };
  add(run({"check", plan}));
  add(run({"check", plan, "--json", "--units", "inch"}));
  add(ledger({"log", "--sure", "th1", "weighed", "washed", "1.437"}));
  add(ledger({"log", "--sure", "th1", "tied", "loop=283.5 mm", "reading=1.449 g"}));
  add(ledger({"log", "--sure", "th1", "wound", "1180", "41.5 gf.cm", "end=stopped"}));
  add(ledger({"log", "--sure", "th1", "wound", "1,180"}));
  add(run({"bench", plan}, "th2 1.4375\nth2 1,437\n"));
  for (const std::vector<std::string>& words :
       std::vector<std::vector<std::string>>{{"show", "th1", "--launch", "18.5 gf.cm"},
                                             {"show", "th1", "--json"},
                                             {"list"},
                                             {"list", "--csv"},
                                             {"list", "--json"},
                                             {"match", "2"},
                                             {"fit", "May"},
                                             {"label", "th1", "--out", ledger.folder.path("out")},
                                             {"card", "th1", "--out", ledger.folder.path("out")}}) {
    add(ledger(words));
  }
  add(run({"sources"}));
  for (const char* name : {"out/cut-sheet.pdf", "out/break-in.pdf", "out/labels.pdf",
                           "out/card.pdf", "records/TH-01.toml", "records/TH-02.toml"}) {
    all += ledger.told(ledger.folder.read(name));
  }
  return all;
}

/// Without what chance puts into it: the ends of keys, and the sums of lines that hold them.
std::string without_chance(std::string text) {
  for (const std::string before : {"2026-05-01 10:00  ", "sum = \""}) {
    for (std::size_t at = text.find(before); at != std::string::npos;
         at = text.find(before, at + 1)) {
      text.replace(at + before.size(), before.size() < 10 ? 8 : 4, "?");
    }
  }
  return text;
}

std::size_t first_difference(const std::string& a, const std::string& b) {
  std::size_t at = 0;
  while (at < a.size() && at < b.size() && a[at] == b[at]) {
    ++at;
  }
  return a == b ? std::string::npos : at;
}

}  // namespace

TEST_CASE("a locale that was set for the whole process changes nothing that is read or written") {
  const TempFolder folder;
  const bool made = made_german(folder);
  const std::string plain = without_chance(told_by_all());
  std::string german;
  {
    const German set(folder.path());
    CHECK(set.works == made);
    german = without_chance(told_by_all());
  }
  const std::size_t at = first_difference(plain, german);
  CHECK_MESSAGE(at == std::string::npos, plain.substr(at > 60 ? at - 60 : 0, 120), "\n--\n",
                german.substr(at > 60 ? at - 60 : 0, 120));
}

TEST_CASE("the program says the same under LANG=C and under a language with a decimal comma") {
  const LedgerBench ledger;
  const bool made = made_german(ledger.folder);
  const std::string script =
      "$LL check night.toml; $LL check night.toml --json; $LL list --records records --csv;"
      "$LL show th1 --records records --temperature '12.5 C'; $LL show th1x --records records";
  const Ran plain = shell(ledger.folder, "export LC_ALL=C LANG=C; " + script);
  CHECK(has(plain.out, "1.5 g"));
  for (const char* language : {"LC_ALL=C.UTF-8", "LC_ALL=de_DE.UTF-8 LOCPATH=.", "LC_ALL=xx_YY"}) {
    CAPTURE(language);
    const Ran other = shell(ledger.folder, "export " + std::string(language) + "; " + script);
    CHECK(other.out == plain.out);
    CHECK(other.err == plain.err);
  }
  if (made) {
    // The test itself works: another program does write a comma.
    CHECK(has(shell(ledger.folder, "LC_ALL=de_DE.UTF-8 LOCPATH=. /usr/bin/printf '%.1f' 1,5").out,
              "1,5"));
  }
}
