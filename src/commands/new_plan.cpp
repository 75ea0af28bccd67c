// SPDX-License-Identifier: MIT
#include "commands/new_plan.h"

#include <fmt/format.h>

namespace loopledger::commands {
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

/// The comment by which editors find the schema, or nothing where none is installed.
std::string schema_line(World& world) {
  const std::string file = world.templates.schema_file();
  return file.empty() ? std::string() : fmt::format("#:schema {}\n", file);
}

Diagnostics write_first_plan(const std::string& path, const std::string& text, World& world) {
  if (world.files.is_there(path)) {
    return {error("disk-exists", "there is a file of this name already; it stays as it is",
                  "give another name", {path, 0, 0})};
  }
  auto file = world.files.write(path, text);
  return file ? (*file)->commit() : file.diagnostics();
}

}  // namespace

NewPlanAnswer new_plan(const NewPlanRequest& request, World& world) {
  NewPlanAnswer answer;
  answer.text = schema_line(world) + kFirstPlan;
  if (request.path != "-") {
    answer.said = write_first_plan(request.path, answer.text, world);
    answer.file = has_errors(answer.said) ? std::string() : request.path;
  }
  return answer;
}

}  // namespace loopledger::commands
