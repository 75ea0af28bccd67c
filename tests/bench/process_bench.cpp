// SPDX-License-Identifier: MIT
//
// The whole program on the example night of 24 motors, ledger and PDFs in memory: a process each
// time, with `--version` of the same program as the baseline, which is what starting it costs.
//   bench_process [rounds] [program]
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>

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
