// SPDX-License-Identifier: MIT
#include "posix/native_world.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <filesystem>
#include <istream>
#include <thread>
#include <utility>

#include "base/text.h"
#include "posix/data_folders.h"
#include "posix/files.h"
#include "posix/posix.h"
#include "posix/random_key.h"

namespace loopledger::posix {
namespace {

namespace fs = std::filesystem;

using What = commands::AtPath::What;

constexpr std::string_view kEnding = ".toml";
constexpr std::uint64_t kMaxFont = 32U << 20;

/// Where a kind of templates lies within `templates`. Layouts lay in "sheets" once, and in a
/// folder of the user's own they still may.
std::vector<std::string> folders_of(const std::string& kind) {
  return kind == "layouts" ? std::vector<std::string>{kind, "sheets"}
                           : std::vector<std::string>{kind};
}

/// As much of the open file's beginning as can be read.
std::string head_of(int fd, std::size_t bytes) {
  std::string head(bytes, '\0');
  std::size_t have = 0;
  while (have < head.size()) {
    const ssize_t n = ::read(fd, head.data() + have, head.size() - have);
    if (n < 0 && errno == EINTR) {
      continue;
    }
    if (n <= 0) {
      break;
    }
    have += static_cast<std::size_t>(n);
  }
  head.resize(have);
  return head;
}

class NativeNewFile : public commands::NewFile {
 public:
  explicit NativeNewFile(PendingFile file) : file_(std::move(file)) {}
  Diagnostics commit() override { return file_.commit(); }

 private:
  PendingFile file_;
};

}  // namespace

Result<std::string> NativeFiles::read(const std::string& path, std::uint64_t max_bytes) {
  return read_file(path, max_bytes, in_);
}

commands::AtPath NativeFiles::look(const std::string& path, std::size_t head_bytes) {
  struct stat info {};
  if (::lstat(path.c_str(), &info) != 0) {
    return {};  // what else is wrong, the writing tells
  }
  commands::AtPath at;
  at.size = static_cast<std::uint64_t>(info.st_size);
  at.what = S_ISDIR(info.st_mode)   ? What::folder
            : S_ISLNK(info.st_mode) ? What::link
            : S_ISREG(info.st_mode) ? What::file
                                    : What::other;
  if (at.what != What::file || head_bytes == 0) {
    return at;
  }
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK));
  if (file.get() < 0) {
    at.what = What::unreadable;
  } else {
    at.head = head_of(file.get(), head_bytes);
  }
  return at;
}

bool NativeFiles::is_there(const std::string& path) {
  std::error_code ignored;
  return fs::exists(path, ignored);
}

bool NativeFiles::is_folder(const std::string& path) {
  std::error_code ignored;
  return fs::is_directory(path, ignored);
}

Result<std::vector<std::string>> NativeFiles::files_in(const std::string& folder) {
  std::vector<std::string> files;
  std::error_code problem;
  fs::directory_iterator at(folder, problem);
  for (; !problem && at != fs::directory_iterator(); at.increment(problem)) {
    std::error_code ignored;
    if (at->is_regular_file(ignored)) {
      files.push_back(at->path().string());
    }
  }
  if (problem) {
    return error("disk-folder", "can't read the folder: " + problem.message(), {}, {folder, 0, 0});
  }
  std::ranges::sort(files);
  return files;
}

Diagnostics NativeFiles::make_folder(const std::string& folder) {
  return posix::make_folder(folder);
}

Result<std::unique_ptr<commands::NewFile>> NativeFiles::write(const std::string& path,
                                                              std::string_view bytes) {
  auto file = PendingFile::write(path, bytes);
  if (!file) {
    return file.diagnostics();
  }
  return {std::make_unique<NativeNewFile>(std::move(*file))};
}

std::vector<std::string> NativeTemplates::names(const std::string& kind) {
  std::vector<std::string> names;
  for (const DataFolder& data : data_folders(env_)) {
    for (const std::string& folder : folders_of(kind)) {
      std::error_code problem;
      for (const auto& entry : fs::directory_iterator(data.path / "templates" / folder, problem)) {
        if (entry.path().extension() == kEnding) {
          names.push_back(entry.path().stem().string());
        }
      }
    }
  }
  std::ranges::sort(names);
  names.erase(std::unique(names.begin(), names.end()), names.end());
  return names;
}

/// The user's own goes by its whole path, for it is the one to be mended.
Result<std::optional<plan::Loaded>> NativeTemplates::find(const std::string& kind,
                                                          const std::string& name) {
  for (const DataFolder& data : data_folders(env_)) {
    for (const std::string& folder : folders_of(kind)) {
      const fs::path inside = fs::path("templates") / folder / (name + std::string(kEnding));
      const fs::path file = data.path / inside;
      std::error_code ignored;
      if (!fs::exists(file, ignored)) {
        continue;
      }
      auto text = read_file(file.string(), commands::kMaxTextFile);
      if (!text) {
        return text.diagnostics();
      }
      return std::optional(
          plan::Loaded{data.shipped ? inside.string() : file.string(), std::move(*text)});
    }
  }
  return std::optional<plan::Loaded>();
}

std::optional<plan::Loaded> NativeTemplates::font(const std::string& file) {
  const std::string folder = font_folder(data_folders(env_));
  if (folder.empty()) {
    return std::nullopt;
  }
  plan::Loaded font{folder + "/" + file, {}};
  if (auto bytes = read_file(font.file, kMaxFont)) {
    font.text = std::move(*bytes);
  }
  return font;
}

std::string NativeTemplates::schema_file() {
  std::error_code problem;
  for (const DataFolder& folder : data_folders(env_)) {
    const auto whole = fs::canonical(folder.path / "templates", problem);
    std::string file = (whole / "schema" / "plan.schema.json").string();
    if (fs::exists(file, problem) && printable(file) == file) {
      return file;
    }
  }
  return {};
}

std::vector<std::string> NativeTemplates::folders() {
  std::vector<std::string> folders;
  for (const DataFolder& folder : data_folders(env_)) {
    folders.push_back((folder.path / "templates").string());
  }
  return folders;
}

std::string NativeTemplates::places_asked() { return posix::places_asked(env_); }

std::string NativeTemplates::printer_file() {
  const std::string folder = own_settings_folder(env_);
  return folder.empty() ? folder : (fs::path(folder) / "printer.toml").string();
}

NativeWorld::NativeWorld(std::istream& in, Environment env, std::function<Moment()> now)
    : files_(in),
      templates_(env),
      world_{.files = files_,
             .disk = disk_,
             .templates = templates_,
             .now = std::move(now),
             .env = std::move(env),
             .random_four = random_four,
             .progress = {},
             .threads = std::max(1U, std::thread::hardware_concurrency())} {}

}  // namespace loopledger::posix
