// SPDX-License-Identifier: MIT
//
// The program never uses a network: what it imports from the system's libraries holds no call that
// could. Its sources are held to that by house_rules.cpp.
#include <doctest/doctest.h>

#include <array>
#include <cstdio>
#include <set>
#include <sstream>
#include <string>

namespace {

/// Names that the program takes from shared libraries, without their versions.
std::set<std::string> imported(const std::string& program) {
  const std::string command =
      std::string("'" LOOPLEDGER_NM "' -D --undefined-only '") + program + "'";
  std::FILE* const pipe = ::popen(command.c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::string text;
  std::array<char, 4096> buffer{};
  for (std::size_t n = 0; (n = std::fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) {
    text.append(buffer.data(), n);
  }
  REQUIRE(::pclose(pipe) == 0);
  std::set<std::string> names;
  std::istringstream words{text};
  for (std::string word; words >> word;) {
    names.insert(word.substr(0, word.find('@')));
  }
  return names;
}

}  // namespace

TEST_CASE("the program takes no call from the system that reaches a network") {
  const std::set<std::string> names = imported(LOOPLEDGER_PROGRAM);
  CHECK(names.count("write") == 1);  // the table was read
  for (const char* call :
       {"socket",        "socketpair",     "connect",        "bind",        "listen",
        "accept",        "accept4",        "send",           "sendto",      "sendmsg",
        "recv",          "recvfrom",       "recvmsg",        "getaddrinfo", "getnameinfo",
        "gethostbyname", "gethostbyname2", "gethostbyaddr",  "res_query",   "res_search",
        "if_nameindex",  "getifaddrs",     "curl_easy_init", "SSL_new",     "dlopen",
        "popen",         "system",         "execve",         "execvp",      "posix_spawn"}) {
    CAPTURE(call);
    CHECK(names.count(call) == 0);
  }
}
