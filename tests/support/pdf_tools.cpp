// SPDX-License-Identifier: MIT
#include "support/pdf_tools.h"

#include <doctest/doctest.h>
#include <fmt/format.h>
#include <sys/wait.h>

#include <cmath>
#include <cstdio>
#include <fstream>
#include <iterator>
#include <memory>
#include <sstream>

#include "base/diagnostic.h"
#include "pdf/write_pdf.h"
#include "photo/symbols.h"
#include "support/own_fonts.h"

namespace loopledger::test {
namespace {

constexpr double kMmPerPoint = 25.4 / 72;

std::string text_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

double attribute(const std::string& line, const std::string& name) {
  const std::size_t at = line.find(name + "=\"");
  return at == std::string::npos ? -1 : std::stod(line.substr(at + name.size() + 2));
}

/// Page heights in points, by pdfinfo.
std::vector<double> page_heights(const std::string& pdf) {
  std::vector<double> heights;
  std::istringstream lines(run_tool("pdfinfo -f 1 -l 9999 " + pdf).out);
  for (std::string line; std::getline(lines, line);) {
    const std::size_t x = line.find(" x ");
    if (line.find("size:") != std::string::npos && x != std::string::npos) {
      heights.push_back(std::stod(line.substr(x + 3)));
    }
  }
  return heights;
}

}  // namespace

const pdf::Fonts& fonts() {
  static const pdf::Fonts all = fonts_in(LOOPLEDGER_SOURCE_DIR "/fonts");
  return all;
}

const page::FontMetrics& metrics() {
  static const auto loaded = pdf::load_metrics(fonts());
  REQUIRE(loaded.ok());
  return *loaded.value();
}

Ran run_tool(const std::string& command) {
  const TempFolder folder;
  const std::string err = folder.path() + "/err";
  Ran ran;
  FILE* pipe = popen(("{ " + command + "; } 2>" + err).c_str(), "r");
  REQUIRE(pipe != nullptr);
  char buffer[4096];
  for (std::size_t n = 0; (n = fread(buffer, 1, sizeof buffer, pipe)) > 0;) {
    ran.out.append(buffer, n);
  }
  const int status = pclose(pipe);
  ran.code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  ran.err = text_of(err);
  return ran;
}

std::string written(const page::Document& document, const TempFolder& folder,
                    const std::string& name) {
  const Result<std::string> bytes = pdf::write_pdf(document, fonts());
  REQUIRE_MESSAGE(bytes.ok(), render(bytes.diagnostics()));
  std::string path = folder.path() + "/" + name;
  std::ofstream(path, std::ios::binary) << *bytes;
  return path;
}

std::vector<SeenWord> words_of(const std::string& pdf) {
  std::vector<SeenWord> words;
  std::size_t page = 0;
  std::istringstream lines(run_tool("pdftotext -bbox " + pdf + " -").out);
  for (std::string line; std::getline(lines, line);) {
    if (line.find("<page ") != std::string::npos) {
      ++page;
    }
    const std::size_t end = line.find("</word>");
    if (end == std::string::npos) {
      continue;
    }
    const std::size_t begin = line.find('>') + 1;
    words.push_back({.page = page - 1,
                     .text = line.substr(begin, end - begin),
                     .x1 = attribute(line, "xMin") * kMmPerPoint,
                     .y1 = attribute(line, "yMin") * kMmPerPoint,
                     .x2 = attribute(line, "xMax") * kMmPerPoint,
                     .y2 = attribute(line, "yMax") * kMmPerPoint});
  }
  return words;
}

std::vector<SeenSymbol> symbols_of(const std::string& pdf) {
  const std::vector<double> heights = page_heights(pdf);
  std::vector<SeenSymbol> symbols;
  // qpdf names the page before its content.
  const std::string mark = "%% Contents for page ";
  std::size_t page = 0;
  std::istringstream lines(run_tool("qpdf " + pdf + " --qdf --object-streams=disable -").out);
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with(mark)) {
      page = std::stoul(line.substr(mark.size()));
      continue;
    }
    double a = 0;
    double b = 0;
    double c = 0;
    double d = 0;
    double x = 0;
    double y = 0;
    std::string op;
    std::istringstream words(line);
    if (words >> a >> b >> c >> d >> x >> y >> op && op == "cm") {
      REQUIRE(page >= 1);
      REQUIRE(page <= heights.size());
      CHECK(b == 0);
      CHECK(c == 0);
      CHECK(a == -d);
      symbols.push_back({.page = page - 1,
                         .x = x * kMmPerPoint,
                         .y = (heights[page - 1] - y) * kMmPerPoint,
                         .module = a * kMmPerPoint});
    }
  }
  return symbols;
}

std::string picture_of(const std::string& pdf, std::size_t page, const sheets::Rect& where, int dpi,
                       const TempFolder& folder, const std::string& name) {
  const auto pixels = [dpi](double mm) { return std::lround(mm / 25.4 * dpi); };
  const std::string path = folder.path() + "/" + name;
  const Ran drawn = run_tool(fmt::format(
      "pdftoppm -r {0} -gray -singlefile -f {1} -l {1} -x {2} -y {3} -W {4} -H {5} {6} {7}", dpi,
      page, pixels(where.x), pixels(where.y), pixels(where.w), pixels(where.h), pdf, path));
  CHECK(drawn.code == 0);
  CHECK(drawn.err == "");
  return path + ".pgm";
}

std::vector<std::string> codes_by_zxing(const std::string& picture) {
  std::ifstream file(picture, std::ios::binary);
  std::string kind;
  photo::Grey grey;
  int white = 0;
  file >> kind >> grey.width >> grey.height >> white;
  REQUIRE(kind == "P5");
  REQUIRE(white == 255);
  file.get();  // the one space before the pixels
  grey.pixels.assign(std::istreambuf_iterator<char>(file), {});
  REQUIRE(grey.pixels.size() ==
          static_cast<std::size_t>(grey.width) * static_cast<std::size_t>(grey.height));
  std::vector<std::string> codes;
  for (const photo::Symbol& symbol : photo::symbols_in(grey)) {
    codes.push_back(symbol.text);
  }
  return codes;
}

std::vector<std::vector<std::string>> codes_by_zbar(const std::vector<std::string>& pictures) {
  const std::string begin = "<![CDATA[";
  std::vector<std::vector<std::string>> codes(pictures.size());
  std::istringstream lines(run_tool(fmt::format("zbarimg -q --xml -Sdisable -Sqrcode.enable {}",
                                                fmt::join(pictures, " ")))
                               .out);
  std::size_t at = 0;
  for (std::string line; std::getline(lines, line);) {
    // Pictures are told in order, those without a code not at all.
    while (line.starts_with("<source href='") && line.find(pictures.at(at)) == std::string::npos) {
      ++at;
    }
    if (const std::size_t from = line.find(begin); from != std::string::npos) {
      const std::size_t text = from + begin.size();
      codes[at].push_back(line.substr(text, line.find("]]>", text) - text));
    }
  }
  return codes;
}

}  // namespace loopledger::test
