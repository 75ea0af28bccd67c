// SPDX-License-Identifier: MIT
#include "commands/plan_input.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "base/text.h"
#include "commands/paths.h"
#include "plan/read_label_layout.h"
#include "plan/read_stock.h"
#include "tag/tag_text.h"

namespace loopledger::commands {
namespace {

constexpr std::string_view kEnding = ".toml";

/// A template's name is never a way to another folder.
bool is_template_name(const std::string& name) {
  return !name.empty() && name.front() != '.' && std::ranges::all_of(name, [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || is_digit(c) || c == '-' ||
           c == '_' || c == '.';
  });
}

Diagnostic no_template(const std::string& kind, const std::string& name, World& world) {
  std::vector<std::string> names = world.templates.names(kind);
  std::erase_if(names, [](const std::string& one) { return !is_template_name(one); });
  const std::vector<std::string_view> views(names.begin(), names.end());
  const std::string_view near = nearest(name, views);
  if (views.empty()) {
    return error("disk-data",
                 fmt::format("no templates/{} are in {}", kind, world.templates.places_asked()),
                 "set LOOPLEDGER_DATA to the folder that holds `templates` and `fonts`");
  }
  std::string hint = !near.empty() ? fmt::format("did you mean \"{}\"?", near)
                                   : fmt::format("templates there are {}", either(views));
  return error(
      "plan-take",
      fmt::format("there is no template \"{}\" in templates/{}", shortened(name, 60), kind),
      std::move(hint));
}

Result<plan::Loaded> load_template(const std::string& kind, const std::string& name, World& world) {
  if (!is_template_name(name)) {
    return no_template(kind, name, world);
  }
  auto found = world.templates.find(kind, name);
  if (!found) {
    return found.diagnostics();
  }
  return *found ? Result<plan::Loaded>(std::move(**found)) : no_template(kind, name, world);
}

/// By a path that ends in .toml, beside the plan; else by a name in templates/FOLDER.
Result<plan::Loaded> load_named(const std::string& folder, const std::string& name,
                                const std::string& plan_path, const Place& asked, World& world) {
  if (name.ends_with(kEnding)) {
    const std::string file = beside(plan_path, name);
    auto text = world.files.read(file, kMaxTextFile);
    if (!text) {
      return text.diagnostics();
    }
    return plan::Loaded{file, std::move(*text)};
  }
  auto loaded = load_template(folder, name, world);
  if (loaded) {
    return loaded;
  }
  Diagnostics problems = loaded.diagnostics();
  for (Diagnostic& d : problems) {
    d.place = asked;
  }
  return problems;
}

/// An address on a label is only of use when the id can be found in it again.
Diagnostics link_problems(const plan::Plan& plan) {
  if (!plan.link.given || plan.motors.empty()) {
    return {};
  }
  const MotorId id{plan.motors.front().stem.value, plan.motors.front().first.value};
  const std::string address = tag::tag_address(plan.link.value, id);
  const auto read = tag::read_label(address);
  if (read && read->id == id) {
    return {};
  }
  return {error("plan-value",
                fmt::format("link: the id can't be told from the rest of the address \"{}\"",
                            shortened(address, 80)),
                "let {id} stand between slashes, as in \"https://example.org/m/{id}\"",
                plan.link.place)};
}

}  // namespace

Result<PlanInput> load_plan(const std::string& path, World& world) {
  auto text = world.files.read(path, kMaxTextFile);
  if (!text) {
    return text.diagnostics();
  }
  PlanInput input;
  input.files.push_back({path == "-" ? kStandardInput : path, *text});
  plan::Sources sources;
  sources.shelf = [&path, &input, &world](const std::string& name) -> Result<plan::Loaded> {
    const std::string file = beside(path, name);
    auto shelf = world.files.read(file, kMaxTextFile);
    if (!shelf) {
      Diagnostics problems = shelf.diagnostics();
      for (Diagnostic& d : problems) {
        d.message = fmt::format("shelf file {}: {}", file, d.message);
      }
      return problems;
    }
    input.files.push_back({file, std::move(*shelf)});
    return input.files.back();
  };
  sources.from_templates = [&world](const std::string& folder, const std::string& name) {
    return load_template(folder, name, world);
  };
  auto plan = plan::read_plan(input.files.front().text, input.files.front().file, sources);
  if (!plan) {
    return plan.diagnostics();
  }
  input.plan = std::move(*plan);
  Diagnostics said = plan.diagnostics();
  append(said, link_problems(input.plan));
  if (has_errors(said)) {
    quote_lines(input, said);
    return said;
  }
  return {std::move(input), std::move(said)};
}

void quote_lines(const PlanInput& input, Diagnostics& diagnostics) {
  for (const plan::Loaded& file : input.files) {
    add_source_lines(diagnostics, file.file, file.text);
  }
}

Result<plan::Stock> load_stock(const std::string& name, const std::string& plan_path,
                               const Place& asked, World& world) {
  const auto loaded = load_named("stock", name, plan_path, asked, world);
  return loaded ? plan::read_stock(loaded->text, loaded->file, stem_of(loaded->file))
                : Result<plan::Stock>(loaded.diagnostics());
}

Result<plan::LabelLayout> load_layout(const std::string& name, const std::string& plan_path,
                                      const Place& asked, World& world) {
  const auto loaded = load_named("layouts", name, plan_path, asked, world);
  return loaded ? plan::read_label_layout(loaded->text, loaded->file, stem_of(loaded->file))
                : Result<plan::LabelLayout>(loaded.diagnostics());
}

}  // namespace loopledger::commands
