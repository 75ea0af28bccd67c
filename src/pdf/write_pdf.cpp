// SPDX-License-Identifier: MIT
#include "pdf/write_pdf.h"

#include <fmt/format.h>
#include <hpdf.h>

#include <variant>
#include <vector>

#include "pdf/check_document.h"
#include "pdf/haru.h"
#include "pdf/own_mark.h"
#include "pdf/text_string.h"

namespace loopledger::pdf {
namespace {

constexpr std::size_t kPagesInFlatTree = 1000;

HPDF_REAL pt(double mm) { return static_cast<HPDF_REAL>(mm * 72 / 25.4); }

/// Draws one page. Remembers what is set, so that a page states colour and width only on change.
class Pen {
 public:
  Pen(Haru& haru, const Fonts& fonts, const page::Page& page,
      const page::PrintCorrection& correction)
      : haru_(haru), fonts_(fonts), height_(page.height), page_(HPDF_AddPage(haru.doc())) {
    if (page_ != nullptr) {
      // The default size is in whole points, which is up to 0.3 mm off.
      HPDF_Page_SetWidth(page_, pt(page.width));
      HPDF_Page_SetHeight(page_, pt(page.height));
      if (correction != page::PrintCorrection{}) {
        HPDF_Page_Concat(page_, static_cast<HPDF_REAL>(correction.sx), 0, 0,
                         static_cast<HPDF_REAL>(correction.sy), pt(correction.dx),
                         pt(height_ * (1 - correction.sy) - correction.dy));
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
    HPDF_Font font = haru_.font(text.face, fonts_, text.utf8);
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

/// nullptr: the library had no memory for it, and `Dict_Add` of it is an error that is kept.
HPDF_Binary text_object(HPDF_Doc doc, const std::string& utf8) {
  const std::string text = text_string(utf8);
  std::vector<HPDF_BYTE> bytes(text.begin(), text.end());
  return HPDF_Binary_New(doc->mmgr, bytes.data(), static_cast<HPDF_UINT>(bytes.size()));
}

void set_up(Haru& haru, const page::Document& document) {
  HPDF_Doc doc = haru.doc();
  HPDF_UseUTFEncodings(doc);
  HPDF_SetCompressionMode(doc, HPDF_COMP_ALL);
  if (document.pages.size() > kPagesInFlatTree) {
    HPDF_SetPagesConfiguration(doc, 40);
  }
  HPDF_Dict_Add(doc->info, kMarkKey, HPDF_String_New(doc->mmgr, kMarkBlank, nullptr));
  HPDF_Dict_Add(doc->info, "Title", text_object(doc, document.title));
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
  for (const page::Bookmark& mark : document.outline) {
    HPDF_Outline outline = HPDF_CreateOutline(haru.doc(), nullptr, "", nullptr);
    HPDF_Destination to = HPDF_Page_CreateDestination(pages[mark.page]);
    if (outline == nullptr || to == nullptr) {
      return;  // kept as an error
    }
    HPDF_Dict_Add(outline, "Title", text_object(haru.doc(), mark.title));
    HPDF_Destination_SetFit(to);
    HPDF_Outline_SetDestination(outline, to);
  }
  HPDF_SetPageMode(haru.doc(), HPDF_PAGE_MODE_USE_OUTLINE);
}

}  // namespace

Result<std::string> write_pdf(const page::Document& document, const Fonts& fonts,
                              const Memory& memory) {
  if (Diagnostics problems = check_document(document, fonts); !problems.empty()) {
    return problems;
  }
  Haru haru(memory);
  if (haru.failed()) {
    return haru.problem("start a PDF");
  }
  set_up(haru, document);
  if (haru.failed()) {
    return haru.problem("start a PDF");
  }
  std::vector<HPDF_Page> pages;
  for (const page::Page& page : document.pages) {
    Pen pen(haru, fonts, page, document.correction);
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
