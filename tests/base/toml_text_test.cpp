// SPDX-License-Identifier: MIT
#include "base/toml_text.h"

#include <doctest/doctest.h>

#include <string>

using namespace loopledger;

namespace {

/// "a.a.a" with so many parts.
std::string key_of(std::size_t parts) {
  std::string key = "a";
  for (std::size_t i = 1; i < parts; ++i) {
    key += ".a";
  }
  return key;
}

}  // namespace

TEST_CASE("a key of too many parts is found where it passes the bound, a long text is none") {
  CHECK_FALSE(first_overlong_key(key_of(kMaxKeyParts) + " = 1\n"));
  CHECK(first_overlong_key(key_of(kMaxKeyParts + 1) + " = 1\n") == 2 * kMaxKeyParts - 1);
  CHECK(first_overlong_key("x = 1\n[" + key_of(100) + "]\n"));
  CHECK(first_overlong_key("x = { y = 1, " + key_of(100) + " = 2 }"));
  const std::string dots(100, '.');
  for (const char* const quote : {"\"", "'", R"(""")", "'''"}) {
    CHECK_FALSE(first_overlong_key("x = " + (quote + dots) + quote));
    CHECK(first_overlong_key("x = " + (quote + dots) + quote + "\n" + key_of(100) + " = 1"));
  }
  CHECK_FALSE(first_overlong_key("# and so on" + dots + "\nx = 1.5"));
  CHECK_FALSE(first_overlong_key("x = \"a \\\" " + dots + "\""));
}

TEST_CASE("quotation marks at the end of a long text hide no key behind it") {
  CHECK(first_overlong_key(R"(x = { y = """a""""", )" + key_of(100) + " = 2 }"));
  CHECK(first_overlong_key("x = '''''', " + key_of(100)));
}

TEST_CASE("the library's own way of working is no part of a message") {
  CHECK(plain_reason("Error while parsing key-value pair: expected a value") == "expected a value");
  CHECK(plain_reason("cannot redefine: \x1b") == "cannot redefine: \\x1b");
}
