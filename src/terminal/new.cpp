// SPDX-License-Identifier: MIT
//
// `new PLAN`: a short commented plan that works as it stands, and names its schema for editors.
#include <fmt/format.h>

#include <filesystem>
#include <memory>
#include <ostream>

#include "base/text.h"
#include "commands/exit_code.h"
#include "commands/outcome.h"
#include "json/json.h"
#include "posix/data_folders.h"
#include "posix/files.h"
#include "terminal/command.h"
#include "terminal/command_line.h"

namespace loopledger::terminal {
namespace {

constexpr const char* kFirstPlan =
    R"(# A batch plan. All names and figures here are invented: put yours in their place.
format = 1
bench = { scale_step = "1 mg" }                                       # what your scale reads to
rules.club = { limit = "1.8 g", counts = ["rubber", "lubricant"] }    # what your event weighs
lubricants.oil = { uptake = "1.2 % ± 0.4 %" }                         # of the rubber's mass
strips.tan = { width = "2.5 mm", samples = [["500 mm", "1.310 g"]] }  # a length you weighed, washed
[[motors]]
id = "AB"          # gives AB-01, AB-02 …
count = 4
rule = "club"
lubricant = "oil"  # kept free under the limit, because the rule counts it
mass = "limit"     # or "1.75 g" of washed rubber, or loop = "330 mm"
)";

struct NewOptions {
  std::string path;
  bool json = false;
};

/// The comment by which editors find the schema, or nothing where none is installed.
std::string schema_line(const Context& context) {
  std::error_code problem;
  for (const posix::DataFolder& folder : posix::data_folders(context.world.env)) {
    const auto whole = std::filesystem::canonical(folder.path / "templates", problem);
    const std::string file = (whole / "schema" / "plan.schema.json").string();
    if (std::filesystem::exists(file, problem) && printable(file) == file) {
      return fmt::format("#:schema {}\n", file);
    }
  }
  return {};
}

Diagnostics write_first_plan(const std::string& path, const Context& context) {
  std::error_code ignored;
  if (std::filesystem::exists(path, ignored)) {
    return {error("disk-exists", "there is a file of this name already; it stays as it is",
                  "give another name", {path, 0, 0})};
  }
  auto file = posix::PendingFile::write(path, schema_line(context) + kFirstPlan);
  return file ? file->commit() : file.diagnostics();
}

void run_new(const NewOptions& options, Context& context) {
  const std::string& path = options.path;
  if (path == "-" && options.json) {
    const auto both = commands::usage_error("both", "expected - or --json, found both",
                                            "name a file, such as night.toml; or leave --json out");
    context.exit_code = report_alone(context, {both}, true);
    return;
  }
  if (path == "-") {
    context.out << schema_line(context) << kFirstPlan;
    return;
  }
  const Diagnostics problems = write_first_plan(path, context);
  context.exit_code = report(context, problems);
  if (options.json) {
    json::Json out = json::Json::object();
    out.set("format", 1)
        .set("file", context.exit_code == commands::kDone ? json::Json(path) : json::Json());
    context.out << out.set("diagnostics", json::to_json(problems)).text();
  } else if (context.exit_code == commands::kDone) {
    context.out << fmt::format("Wrote {0}. Put your figures in, then: loopledger check {0}\n",
                               path);
  }
}

}  // namespace

void add_new(CommandLine& line, Context& context) {
  auto options = std::make_shared<NewOptions>();
  line.add("new", "Write a short commented plan to start from")
      .needed("PLAN", options->path, "File to write, such as night.toml")
      .json(options->json, "What was written")
      .action([options, &context] { run_new(*options, context); });
}

}  // namespace loopledger::terminal
