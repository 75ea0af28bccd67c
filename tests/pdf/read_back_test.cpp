// SPDX-License-Identifier: MIT
//
// The sheets as PDF, read back: valid, true to size, searchable, silent.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "pdf/own_mark.h"
#include "sheets/break_in_sheet.h"
#include "sheets/cut_sheet.h"
#include "sheets/field_card.h"
#include "sheets/labels.h"
#include "support/invented_batch.h"
#include "support/invented_cards.h"
#include "support/page_check.h"
#include "support/pdf_tools.h"

namespace {

using namespace loopledger;

page::Document cut_sheet(int motors, const std::string& paper,
                         std::optional<Moment> created = std::nullopt) {
  const test::InventedBatch made = test::invented_batch(motors);
  auto document =
      sheets::cut_sheet(made.plan, made.batch, test::stock(paper), test::metrics(), created);
  REQUIRE(document.ok());
  CHECK(render(document.diagnostics()) == "");
  return std::move(document).value();
}

bool has(const std::string& text, const std::string& what) {
  return text.find(what) != std::string::npos;
}

TEST_CASE("a sheet is a valid PDF of the paper's size, with a title and no printer scaling") {
  const test::TempFolder folder;
  for (const auto& [paper, size] : {std::pair{"a4", "595.276 x 841.89 pts (A4)"},
                                    std::pair{"letter", "612 x 792 pts (letter)"}}) {
    const std::string path = test::written(cut_sheet(24, paper), folder, "cut.pdf");
    const test::Ran checked = test::run_tool("qpdf --check " + path);
    CHECK(checked.code == 0);
    CHECK(checked.err == "");
    const test::Ran info = test::run_tool("pdfinfo " + path);
    CHECK(info.err == "");
    CHECK(has(info.out, size));
    CHECK(has(info.out, "CUT SHEET: Harbour evening (invented)"));
    CHECK_FALSE(has(info.out, "CreationDate"));
    const std::string objects = test::run_tool("qpdf --qdf " + path + " -").out;
    CHECK(has(objects, "/PrintScaling /None"));
    CHECK(has(objects, "/Lang (en)"));
  }
}

/// One of each kind of document, with 24 motors.
std::vector<page::Document> each_kind() {
  const test::InventedBatch made = test::invented_batch(24);
  std::vector<motor::LabelFigures> figures;
  for (const calc::MotorFigures& motor : made.batch.motors) {
    figures.push_back(motor::label_figures(motor));
  }
  sheets::LabelRun run;
  run.layouts = test::layouts();
  run.stock = test::stock("letter-3x10-2.625x1");
  std::vector<page::Document> all{cut_sheet(24, "a4")};
  for (auto& document : {sheets::break_in_sheet(made.plan, made.batch, test::stock("letter"),
                                                test::metrics(), std::nullopt),
                         sheets::labels(figures, run, test::metrics())}) {
    REQUIRE(document.ok());
    all.push_back(document.value());
  }
  return all;
}

TEST_CASE("at most two faces, embedded as subsets, with their characters") {
  const test::TempFolder folder;
  for (const page::Document& document : each_kind()) {
    const std::string path = test::written(document, folder, "a.pdf");
    const test::Ran listed = test::run_tool("pdffonts " + path);
    CHECK(listed.err == "");
    // Two lines of head, then one for each font: name, type, encoding, emb sub uni.
    CHECK(std::count(listed.out.begin(), listed.out.end(), '\n') == 4);
    std::size_t good = 0;
    for (std::size_t at = listed.out.find("yes yes yes"); at != std::string::npos;
         at = listed.out.find("yes yes yes", at + 1)) {
      ++good;
    }
    CHECK(good == 2);
    // Whole, the faces are 300 to 700 kB each.
    CHECK(std::filesystem::file_size(path) < 250'000);
  }
}

TEST_CASE("no reader has anything to say against any of the documents") {
  const test::TempFolder folder;
  const bool mutool = test::run_tool("command -v mutool").code == 0;
  for (const page::Document& document : each_kind()) {
    const std::string path = test::written(document, folder, "a.pdf");
    const std::string objects = test::run_tool("qpdf --qdf " + path + " -").out;
    CHECK(has(objects, "/PrintScaling /None"));
    CHECK(has(objects, "/Lang (en)"));
    std::vector<std::string> readers{"qpdf --check ", "pdffonts ", "pdfinfo ", "pdftoppm -r 40 "};
    if (mutool) {
      readers.emplace_back("mutool draw -q -r 40 -o /dev/null ");
    } else {
      MESSAGE("mutool not found: its warnings are not looked for");
    }
    for (const std::string& reader : readers) {
      CAPTURE(reader);
      const test::Ran ran = test::run_tool(reader + path + " >/dev/null");
      CHECK(ran.code == 0);
      // How that reader was built is not about the file.
      CHECK((ran.err == "" || ran.err == "warning: ICC support is not available\n"));
    }
  }
}

TEST_CASE("saved again by another program, a PDF is no longer known as ours") {
  const test::TempFolder folder;
  const std::string path = test::written(cut_sheet(1, "a4"), folder, "cut.pdf");
  const auto is_ours = [](const std::string& file) {
    std::ifstream in(file, std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(in), {}};
    return pdf::has_mark(std::string_view(bytes).substr(0, pdf::kMarkWithin), bytes.size());
  };
  CHECK(is_ours(path));
  int tried = 0;
  for (const std::string options : {"", "--linearize ", "--qdf ", "--object-streams=generate ",
                                    "--stream-data=preserve --object-streams=preserve "}) {
    const std::string again = folder.path() + "/again.pdf";
    REQUIRE(test::run_tool("qpdf " + options + path + " " + again).code == 0);
    CAPTURE(options);
    CHECK_FALSE(is_ours(again));
    ++tried;
  }
  CHECK(tried == 5);
}

TEST_CASE("text in every language comes back as it was, and no reader complains") {
  const test::TempFolder folder;
  const std::string path = test::written(cut_sheet(24, "a4"), folder, "cut.pdf");
  const test::Ran text = test::run_tool("pdftotext -layout " + path + " -");
  CHECK(text.err == "");
  for (const char* name : {"Anna", "Żaneta Źdźbłowicz-Łączyńska", "Řehoř Žluťoučký-Křepelka",
                           "Ευανθία Ψαροκαπνίδου", "Щавель Ёжиков-Журавлёв"}) {
    CAPTURE(name);
    CHECK(has(text.out, name));
  }
  const test::Ran drawn =
      test::run_tool("pdftoppm -r 50 -gray " + path + " " + folder.path() + "/p");
  CHECK(drawn.err == "");
}

TEST_CASE("texts stand where the page model has them, to 0.1 mm") {
  const test::TempFolder folder;
  const page::Document document = cut_sheet(3, "letter");
  const std::vector<test::SeenWord> seen =
      test::words_of(test::written(document, folder, "cut.pdf"));
  int compared = 0;
  for (std::size_t p = 0; p < document.pages.size(); ++p) {
    for (const test::Extent& e : test::text_extents(document.pages[p], test::metrics())) {
      if (e.what.find_first_of(" <>&") != std::string::npos ||
          e.what.find("\u00a0") != std::string::npos) {
        continue;  // more than one word, or written otherwise in the reader's HTML
      }
      CAPTURE(e.what);
      const bool found = std::any_of(seen.begin(), seen.end(), [&](const test::SeenWord& w) {
        return w.page == p && w.text == e.what && std::abs(w.x1 - e.x1) < 0.1 &&
               std::abs(w.x2 - e.x2) < 0.1 && w.y1 < e.y1 && w.y2 > e.y2 - 1;
      });
      CHECK(found);
      ++compared;
    }
  }
  CHECK(compared > 50);
}

TEST_CASE("with the real faces too, nothing leaves the margin and no texts lie over each other") {
  for (const std::string paper : {"a4", "letter"}) {
    for (const int motors : {1, 24, 60}) {
      CAPTURE(motors);
      const test::InventedBatch made = test::invented_batch(motors);
      for (const auto& document : {sheets::cut_sheet(made.plan, made.batch, test::stock(paper),
                                                     test::metrics(), std::nullopt),
                                   sheets::break_in_sheet(made.plan, made.batch, test::stock(paper),
                                                          test::metrics(), std::nullopt)}) {
        REQUIRE(document.ok());
        CHECK(render(document.diagnostics()) == "");
        CHECK(test::out_of_margin(document.value(), test::metrics(), 5) == "");
        CHECK(test::overlapping_texts(document.value(), test::metrics()) == "");
      }
    }
  }
}

TEST_CASE("field cards in the real faces: margins, texts apart, nothing cut") {
  for (const std::string paper : {"a4", "letter"}) {
    for (const Units units : {Units::metric, Units::inch}) {
      sheets::CardRun run;
      run.title = "Harbour evening (invented)";
      run.units = units;
      for (const auto& motors : {test::box_of_cards(60), {test::longest_card()}}) {
        const auto document = sheets::field_cards(motors, run, test::stock(paper), test::metrics());
        REQUIRE(document.ok());
        CHECK(render(document.diagnostics()) == "");
        CHECK(test::out_of_margin(document.value(), test::metrics(), 5) == "");
        CHECK(test::overlapping_texts(document.value(), test::metrics()) == "");
      }
    }
  }
}

TEST_CASE("a curve is one stroke through its points, joined round") {
  const test::TempFolder folder;
  page::Document document;
  document.pages.emplace_back();
  document.pages.back().items.emplace_back(
      page::Polyline{.points = {{10, 10}, {20, 40}, {30, 45}}, .width = 0.7});
  document.pages.back().items.emplace_back(page::Line{.x1 = 10, .y1 = 50, .x2 = 30, .y2 = 50});
  const std::string path = test::written(document, folder, "curve.pdf");
  const std::string drawn =
      test::run_tool("qpdf --qdf --object-streams=disable " + path + " -").out;
  const auto times = [&drawn](const std::string& operation) {
    int n = 0;
    for (std::size_t at = drawn.find(operation); at != std::string::npos;
         at = drawn.find(operation, at + 1)) {
      ++n;
    }
    return n;
  };
  CHECK(times(" l\n") == 3);
  CHECK(times("\nS\n") == 2);
  CHECK(times("1 j\n") == 1);
}

TEST_CASE("the outline names every owner and leads to the page") {
  const test::TempFolder folder;
  const std::string path = test::written(cut_sheet(24, "a4"), folder, "cut.pdf");
  const std::string outline = test::run_tool("qpdf --json --json-key=outlines " + path).out;
  CHECK(has(outline, "Cutting plan"));
  CHECK(has(outline, "Řehoř"));
  CHECK(has(outline, "\"destpageposfrom1\": 3"));
}

TEST_CASE("the creation date is the document's own, to the second") {
  const test::TempFolder folder;
  const Moment moment{midnight_utc({2026, 1, 31}).seconds + 3600 * 18 + 60 * 7 + 5};
  const std::string path = test::written(cut_sheet(1, "a4", moment), folder, "cut.pdf");
  CHECK(has(test::run_tool("TZ=UTC pdfinfo -isodates " + path).out, "2026-01-31T18:07:05"));
}

}  // namespace
