// SPDX-License-Identifier: MIT
#include "pdf/write_pdf.h"

#include <fmt/format.h>
#include <hpdf.h>

#include <set>
#include <variant>
#include <vector>

#include "pdf/haru.h"

namespace loopledger::pdf {
namespace {

constexpr std::size_t kMostFaces = 2;
constexpr std::size_t kLongestText = 8000;  // bytes; the library's own limit is 65535
constexpr std::size_t kPagesInFlatTree = 1000;

HPDF_REAL pt(double mm) { return static_cast<HPDF_REAL>(mm * 72 / 25.4); }

/// Draws one page. Remembers what is set, so that a page states colour and width only on change.
class Pen {
 public:
  Pen(Haru& haru, const Fonts& fonts, const page::Page& page, const page::PrinterFit& fit)
      : haru_(haru), fonts_(fonts), height_(page.height), page_(HPDF_AddPage(haru.doc())) {
    if (page_ != nullptr) {
      // The default size is in whole points, which is up to 0.3 mm off.
      HPDF_Page_SetWidth(page_, pt(page.width));
      HPDF_Page_SetHeight(page_, pt(page.height));
      if (fit != page::PrinterFit{}) {
        HPDF_Page_Concat(page_, static_cast<HPDF_REAL>(fit.sx), 0, 0,
                         static_cast<HPDF_REAL>(fit.sy), pt(fit.dx),
                         pt(height_ * (1 - fit.sy) - fit.dy));
      }
    }
  }

  [[nodiscard]] HPDF_Page page() const { return page_; }

  void operator()(const page::Line& line) {
    set_line(line.width, line.grey);
    HPDF_Page_MoveTo(page_, pt(line.x1), up(line.y1));
    HPDF_Page_LineTo(page_, pt(line.x2), up(line.y2));
    HPDF_Page_Stroke(page_);
  }

  void operator()(const page::Polyline& line) {
    if (line.points.size() < 2) {
      return;
    }
    set_line(line.width, line.grey);
    HPDF_Page_GSave(page_);  // the joins are this curve's own
    HPDF_Page_SetLineJoin(page_, HPDF_ROUND_JOIN);
    HPDF_Page_MoveTo(page_, pt(line.points.front().x), up(line.points.front().y));
    for (std::size_t i = 1; i < line.points.size(); ++i) {
      HPDF_Page_LineTo(page_, pt(line.points[i].x), up(line.points[i].y));
    }
    HPDF_Page_Stroke(page_);
    HPDF_Page_GRestore(page_);
  }

  void operator()(const page::Box& box) {
    const bool fill = box.fill_grey >= 0;
    const bool outline = box.line_width > 0;
    if (fill) {
      set_fill(box.fill_grey);
    }
    if (outline) {
      set_line(box.line_width, box.line_grey);
    }
    if (fill || outline) {
      HPDF_Page_Rectangle(page_, pt(box.x), up(box.y + box.h), pt(box.w), pt(box.h));
      (fill && outline ? HPDF_Page_FillStroke : fill ? HPDF_Page_Fill : HPDF_Page_Stroke)(page_);
    }
  }

  void operator()(const page::Text& text) {
    HPDF_Font font = haru_.font(text.face, fonts_);
    if (font == nullptr || text.utf8.empty()) {
      return;
    }
    set_fill(text.grey);
    const auto size = static_cast<HPDF_REAL>(text.size_pt);
    double x = text.x;
    if (text.align != page::Align::left) {
      const double width = width_mm(font, text);
      x -= text.align == page::Align::centre ? width / 2 : width;
    }
    HPDF_Page_BeginText(page_);
    HPDF_Page_SetFontAndSize(page_, font, size);
    HPDF_Page_TextOut(page_, pt(x), up(text.y), text.utf8.c_str());
    HPDF_Page_EndText(page_);
  }

  // Runs of dark modules in whole module units, filled at once: no hairlines at any resolution.
  void operator()(const page::Qr& qr) {
    const tag::QrSymbol& symbol = qr.symbol;
    const HPDF_REAL module = pt(qr.module);
    set_fill(0);
    HPDF_Page_GSave(page_);
    HPDF_Page_Concat(page_, module, 0, 0, -module, pt(qr.x), up(qr.y));
    for (int row = 0; row < symbol.modules; ++row) {
      for (int column = 0; column < symbol.modules;) {
        int end = column;
        while (end < symbol.modules && symbol.at(end, row)) {
          ++end;
        }
        if (end > column) {
          HPDF_Page_Rectangle(page_, static_cast<HPDF_REAL>(column), static_cast<HPDF_REAL>(row),
                              static_cast<HPDF_REAL>(end - column), 1);
        }
        column = end + 1;
      }
    }
    HPDF_Page_Fill(page_);
    HPDF_Page_GRestore(page_);
  }

 private:
  [[nodiscard]] HPDF_REAL up(double y) const { return pt(height_ - y); }

  static double width_mm(HPDF_Font font, const page::Text& text) {
    const std::vector<HPDF_BYTE> bytes(text.utf8.begin(), text.utf8.end());
    const HPDF_TextWidth width =
        HPDF_Font_TextWidth(font, bytes.data(), static_cast<HPDF_UINT>(bytes.size()));
    return width.width * text.size_pt / 1000 * 25.4 / 72;
  }

  void set_fill(double grey) {
    if (grey != fill_) {
      HPDF_Page_SetGrayFill(page_, static_cast<HPDF_REAL>(grey));
      fill_ = grey;
    }
  }

  void set_line(double width, double grey) {
    if (grey != stroke_) {
      HPDF_Page_SetGrayStroke(page_, static_cast<HPDF_REAL>(grey));
      stroke_ = grey;
    }
    if (width != width_) {
      HPDF_Page_SetLineWidth(page_, pt(width));
      width_ = width;
    }
  }

  Haru& haru_;
  const Fonts& fonts_;
  double height_;
  HPDF_Page page_;
  double fill_ = -1;
  double stroke_ = -1;
  double width_ = -1;
};

/// Empty when the document can be written.
Diagnostics check(const page::Document& document) {
  Diagnostics problems;
  std::set<page::Face> faces;
  for (std::size_t p = 0; p < document.pages.size(); ++p) {
    for (const page::Item& item : document.pages[p].items) {
      const auto* text = std::get_if<page::Text>(&item);
      if (text == nullptr) {
        continue;
      }
      faces.insert(text->face);
      if (text->utf8.size() > kLongestText) {
        problems.push_back(error("pdf-text", fmt::format("a text on page {} is {} bytes long",
                                                         p + 1, text->utf8.size())));
      }
    }
  }
  if (faces.size() > kMostFaces) {
    problems.push_back(error(
        "pdf-faces",
        fmt::format("a document uses at most {} font faces, found {}", kMostFaces, faces.size())));
  }
  if (document.pages.empty()) {
    problems.push_back(error("pdf-empty", "a document needs at least one page"));
  }
  return problems;
}

void set_up(Haru& haru, const page::Document& document) {
  HPDF_Doc doc = haru.doc();
  HPDF_UseUTFEncodings(doc);
  HPDF_SetCompressionMode(doc, HPDF_COMP_ALL);
  if (document.pages.size() > kPagesInFlatTree) {
    HPDF_SetPagesConfiguration(doc, 40);
  }
  HPDF_SetCurrentEncoder(doc, "UTF-8");  // before the title, or it is garbled
  HPDF_SetInfoAttr(doc, HPDF_INFO_TITLE, document.title.c_str());
  HPDF_SetInfoAttr(doc, HPDF_INFO_CREATOR, "Loopledger");
  HPDF_SetViewerPreference(doc, HPDF_PRINT_SCALING_NONE);
  if (document.created) {
    const Date date = date_of(*document.created);
    const std::int64_t second = document.created->seconds - midnight_utc(date).seconds;
    HPDF_SetInfoDateAttr(
        doc, HPDF_INFO_CREATION_DATE,
        HPDF_Date{date.year, date.month, date.day, static_cast<HPDF_INT>(second / 3600),
                  static_cast<HPDF_INT>(second / 60 % 60), static_cast<HPDF_INT>(second % 60), 'Z',
                  0, 0});
  }
  // The library has no call for the language of the text; the catalogue takes it all the same.
  HPDF_Dict_Add(doc->catalog, "Lang",
                HPDF_String_New(doc->mmgr, document.language.c_str(), nullptr));
}

void add_outline(Haru& haru, const page::Document& document, const std::vector<HPDF_Page>& pages) {
  if (document.outline.empty()) {
    return;
  }
  HPDF_Encoder encoder = HPDF_GetEncoder(haru.doc(), "UTF-8");
  for (const page::Bookmark& mark : document.outline) {
    if (mark.page >= pages.size()) {
      continue;
    }
    HPDF_Outline outline = HPDF_CreateOutline(haru.doc(), nullptr, mark.title.c_str(), encoder);
    HPDF_Destination to = HPDF_Page_CreateDestination(pages[mark.page]);
    HPDF_Destination_SetFit(to);
    HPDF_Outline_SetDestination(outline, to);
  }
  HPDF_SetPageMode(haru.doc(), HPDF_PAGE_MODE_USE_OUTLINE);
}

}  // namespace

Result<std::string> write_pdf(const page::Document& document, const Fonts& fonts) {
  if (Diagnostics problems = check(document); !problems.empty()) {
    return problems;
  }
  Haru haru;
  if (haru.failed()) {
    return haru.problem("start a PDF");
  }
  set_up(haru, document);
  std::vector<HPDF_Page> pages;
  for (const page::Page& page : document.pages) {
    Pen pen(haru, fonts, page, document.fit);
    for (const page::Item& item : page.items) {
      if (haru.failed()) {
        break;
      }
      std::visit(pen, item);
    }
    if (haru.failed()) {
      return haru.problem(fmt::format("draw page {}", pages.size() + 1));
    }
    pages.push_back(pen.page());
  }
  add_outline(haru, document, pages);
  if (haru.failed()) {
    return haru.problem("add the outline");
  }
  return haru.bytes();
}

}  // namespace loopledger::pdf
