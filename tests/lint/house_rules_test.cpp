// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <array>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "lint/house_rules.h"
#include "lint/unique_names.h"

using loopledger::lint::faults;
using loopledger::lint::SourceFile;
namespace fs = std::filesystem;

namespace {

const std::string kLicence = "// SPDX-License-Identifier: MIT\n";

std::vector<std::string> planted(const std::string& path, const std::string& text) {
  return faults({path, kLicence + text});
}

/// Text files that people write, by their names.
bool is_read(const fs::path& path) {
  static const std::array kEndings{".cpp", ".h",    ".txt", ".md",   ".toml", ".sh",
                                   ".in",  ".case", ".yml", ".json", ".py"};
  const std::string ending = path.extension().string();
  for (const char* known : kEndings) {
    if (ending == known) {
      return true;
    }
  }
  return ending.empty() || path.filename().string().front() == '.';
}

void add_file(std::vector<SourceFile>& files, const fs::path& top, const fs::path& path) {
  if (!is_read(path)) {
    return;
  }
  std::ifstream in(path, std::ios::binary);
  std::string text{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  if (text.find('\0') == std::string::npos) {
    files.push_back({fs::relative(path, top).generic_string(), std::move(text)});
  }
}

/// What belongs to the project: the folders of its fixed top level and the files beside them.
std::vector<SourceFile> tree(const fs::path& top) {
  static const std::array kFolders{"src", "templates", "tests", "examples", "fonts", ".ci"};
  std::vector<SourceFile> files;
  for (const auto& entry : fs::directory_iterator(top)) {
    if (entry.is_regular_file() && entry.path().filename() != ".git") {
      add_file(files, top, entry.path());
    }
  }
  for (const char* folder : kFolders) {
    if (!fs::is_directory(top / folder)) {
      continue;
    }
    for (auto it = fs::recursive_directory_iterator(top / folder);
         it != fs::recursive_directory_iterator(); ++it) {
      if (it->is_directory() && it->path().filename() == "out") {
        it.disable_recursion_pending();  // what the example printed
      } else if (it->is_regular_file()) {
        add_file(files, top, it->path());
      }
    }
  }
  return files;
}

}  // namespace

TEST_CASE("every file of the tree keeps the house rules") {
  const std::vector<SourceFile> files = tree(LOOPLEDGER_SOURCE_DIR);
  std::size_t in_src = 0;
  for (const SourceFile& file : files) {
    in_src += file.path.rfind("src/", 0) == 0 ? 1U : 0U;
    for (const std::string& fault : faults(file)) {
      FAIL_CHECK(fault);
    }
  }
  CHECK(in_src > 30);  // the walk did see the sources
}

TEST_CASE("no two unnamed namespaces of one room have a name in common") {
  for (const std::string& fault : loopledger::lint::equal_names(tree(LOOPLEDGER_SOURCE_DIR))) {
    FAIL_CHECK(fault);
  }
}

TEST_CASE("a name that two files of one room have is found, whatever it names") {
  const std::string begin = "namespace {\n";
  const std::string end = "}  // namespace\n";
  for (const char* line :
       {"constexpr int kMost = 3;", "std::string words_of(int n) {", "struct Row {",
        "const std::vector<int>& table() {", "std::atomic<int> came{0};"}) {
    CAPTURE(line);
    const std::string text = begin + line + "\n" + end;
    const std::vector<SourceFile> apart{{"src/calc/a.cpp", text}, {"src/page/a.cpp", text}};
    CHECK(loopledger::lint::equal_names(apart).empty());
    const std::vector<SourceFile> together{{"src/calc/a.cpp", text}, {"src/calc/b.cpp", text}};
    CHECK(loopledger::lint::equal_names(together).size() == 1);
    const std::vector<SourceFile> named{{"src/calc/a.cpp", text}, {"src/calc/b.cpp", line}};
    CHECK(loopledger::lint::equal_names(named).empty());
  }
}

TEST_CASE("an arrow that runs the wrong way is found") {
  CHECK(planted("src/base/text.cpp", "#include \"plan/plan.h\"\n") ==
        std::vector<std::string>{"src/base/text.cpp:2: base may not include \"plan/plan.h\""});
  CHECK(planted("src/plan/read.cpp", "#include \"calc/figures.h\"\n").size() == 1);
  CHECK(planted("src/records/read.cpp", "#include \"plan/plan.h\"\n").size() == 1);
  CHECK(planted("src/calc/curve.cpp", "#include \"plan/read.h\"\n").size() == 1);
  CHECK(planted("src/calc/curve.cpp", "#include \"records/ledger.h\"\n").size() == 1);
  CHECK(planted("src/calc/curve.cpp", "#include \"page/page.h\"\n").size() == 1);
  CHECK(planted("src/tag/id.cpp", "#include \"calc/figures.h\"\n").size() == 1);
  CHECK(planted("src/page/label.cpp", "#include \"pdf/write.h\"\n").size() == 1);
  CHECK(planted("src/pdf/write.cpp", "#include \"calc/figures.h\"\n").size() == 1);
  CHECK(planted("src/pdf/write.cpp", "#include \"posix/files.h\"\n").size() == 1);
  CHECK(planted("src/page/label.cpp", "#include \"label.h\"\n").size() == 1);
}

TEST_CASE("an arrow that runs the right way passes") {
  CHECK(planted("src/base/text.cpp", "#include \"base/text.h\"\n#include <string>\n").empty());
  CHECK(planted("src/plan/read.cpp", "#include <toml++/toml.h>\n").empty());
  CHECK(planted("src/calc/curve.cpp", "#include \"plan/plan.h\"\n#include \"records/entry.h\"\n")
            .empty());
  CHECK(planted("src/sheets/label.cpp", "#include \"calc/curve.h\"\n#include <fmt/format.h>\n")
            .empty());
  CHECK(planted("src/pdf/write.cpp", "#include \"page/page.h\"\n#include <hpdf.h>\n").empty());
  CHECK(planted("src/posix/files.cpp", "#include <filesystem>\n#include <unistd.h>\n").empty());
  CHECK(planted("src/main.cpp", "#include \"terminal/command.h\"\n#include <iostream>\n").empty());
}

TEST_CASE("a third-party header outside its room or in a header is found") {
  CHECK(planted("src/calc/curve.cpp", "#include <toml++/toml.h>\n").size() == 1);
  CHECK(planted("src/page/label.cpp", "#include <hpdf.h>\n").size() == 1);
  CHECK(planted("src/terminal/libraries.cpp", "#include <hpdf.h>\n#include <png.h>\n").empty());
  CHECK(planted("src/terminal/list.cpp", "#include <hpdf.h>\n#include <png.h>\n").size() == 2);
  CHECK(planted("src/terminal/libraries.cpp", "#include <curl/curl.h>\n").size() == 1);
  CHECK(planted("src/terminal/scan.cpp", "#include <ZXing/ReadBarcode.h>\n").size() == 1);
  CHECK(planted("src/terminal/scan.cpp", "#include <openssl/sha.h>\n").size() == 1);
  CHECK(planted("src/photo/image.h", "#include <ZXing/ReadBarcode.h>\n").size() == 1);
  CHECK(planted("src/base/text.h", "#include <fmt/format.h>\n").size() == 1);
  CHECK(planted("src/photo/image.cpp", "#  include <png.h>\n").empty());
}

TEST_CASE("a pure room that reaches outside is found") {
  for (const char* header :
       {"fstream", "iostream", "filesystem", "chrono", "random", "ctime", "unistd.h"}) {
    CAPTURE(header);
    const std::string line = std::string("#include <") + header + ">\n";
    CHECK(planted("src/calc/curve.cpp", line).size() == 1);
    CHECK(planted("src/records/ledger.cpp", line).size() == 1);
  }
  CHECK(planted("src/plan/read.cpp", "auto home = std::getenv(\"X\");\n").size() == 1);
  CHECK(planted("src/photo/image.cpp", "std::cerr << 1;\n").size() == 1);
  CHECK(planted("src/pdf/haru.cpp", "HPDF_LoadTTFontFromFile(doc, path, 1);\n").size() == 1);
  CHECK(planted("src/pdf/font_face.cpp", "FT_New_Face(library, path, 0, &face);\n").size() == 1);
  CHECK(planted("src/photo/image.cpp", "int a = 0;  // unlike std::cerr\n").empty());
}

TEST_CASE("a header that reaches a network is found in every room, the one that may much too") {
  for (const char* header : {"sys/socket.h", "netdb.h", "netinet/in.h", "arpa/inet.h",
                             "curl/curl.h", "boost/asio.hpp"}) {
    CAPTURE(header);
    const std::string line = std::string("#include <") + header + ">\n";
    REQUIRE(planted("src/posix/files.cpp", line).size() == 1);
    CHECK(planted("src/posix/files.cpp", line).front().find("network") != std::string::npos);
    CHECK(planted("src/calc/curve.cpp", line).size() == 1);
  }
}

TEST_CASE("a file without its licence line or over its size is found") {
  CHECK(faults({"src/base/text.cpp", "#include <string>\n"}).size() == 1);
  CHECK(faults({"src/base/text.cpp", ""}).size() == 1);
  std::string long_text = kLicence;
  for (int i = 0; i < 499; ++i) {
    long_text += "\n";
  }
  CHECK(faults({"src/base/text.cpp", long_text}).empty());
  CHECK(faults({"src/base/text.cpp", long_text + "\n"}).size() == 1);
  CHECK(faults({"tests/base/text_test.cpp", long_text + "\n"}).size() == 1);
  CHECK(faults({"src/main.cpp", long_text}).size() == 1);
}

TEST_CASE("a path of somebody's machine is found in any text") {
  const std::string slash = "/";
  CHECK(faults({"README.md", "see " + slash + "home/anna/plan.toml"}).size() == 1);
  CHECK(faults({"tests/run.sh", "cd " + slash + "tmp/x"}).size() == 1);
  CHECK(faults({"tests/run.sh", "cd \"${TMPDIR:-" + slash + "tmp}/x\""}).empty());
  CHECK(faults({"README.md", "examples/out/labels.pdf and https://example.org/home/x"}).empty());
}
