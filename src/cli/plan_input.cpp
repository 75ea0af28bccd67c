// SPDX-License-Identifier: MIT
#include "cli/plan_input.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <vector>

#include "base/text.h"
#include "cli/data_folders.h"
#include "cli/files.h"
#include "plan/read_label_layout.h"
#include "plan/read_stock.h"
#include "tag/tag_text.h"

namespace loopledger::cli {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kEnding = ".toml";

/// A template's name is never a way to another folder.
bool is_template_name(const std::string& name) {
  return !name.empty() && name.front() != '.' && std::ranges::all_of(name, [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || is_digit(c) || c == '-' ||
           c == '_' || c == '.';
  });
}

/// The templates of one kind in all folders, each name once.
std::vector<std::string> names_in(const std::vector<DataFolder>& folders, const std::string& kind) {
  std::vector<std::string> names;
  for (const DataFolder& folder : folders) {
    std::error_code problem;
    for (const auto& entry : fs::directory_iterator(folder.path / "templates" / kind, problem)) {
      const std::string name = entry.path().stem().string();
      if (entry.path().extension() == kEnding && is_template_name(name)) {
        names.push_back(name);
      }
    }
  }
  std::ranges::sort(names);
  names.erase(std::unique(names.begin(), names.end()), names.end());
  return names;
}

/// What to do when not one template of a kind is there.
std::string no_templates_hint(const Context& context) {
  if (const auto only = context.env("LOOPLEDGER_DATA"); only && !only->empty()) {
    return fmt::format("LOOPLEDGER_DATA names {}, which holds none", *only);
  }
  return "set LOOPLEDGER_DATA to the folder that holds `templates` and `fonts`";
}

Diagnostic no_template(const std::string& kind, const std::string& name,
                       const std::vector<DataFolder>& folders, const Context& context) {
  const std::vector<std::string> names = names_in(folders, kind);
  const std::vector<std::string_view> views(names.begin(), names.end());
  const std::string_view near = nearest(name, views);
  std::string hint = views.empty()   ? no_templates_hint(context)
                     : !near.empty() ? fmt::format("did you mean \"{}\"?", near)
                                     : fmt::format("templates there are {}", either(views));
  return error(
      "plan-take",
      fmt::format("there is no template \"{}\" in templates/{}", shortened(name, 60), kind),
      std::move(hint));
}

/// From the first folder that has it. The user's own goes by its whole path, for it is the one to
/// be mended.
Result<plan::Loaded> load_template(const std::string& kind, const std::string& name,
                                   const Context& context) {
  const std::vector<DataFolder> folders = data_folders(context);
  const fs::path inside = fs::path("templates") / kind / (name + std::string(kEnding));
  for (const DataFolder& folder : folders) {
    const fs::path file = folder.path / inside;
    std::error_code ignored;
    if (!is_template_name(name) || !fs::exists(file, ignored)) {
      continue;
    }
    auto text = read_file(file.string(), kMaxTextFile);
    if (!text) {
      return text.diagnostics();
    }
    return plan::Loaded{folder.shipped ? inside.string() : file.string(), std::move(*text)};
  }
  return no_template(kind, name, folders, context);
}

/// By a path that ends in .toml, beside the plan; else by a name in templates/FOLDER.
Result<plan::Loaded> load_named(const std::string& folder, const std::string& name,
                                const std::string& plan_path, const Place& asked,
                                const Context& context) {
  if (name.ends_with(kEnding)) {
    const std::string file = beside(plan_path, name);
    auto text = read_file(file, kMaxTextFile);
    if (!text) {
      return text.diagnostics();
    }
    return plan::Loaded{file, std::move(*text)};
  }
  auto loaded = load_template(folder, name, context);
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

std::string beside(const std::string& plan_path, const std::string& relative) {
  if (plan_path == "-") {
    return relative;
  }
  return (fs::path(plan_path).parent_path() / relative).string();
}

Result<PlanInput> load_plan(const std::string& path, Context& context) {
  auto text = read_file(path, kMaxTextFile, context.in);
  if (!text) {
    return text.diagnostics();
  }
  PlanInput input;
  input.files.push_back({path == "-" ? "standard input" : path, *text});
  plan::Sources sources;
  sources.shelf = [&path, &input](const std::string& name) -> Result<plan::Loaded> {
    const std::string file = beside(path, name);
    auto shelf = read_file(file, kMaxTextFile);
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
  sources.from_templates = [&context](const std::string& folder, const std::string& name) {
    return load_template(folder, name, context);
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
                               const Place& asked, Context& context) {
  const auto loaded = load_named("stock", name, plan_path, asked, context);
  return loaded
             ? plan::read_stock(loaded->text, loaded->file, fs::path(loaded->file).stem().string())
             : Result<plan::Stock>(loaded.diagnostics());
}

Result<plan::LabelLayout> load_layout(const std::string& name, const std::string& plan_path,
                                      const Place& asked, Context& context) {
  const auto loaded = load_named("sheets", name, plan_path, asked, context);
  return loaded ? plan::read_label_layout(loaded->text, loaded->file,
                                          fs::path(loaded->file).stem().string())
                : Result<plan::LabelLayout>(loaded.diagnostics());
}

}  // namespace loopledger::cli
