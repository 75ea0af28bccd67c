// SPDX-License-Identifier: MIT
//
// Paths as text: parts put together and taken apart, nothing asked of a disk. "/" parts them.
#pragma once

#include <string>
#include <string_view>

namespace loopledger::commands {

/// `name` within `folder`; an absolute name stays, an empty folder is the current one.
[[nodiscard]] std::string joined(std::string_view folder, std::string_view name);

/// The folder of a path, as it is written; empty: it names none.
[[nodiscard]] std::string folder_part(std::string_view path);

/// "a4" of "stock/a4.toml".
[[nodiscard]] std::string stem_of(std::string_view path);

/// `relative` as seen from the plan's folder ("-": from the current one); an absolute path stays.
[[nodiscard]] std::string beside(const std::string& plan_path, const std::string& relative);

}  // namespace loopledger::commands
