// SPDX-License-Identifier: MIT
//
// Memory that gives out at one call or another that the PDF library makes for it: every time there
// is an error and no PDF. Each try is a process of its own, for libharu 2.3 itself reads what it
// has freed when that happens in the middle of a new page, and may die of it; no PDF is written
// then either.
#include <doctest/doctest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <map>

#include "pdf/write_pdf.h"
#include "support/pdf_tools.h"

namespace {

using namespace loopledger;

// The library hands its allocator no state of ours.
long g_calls = 0;
long g_fails_at = 0;

void* take_until(unsigned size) { return ++g_calls == g_fails_at ? nullptr : std::malloc(size); }
void give_back(void* block) { std::free(block); }
constexpr pdf::Memory kGivesOut{&take_until, &give_back};

enum Outcome { refused = 0, without_code = 1, written = 2, died = 3 };

page::Document one_of_each() {
  page::Document document;
  document.title = "Żółć 😀";
  document.created = Moment{};
  document.pages.resize(2);
  const tag::QrSymbol symbol{.modules = 2, .dark = {true, false, false, true}};
  for (page::Page& page : document.pages) {
    page.items.emplace_back(page::Line{.x1 = 10, .y1 = 10, .x2 = 20, .y2 = 10});
    page.items.emplace_back(page::Box{.x = 10, .y = 20, .w = 5, .h = 5, .fill_grey = 0.5});
    page.items.emplace_back(
        page::Text{.x = 90, .y = 20, .align = page::Align::right, .utf8 = "Żółć"});
    page.items.emplace_back(page::Qr{.x = 50, .y = 50, .symbol = symbol, .text = ""});
  }
  document.outline.push_back({.title = "Łódź", .page = 1});
  return document;
}

Outcome outcome_at(long call, const page::Document& document) {
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    std::signal(SIGSEGV, SIG_DFL);
    std::signal(SIGABRT, SIG_DFL);
    g_calls = 0;
    g_fails_at = call;
    const auto made = pdf::write_pdf(document, test::fonts(), kGivesOut);
    ::_exit(made.ok()                                      ? written
            : made.diagnostics().at(0).code == "pdf-write" ? refused
                                                           : without_code);
  }
  int status = 0;
  REQUIRE(::waitpid(child, &status, 0) == child);
  return WIFEXITED(status) && WEXITSTATUS(status) < died ? static_cast<Outcome>(WEXITSTATUS(status))
                                                         : died;
}

TEST_CASE("memory that gives out at any of the library's calls is an error and no PDF") {
  const page::Document document = one_of_each();
  g_fails_at = -1;
  REQUIRE(pdf::write_pdf(document, test::fonts(), kGivesOut).ok());
  const long calls = g_calls;
  REQUIRE(calls > 1000);
  constexpr long kStep = 61;   // through the fonts, which take thousands of calls
  constexpr long kLast = 270;  // the drawing of the second page, the bookmarks, the saving
  std::map<Outcome, int> seen;
  for (long call = 1; call <= calls; call += call + kStep < calls - kLast ? kStep : 1) {
    const Outcome outcome = outcome_at(call, document);
    CAPTURE(call);
    CHECK((outcome == refused || outcome == died));
    ++seen[outcome];
  }
  CHECK(seen[refused] > kLast);
  CHECK(seen[died] <= 5);
  if (seen[died] > 0) {
    MESSAGE("the library died " << seen[died] << " times of " << seen[refused] + seen[died]);
  }
}

}  // namespace
