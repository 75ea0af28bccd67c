// SPDX-License-Identifier: MIT
#include "lint/house_rules.h"

#include <algorithm>
#include <map>
#include <regex>
#include <set>
#include <sstream>

namespace loopledger::lint {
namespace {

constexpr std::size_t kMaxLines = 500;
constexpr std::size_t kMaxMainLines = 60;

/// One room: what its files may include beside their own room. "tag/" is all of a room,
/// "plan/plan.h" one header of it.
struct Room {
  std::vector<std::string> ours;
  std::vector<std::string> packages;  ///< third-party headers, in .cpp files only
  bool pure = true;                   ///< no file, clock, environment, random source or terminal
};

const std::vector<std::string> kPlanData{"plan/plan.h", "plan/stock.h", "plan/label_layout.h",
                                         "plan/printer_misses.h"};
const std::vector<std::string> kRecordsData{"records/entry.h", "records/planned.h"};

std::vector<std::string> joined(std::vector<std::string> a, const std::vector<std::string>& b) {
  a.insert(a.end(), b.begin(), b.end());
  return a;
}

/// The arrows of DEVELOPERS.md, "The way through the house".
const std::map<std::string, Room>& rooms() {
  static const std::map<std::string, Room> kRooms{
      {"base", {{}, {"utf8proc.h"}}},
      {"plan", {{"base/"}, {"toml++/", "boost/"}}},
      {"records", {{"base/"}, {"toml++/", "boost/"}}},
      {"tag", {joined({"base/"}, kRecordsData), {"ZXing/"}}},
      {"cutting", {{"base/"}, {}}},
      {"photo", {{"base/", "tag/"}, {"ZXing/", "png.h", "jpeglib.h", "jerror.h", "setjmp.h"}}},
      {"calc", {joined(joined({"base/", "cutting/"}, kPlanData), kRecordsData), {"boost/"}}},
      {"motor", {joined({"base/", "records/", "calc/", "tag/"}, kPlanData), {}}},
      {"page", {joined({"base/", "tag/"}, kPlanData), {}}},
      {"sheets",
       {joined(joined({"base/", "cutting/", "calc/", "tag/", "motor/", "page/"}, kPlanData),
               kRecordsData),
        {}}},
      {"pdf", {{"base/", "page/page.h"}, {"hpdf", "ft2build.h", "freetype/"}}},
      {"commands",
       {{"base/", "plan/", "records/", "cutting/", "calc/", "tag/", "photo/", "motor/", "page/",
         "sheets/", "pdf/"},
        {}}},
      {"json", {{"base/", "plan/", "records/", "calc/", "tag/", "motor/", "commands/"}, {}}},
      {"posix",
       {{"base/", "records/disk.h", "pdf/own_mark.h", "commands/"},
        {"unistd.h", "fcntl.h", "sys/", "poll.h", "termios.h", "signal.h"},
        false}},
      {"terminal",
       {{"base/", "plan/", "records/", "cutting/", "calc/", "tag/", "photo/", "motor/", "page/",
         "sheets/", "pdf/", "commands/", "json/", "posix/"},
        {"CLI/", "unistd.h", "sys/", "termios.h", "signal.h"},
        false}},
  };
  return kRooms;
}

/// What one file may include beyond its room: the version of a library stands in its header, and
/// `--version` tells them all in one place.
const std::map<std::string, std::vector<std::string>> kOfOneFile{
    {"src/terminal/libraries.cpp",
     {"ZXing/", "png.h", "utf8proc.h", "jpeglib.h", "toml++/", "boost/version.hpp", "hpdf",
      "ft2build.h"}},
};

/// Standard headers that reach outside.
const std::set<std::string> kImpure{"fstream", "iostream", "filesystem", "chrono",
                                    "random",  "ctime",    "unistd.h",   "time.h"};

/// Calls that reach outside without a telling header; the latter half are those of our libraries.
const std::vector<std::string> kImpureCalls{
    "getenv(",     "setlocale(",    "std::cout",    "std::cerr", "std::rand(",
    "fopen(",      "time(nullptr)", "FT_New_Face(", "FromFile",  "ToFile",
    "parse_file(", "stdio_src(",    "init_io("};

/// Headers by which a program reaches a network. No room may have them.
const std::vector<std::string> kNetwork{"sys/socket.h", "sys/un.h", "netdb.h",    "netinet/",
                                        "arpa/",        "net/",     "ifaddrs.h",  "resolv.h",
                                        "curl/",        "openssl/", "boost/asio", "boost/beast"};

bool starts_with(const std::string& text, const std::string& head) {
  return text.rfind(head, 0) == 0;
}

bool ends_with(const std::string& text, const std::string& tail) {
  return text.size() >= tail.size() &&
         text.compare(text.size() - tail.size(), tail.size(), tail) == 0;
}

bool any_head(const std::vector<std::string>& heads, const std::string& text) {
  return std::any_of(heads.begin(), heads.end(),
                     [&](const std::string& head) { return starts_with(text, head); });
}

bool is_cpp(const std::string& path) { return ends_with(path, ".cpp"); }
bool is_code(const std::string& path) { return is_cpp(path) || ends_with(path, ".h"); }

/// "calc" of "src/calc/curve.cpp"; files that lie in src itself belong to terminal.
std::string room_of(const std::string& path) {
  const std::size_t start = std::string("src/").size();
  const std::size_t slash = path.find('/', start);
  return slash == std::string::npos ? "terminal" : path.substr(start, slash - start);
}

class Checker {
 public:
  explicit Checker(const SourceFile& file) : file_(file) {
    std::istringstream in(file.text);
    for (std::string line; std::getline(in, line);) {
      lines_.push_back(line);
    }
  }

  std::vector<std::string> run() {
    check_paths();
    if (is_code(file_.path)) {
      check_licence();
      check_size();
      if (starts_with(file_.path, "src/")) {
        check_room();
      }
    }
    return std::move(faults_);
  }

 private:
  void fault(std::size_t line, const std::string& what) {
    faults_.push_back(file_.path + ":" + std::to_string(line) + ": " + what);
  }

  void check_licence() {
    if (lines_.empty() || !starts_with(lines_[0], "// SPDX-License-Identifier: MIT")) {
      fault(1, "the first line is not the SPDX licence line");
    }
  }

  void check_size() {
    const std::size_t most = ends_with(file_.path, "/main.cpp") && starts_with(file_.path, "src/")
                                 ? kMaxMainLines
                                 : kMaxLines;
    if (lines_.size() > most) {
      fault(lines_.size(), "longer than " + std::to_string(most) + " lines");
    }
  }

  void check_paths() {
    // In halves, so that this file passes its own check.
    static const std::regex kMachine(
        "(^|[^A-Za-z0-9_.}])/(wo"
        "rk|ho"
        "me|ro"
        "ot|tm"
        "p)/[A-Za-z0-9_.]");
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      if (std::regex_search(lines_[i], kMachine)) {
        fault(i + 1, "names a path of somebody's machine");
      }
    }
  }

  void check_room() {
    const std::string name = room_of(file_.path);
    const auto room = rooms().find(name);
    if (room == rooms().end()) {
      fault(1, "there is no room '" + name + "'");
      return;
    }
    static const std::regex kInclude("^\\s*#\\s*include\\s*([\"<])([^\">]+)[\">]");
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      std::smatch found;
      if (!std::regex_search(lines_[i], found, kInclude)) {
        if (room->second.pure) {
          check_calls(i);
        }
      } else if (found[1] == "\"") {
        check_ours(i + 1, name, room->second, found[2]);
      } else {
        check_outside(i + 1, name, room->second, found[2]);
      }
    }
  }

  void check_ours(std::size_t line, const std::string& name, const Room& room,
                  const std::string& header) {
    if (!starts_with(header, name + "/") && !any_head(room.ours, header)) {
      fault(line, name + " may not include \"" + header + "\"");
    }
  }

  void check_outside(std::size_t line, const std::string& name, const Room& room,
                     const std::string& header) {
    if (any_head(kNetwork, header)) {
      fault(line, "nothing here uses a network: <" + header + "> may not be included");
      return;
    }
    if (room.pure && kImpure.count(header) > 0) {
      fault(line, name + " is pure and may not include <" + header + ">");
      return;
    }
    const bool standard = header.find_first_of("./") == std::string::npos;
    if (standard || header == "math.h") {  // Boost 1.74's pchip needs the C names
      return;
    }
    const auto more = kOfOneFile.find(file_.path);
    const bool in_its_room = starts_with(header, "fmt/") || any_head(room.packages, header) ||
                             (more != kOfOneFile.end() && any_head(more->second, header));
    if (!in_its_room) {
      fault(line, name + " may not include <" + header + ">");
    } else if (!is_cpp(file_.path)) {
      fault(line, "<" + header + "> may only stand in a .cpp file");
    }
  }

  void check_calls(std::size_t index) {
    const std::string code = lines_[index].substr(0, lines_[index].find("//"));
    for (const std::string& call : kImpureCalls) {
      if (code.find(call) != std::string::npos) {
        fault(index + 1, "a pure room may not use " + call);
      }
    }
  }

  const SourceFile& file_;
  std::vector<std::string> lines_;
  std::vector<std::string> faults_;
};

}  // namespace

std::vector<std::string> faults(const SourceFile& file) { return Checker(file).run(); }

}  // namespace loopledger::lint
