// SPDX-License-Identifier: MIT
#include "calc/work_out.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <tuple>

#include "base/quantity_text.h"
#include "calc/choose.h"
#include "calc/curve.h"
#include "calc/cut_after.h"
#include "calc/energy.h"
#include "calc/plan_motor.h"
#include "calc/sample_checks.h"
#include "calc/strip_figures.h"
#include "cutting/cutting_plan.h"

namespace loopledger::calc {
namespace {

using plan::Plan;
using records::Planned;

bool is_used(const Plan& plan, std::size_t strip) {
  return std::ranges::any_of(plan.motors, [strip](const plan::MotorGroup& g) {
    return g.strip == strip || (g.choosing && !g.strip_named);
  });
}

/// Figures of each group on strip of a linear density; each pair is worked out once.
class GroupFigures {
 public:
  explicit GroupFigures(const Plan& plan) : plan_(plan) {}

  /// Empty when it can't be met; what is wrong is then in `problems`, each fault of a group once,
  /// whatever the number of pieces that have it.
  const Planned* get(std::size_t group, const Uncertain<LinearDensity>& density,
                     Diagnostics& problems) {
    const Key key{group, density.value.in_si(), density.u.in_si()};
    auto found = known_.find(key);
    if (found == known_.end()) {
      auto planned = plan_motor(plan_, plan_.motors[group], density);
      for (const Diagnostic& d : planned.diagnostics()) {
        if (said_.emplace(group, d.code, d.place.file, d.place.line, d.place.column).second) {
          problems.push_back(d);
        }
      }
      found = known_.emplace(key, planned ? std::optional(*planned) : std::nullopt).first;
    }
    return found->second ? &*found->second : nullptr;
  }

 private:
  using Key = std::tuple<std::size_t, double, double>;
  const Plan& plan_;
  std::map<Key, std::optional<Planned>> known_;
  std::set<std::tuple<std::size_t, std::string, std::string, int, int>> said_;
};

/// Of a strip and its pieces the one that is known worst: "do not pass" is the smallest share of
/// the largest turns there.
const Uncertain<LinearDensity>& least_known(const StripFigures& figures) {
  const Uncertain<LinearDensity>* least = &figures.density;
  for (const Uncertain<LinearDensity>& piece : figures.piece_density) {
    if (piece.u / piece.value > least->u / least->value) {
      least = &piece;
    }
  }
  return *least;
}

/// One strip's motors and pieces as a cutting task, and the way back.
struct StripTask {
  std::size_t strip = 0;
  std::vector<std::size_t> motors;  ///< indices into Batch::motors
  cutting::CuttingTask task;
};

/// Of all the plan's motors from this strip, whether they are cut tonight or not.
Length shortest_cut(const Plan& plan, std::size_t strip, const StripFigures& figures,
                    GroupFigures& groups, Diagnostics& problems) {
  std::optional<Length> shortest;
  for (std::size_t g = 0; g < plan.motors.size(); ++g) {
    if (plan.motors[g].strip != strip || plan.motors[g].choosing) {
      continue;
    }
    if (const Planned* const planned = groups.get(g, figures.density, problems)) {
      shortest = shortest ? std::min(*shortest, planned->cut) : planned->cut;
    }
  }
  return shortest.value_or(Length{});
}

Result<StripTask> task_for(const Plan& plan, std::size_t strip_index, const StripFigures& figures,
                           const Batch& batch, GroupFigures& groups) {
  StripTask out;
  out.strip = strip_index;
  const plan::Strip& strip = plan.strips[strip_index];
  Diagnostics problems;
  for (std::size_t p = 0; p < strip.pieces.size(); ++p) {
    out.task.pieces.push_back({figures.piece_length[p], strip.ends.value});
  }
  for (std::size_t m = 0; m < batch.motors.size(); ++m) {
    const MotorFigures& motor = batch.motors[m];
    if (plan.motors[motor.group].strip != strip_index) {
      continue;
    }
    std::vector<Length> row;
    for (std::size_t p = 0; p < strip.pieces.size(); ++p) {
      const Planned* const planned = groups.get(motor.group, figures.piece_density[p], problems);
      row.push_back(planned == nullptr ? Length{} : planned->cut);
    }
    out.motors.push_back(m);
    out.task.cut.push_back(std::move(row));
  }
  out.task.keep = strip.keep.given ? strip.keep.value
                                   : shortest_cut(plan, strip_index, figures, groups, problems);
  if (has_errors(problems)) {
    return problems;
  }
  return out;
}

std::string id_list(const Batch& batch, const std::vector<std::size_t>& motors) {
  constexpr std::size_t kNamed = 12;
  std::string out;
  for (std::size_t i = 0; i < motors.size() && i < kNamed; ++i) {
    out += (i == 0 ? "" : ", ") + printed(batch.motors[motors[i]].id);
  }
  return motors.size() > kNamed ? fmt::format("{} and {} more", out, motors.size() - kNamed) : out;
}

Diagnostic pieces_short(const plan::Strip& strip, const Batch& batch, const StripTask& task,
                        const std::vector<std::size_t>& uncut, Length missing, Length longest,
                        std::size_t perhaps_more, bool allowed) {
  const std::size_t can = task.motors.size() - uncut.size();
  const std::string who = id_list(batch, uncut);
  std::string message =
      perhaps_more == 0
          ? fmt::format(
                "strip \"{}\": its pieces give {} of {} motors; {} can't be cut, {} mm of "
                "strip is missing (longest remnant {} mm)",
                strip.name, can, task.motors.size(), who, fixed(missing.in_mm(), 0),
                fixed(longest.in_mm(), 0))
          : fmt::format(
                "strip \"{}\": the best plan that was found cuts {} of {} motors, without "
                "{}; whether {} more can be cut is not settled: the strip only just "
                "suffices, or not quite",
                strip.name, can, task.motors.size(), who, perhaps_more);
  if (allowed) {
    return warning("pieces-short", std::move(message), {}, strip.place);
  }
  return error("pieces-short", std::move(message),
               fmt::format("add {}, plan fewer motors, or --short prints the {} that can be cut",
                           perhaps_more == 0 ? "pieces" : "a piece or a few mm of strip", can),
               strip.place);
}

/// Enters one strip's result into the batch: cuts by piece, each motor's piece and figures.
Diagnostics enter(const Plan& plan, const StripTask& t, const cutting::CuttingResult& result,
                  const StripFigures& figures, GroupFigures& groups, bool allow_short,
                  Batch& batch) {
  const plan::Strip& strip = plan.strips[t.strip];
  const std::vector<Length> left = cutting::remnants(t.task, result);
  Diagnostics problems;
  Length longest;
  for (std::size_t p = 0; p < strip.pieces.size(); ++p) {
    PieceCuts cuts;
    cuts.strip = t.strip;
    cuts.piece = p;
    cuts.length = figures.piece_length[p];
    cuts.ends = strip.ends.value;
    cuts.left = left[p];
    cuts.scrap = cutting::is_scrap(left[p], t.task.keep);
    longest = std::max(longest, left[p]);
    for (std::size_t i = 0; i < t.motors.size(); ++i) {
      if (result.piece_of[i] == p) {
        cuts.motors.push_back(t.motors[i]);
        MotorFigures& motor = batch.motors[t.motors[i]];
        motor.planned = *groups.get(motor.group, figures.piece_density[p], problems);
        motor.planned.piece = strip.pieces[p].tag;
      }
    }
    if (!cuts.motors.empty()) {
      batch.cutting.pieces.push_back(std::move(cuts));
    }
  }
  std::vector<std::size_t> uncut;
  Length missing;
  for (std::size_t i = 0; i < t.motors.size(); ++i) {
    if (!result.piece_of[i]) {
      uncut.push_back(t.motors[i]);
      batch.motors[t.motors[i]].cut = false;
      missing += batch.motors[t.motors[i]].planned.cut;
    }
  }
  if (!uncut.empty()) {
    batch.cutting.uncut.insert(batch.cutting.uncut.end(), uncut.begin(), uncut.end());
    batch.cutting.shortfall += missing;
    problems.push_back(
        pieces_short(strip, batch, t, uncut, missing, longest, result.motors_gap, allow_short));
  }
  return problems;
}

/// The shelf after the night and what it would still give, of one strip.
void enter_after(const Plan& plan, const StripTask& t, const cutting::CuttingResult& result,
                 const StripFigures& figures, Batch& batch) {
  const plan::Strip& strip = plan.strips[t.strip];
  std::vector<ShelfPiece> before;
  for (std::size_t p = 0; p < strip.pieces.size(); ++p) {
    before.push_back({strip.pieces[p].tag, figures.piece_length[p], strip.pieces[p].mass});
  }
  batch.cutting.after.push_back({t.strip, shelf_after(t.task, result, before)});
  const std::vector<std::size_t> more = how_many_more(t.task, result);
  for (std::size_t i = 0; i < t.motors.size(); ++i) {
    const std::size_t group = batch.motors[t.motors[i]].group;
    if (i == 0 ||
        batch.motors[t.motors[i - 1]].group != group) {  // a group's motors are neighbours
      batch.cutting.more.push_back({group, more[i]});
    }
  }
}

Diagnostics cut_strips(const Plan& plan, const std::vector<StripFigures>& figures,
                       GroupFigures& groups, const WorkOptions& options, Batch& batch) {
  Diagnostics problems;
  batch.cutting.aims_proven = cutting::kCuttingAims;
  for (std::size_t s = 0; s < plan.strips.size(); ++s) {
    if (plan.strips[s].pieces.empty()) {
      continue;
    }
    auto task = task_for(plan, s, figures[s], batch, groups);
    append(problems, task.diagnostics());
    if (!task || task->motors.empty()) {
      continue;
    }
    const cutting::CuttingResult result =
        cutting::make_cutting_plan(task->task, options.cutting_effort);
    batch.cutting.made = true;
    batch.cutting.aims_proven = std::min(batch.cutting.aims_proven, result.aims_proven);
    batch.cutting.motors_gap += result.motors_gap;
    batch.cutting.gap += result.gap;
    batch.cutting.pieces_gap += result.touched_gap;
    batch.cutting.longest_gap = std::max(batch.cutting.longest_gap, result.longest_gap);
    enter_after(plan, *task, result, figures[s], batch);
    append(problems, enter(plan, *task, result, figures[s], groups, options.short_of_strip, batch));
  }
  batch.cutting.proven = batch.cutting.made && batch.cutting.aims_proven == cutting::kCuttingAims;
  return problems;
}

bool is_asked_for(const WorkOptions& options, const MotorId& id) {
  return !options.only || std::ranges::find(*options.only, id) != options.only->end();
}

bool is_asked_for(const plan::MotorGroup& group, const WorkOptions& options) {
  for (int i = 0; i < group.count.value; ++i) {
    if (is_asked_for(options, {group.stem.value, group.first.value + i})) {
      return true;
    }
  }
  return false;
}

/// One MotorFigures for each motor of the group that is asked for.
void add_group(const Plan& plan, std::size_t g, const std::vector<StripFigures>& figures,
               const WorkOptions& options, GroupFigures& groups, Batch& batch,
               Diagnostics& problems) {
  const plan::MotorGroup& group = plan.motors[g];
  if (is_asked_for(group, options)) {
    // First, so that a step of its recipe is refused with what every piece allows.
    (void)groups.get(g, least_known(figures[group.strip]), problems);
  }
  const Planned* const planned = groups.get(g, figures[group.strip].density, problems);
  if (planned == nullptr) {
    return;
  }
  for (int i = 0; i < group.count.value; ++i) {
    MotorFigures motor;
    motor.id = {group.stem.value, group.first.value + i};
    if (!is_asked_for(options, motor.id)) {
      continue;
    }
    motor.group = g;
    motor.planned = *planned;
    batch.motors.push_back(std::move(motor));
  }
}

Diagnostic no_size_yet(const plan::MotorGroup& group) {
  return error("motor-size",
               fmt::format("motors \"{}\" have no size yet: expected `mass` or `loop`, found "
                           "neither",
                           group.stem.value),
               "`check` shows what each strip gives; then mass = \"limit\", a mass such as "
               "\"1.45 g\", or loop = \"300 mm\"",
               group.place);
}

}  // namespace

Result<Batch> work_out(const Plan& plan, const WorkOptions& options) {
  Batch batch;
  Diagnostics problems;
  for (std::size_t s = 0; s < plan.strips.size(); ++s) {
    if (is_used(plan, s)) {
      append(problems, check_samples(plan.strips[s], plan.bench));
    }
  }
  const std::vector<StripFigures> figures = strip_figures(plan);
  GroupFigures groups(plan);
  for (std::size_t g = 0; g < plan.motors.size(); ++g) {
    if (!plan.motors[g].choosing) {
      add_group(plan, g, figures, options, groups, batch, problems);
    } else if (options.choices) {
      std::ranges::move(choices_for(plan, g, figures, problems), std::back_inserter(batch.choices));
    } else if (is_asked_for(plan.motors[g], options)) {
      problems.push_back(no_size_yet(plan.motors[g]));
    }
  }
  if (has_errors(problems)) {
    return problems;
  }
  append(problems, cut_strips(plan, figures, groups, options, batch));
  if (has_errors(problems)) {
    return problems;
  }
  for (MotorFigures& motor : batch.motors) {
    motor.energy = largest_energy(motor.planned);
    motor.wind_to_energy = planned_energy(motor.planned, motor.planned.wind_to);
  }
  batch.curve = default_curve_points();
  return {std::move(batch), std::move(problems)};
}

Batch cut_tonight(const Batch& batch) {
  Batch tonight = batch;
  tonight.cutting.uncut.clear();
  tonight.cutting.shortfall = {};
  std::erase_if(tonight.motors, [](const MotorFigures& motor) { return !motor.cut; });
  for (PieceCuts& piece : tonight.cutting.pieces) {
    for (std::size_t& motor : piece.motors) {
      const auto before = batch.motors.begin() + static_cast<std::ptrdiff_t>(motor);
      motor = static_cast<std::size_t>(
          std::count_if(batch.motors.begin(), before, [](const MotorFigures& m) { return m.cut; }));
    }
  }
  return tonight;
}

}  // namespace loopledger::calc
