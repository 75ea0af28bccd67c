// SPDX-License-Identifier: MIT
#include "support/temp_folder.h"

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace loopledger::test {

namespace fs = std::filesystem;

TempFolder::TempFolder() {
  std::string name = (fs::temp_directory_path() / "loopledger-test-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) {
    throw std::runtime_error("no temporary folder can be made");
  }
  folder_ = name;
}

TempFolder::~TempFolder() {
  std::error_code ignored;
  fs::remove_all(folder_, ignored);
}

std::string TempFolder::path(const std::string& name) const {
  return name.empty() ? folder_.string() : (folder_ / name).string();
}

std::string TempFolder::write(const std::string& name, const std::string& text) const {
  fs::create_directories((folder_ / name).parent_path());
  std::ofstream(folder_ / name, std::ios::binary) << text;
  return path(name);
}

std::string TempFolder::read(const std::string& name) const {
  std::ifstream file(folder_ / name, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

bool TempFolder::holds(const std::string& name) const { return fs::exists(folder_ / name); }

}  // namespace loopledger::test
