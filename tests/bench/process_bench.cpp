// SPDX-License-Identifier: MIT
//
// The whole program on the example night of 24 motors, and `check` on plans of many, ledger and
// PDFs in memory: a process each time, with `--version` of the same program as the baseline, which
// is what starting it costs.
//   bench_process [rounds] [program]
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "bench/measure.h"

using namespace loopledger::bench;

namespace {

namespace fs = std::filesystem;
using Words = std::vector<std::string>;

struct Job {
  std::string name;
  Words words;
  bool fresh = false;  ///< without what an earlier round has left
  Cost cost{};
  bool measured = false;
};

/// Ten groups of motors, from eight pieces that suffice or from a strip that lists none.
void write_many(const std::string& path, int motors, bool pieces) {
  std::ofstream out(path);
  out << "format = 1\nbench = { scale_step = \"1 mg\" }\n"
         "rules.club = { limit = \"1.8 g\", counts = [\"rubber\"] }\n"
         "[strips.tan]\nwidth = \"2.5 mm\"\nsamples = [[\"500 mm\", \"1.310 g\"], "
         "[\"600 mm\", \"1.575 g\"], [\"800 mm\", \"2.094 g\"]]\n";
  if (pieces) {
    out << "pieces = [";
    for (int i = 0; i < 8; ++i) {
      out << fmt::format("{{ length = \"{} mm\" }}, ", motors * 100);
    }
    out << "]\n";
  }
  for (int group = 0; group < 10; ++group) {
    out << fmt::format("[[motors]]\nid = \"M{}\"\ncount = {}\nrule = \"club\"\nloop = \"{} mm\"\n",
                       group, motors / 10, 300 + group);
  }
}

std::vector<Job> jobs_in(const std::string& program, const std::string& folder) {
  const std::string plan = folder + "/club-night.toml";
  const Words records{"--records", folder + "/records"};
  const Words out{"--out", folder + "/out"};
  const auto job = [&](std::string name, Words words, std::vector<Words> more, bool fresh = false) {
    words.insert(words.begin(), program);
    for (const Words& w : more) {
      words.insert(words.end(), w.begin(), w.end());
    }
    return Job{std::move(name), std::move(words), fresh};
  };
  Words all{"label"};
  for (const char* stem : {"qu", "mi", "to", "br"}) {
    for (int i = 1; i <= 6; ++i) {
      all.push_back(stem + std::to_string(i));
    }
  }
  return {job("--version", {"--version"}, {}),
          job("check", {"check", plan}, {}),
          job("check, 1,000 motors", {"check", folder + "/1000.toml"}, {}),
          job("check, 10,000 motors", {"check", folder + "/10000.toml"}, {}),
          job("check, 10,000, pieces", {"check", folder + "/10000-pieces.toml"}, {}),
          job("print, 24 records opened", {"print", plan}, {records, out}, true),
          job("print again", {"print", plan}, {records, out}),
          job("label, 24 motors", all, {records, out}),
          job("card, 24 motors",
              [&] {
                auto w = all;
                w.front() = "card";
                return w;
              }(),
              {records, out}),
          job("show", {"show", "qu3"}, {records}),
          job("list", {"list"}, {records})};
}

}  // namespace

int main(int argc, char** argv) {
  const int rounds = argc > 1 ? std::max(1, std::atoi(argv[1])) : 15;
  const std::string program = argc > 2 ? argv[2] : LOOPLEDGER_PROGRAM;
  const MemoryFolder folder;
  for (const char* name : {"club-night.toml", "shelf.toml"}) {
    fs::copy_file(fs::path(LOOPLEDGER_SOURCE_DIR "/examples") / name,
                  fs::path(folder.path()) / name);
  }
  write_many(folder.path() + "/1000.toml", 1000, false);
  write_many(folder.path() + "/10000.toml", 10000, false);
  write_many(folder.path() + "/10000-pieces.toml", 10000, true);
  std::vector<Job> jobs = jobs_in(program, folder.path());
  for (int round = 0; round < rounds; ++round) {
    for (Job& job : jobs) {
      if (job.fresh) {
        fs::remove_all(folder.path() + "/records");
        fs::remove_all(folder.path() + "/out");
      }
      const Cost now = of_program(job.words);
      job.cost = job.measured ? least(job.cost, now) : now;
      job.measured = true;
    }
  }
  const Cost& start = jobs.front().cost;
  fmt::print("the least of {} rounds\n", rounds);
  for (const Job& job : jobs) {
    fmt::print(
        "  {:<25} {:>7.1f} ms wall, {:>7.1f} ms of the processor ({:>5.1f} times), {:>5.1f} MB\n",
        job.name, job.cost.wall_ms, job.cost.cpu_ms, job.cost.cpu_ms / start.cpu_ms,
        job.cost.peak_mb);
  }
}
