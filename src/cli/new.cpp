// SPDX-License-Identifier: MIT
//
// `new PLAN`: a short commented plan that works as it stands, and names its schema for editors.
#include <fmt/format.h>

#include <filesystem>
#include <memory>
#include <ostream>

#include "base/text.h"
#include "cli/command.h"
#include "cli/command_line.h"
#include "cli/exit_code.h"
#include "cli/files.h"

namespace loopledger::cli {
namespace {

constexpr const char* kFirstPlan =
    R"(# A batch plan. All names and figures here are invented: put yours in their place.
format = 1
bench = { scale_step = "1 mg" }                                       # what your scale reads to
rules.club = { limit = "1.5 g", counts = ["rubber", "lubricant"] }    # what your event weighs
strips.tan = { width = "2.5 mm", samples = [["500 mm", "1.290 g"]] }  # a length you weighed, washed
[[motors]]
id = "AB"        # gives AB-01, AB-02 …
count = 4
rule = "club"
mass = "limit"   # or "1.45 g" of washed rubber, or loop = "300 mm"
)";

/// The comment by which editors find the schema, or nothing where none is installed.
std::string schema_line(const Context& context) {
  std::error_code problem;
  const std::string data = data_folder(context);
  if (data.empty()) {
    return {};
  }
  const std::filesystem::path folder = std::filesystem::absolute(data, problem);
  const std::string file = (folder / "templates" / "schema" / "plan.schema.json").string();
  const bool there = std::filesystem::exists(file, problem);
  return there && printable(file) == file ? fmt::format("#:schema {}\n", file) : std::string();
}

void run_new(const std::string& path, Context& context) {
  std::error_code ignored;
  if (std::filesystem::exists(path, ignored)) {
    context.exit_code = report(
        context, {error("disk-exists", "there is a file of this name already; it stays as it is",
                        "give another name", {path, 0, 0})});
    return;
  }
  auto file = PendingFile::write(path, schema_line(context) + kFirstPlan);
  Diagnostics problems = file.diagnostics();
  if (file) {
    append(problems, file->commit());
  }
  context.exit_code = report(context, problems);
  if (context.exit_code == kDone) {
    context.out << fmt::format("Wrote {0}. Put your figures in, then: loopledger check {0}\n",
                               path);
  }
}

}  // namespace

void add_new(CommandLine& line, Context& context) {
  auto path = std::make_shared<std::string>();
  line.add("new", "Write a short commented plan to start from")
      .needed("PLAN", *path, "File to write, such as night.toml")
      .action([path, &context] { run_new(*path, context); });
}

}  // namespace loopledger::cli
