// SPDX-License-Identifier: MIT
//
// Commands on ledgers of 10 to 100,000 records in memory, a process each time. Baselines of the
// same run: `--version` (what starting the program costs), and reading every file of the ledger
// plainly, by name from the folder.
//   bench_ledger [rounds] [largest] [program]
#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <filesystem>

#include "bench/invented_ledger.h"
#include "bench/measure.h"

using namespace loopledger::bench;

namespace {

namespace fs = std::filesystem;
using Words = std::vector<std::string>;

/// Every file of the folder, read whole; their bytes.
std::vector<double> read_all(const std::string& folder) {
  std::array<char, 1U << 16> chunk{};
  double bytes = 0;
  for (const auto& file : fs::directory_iterator(folder)) {
    const int fd = ::open(file.path().c_str(), O_RDONLY | O_CLOEXEC);
    ssize_t got = 0;
    while ((got = ::read(fd, chunk.data(), chunk.size())) > 0) {
      bytes += static_cast<double>(got);
    }
    ::close(fd);
  }
  return {bytes};
}

struct Job {
  std::string name;
  Words words;
  std::string in{};
  bool reads_all = false;
  int code = 0;
  Cost cost{};
};

std::vector<Job> jobs_for(const std::string& program, const std::string& records, int count) {
  const std::string id = id_in_ledger(count / 2);
  const auto job = [&](std::string name, Words words, bool reads_all = false, std::string in = {},
                       int code = 0) {
    words.insert(words.begin(), program);
    words.insert(words.end(), {"--records", records});
    return Job{std::move(name), std::move(words), std::move(in), reads_all, code};
  };
  return {job("show", {"show", id}),
          job("log", {"log", id, "note", "an invented remark"}),
          job("scan, a typed tag", {"scan", "-"}, false, id + "\n"),
          job("show, no such motor", {"show", "zz9"}, false, {}, 4),
          job("list", {"list"}, true),
          job("list --stale", {"list", "--stale"}, true),
          job("match 4", {"match", "4"}, true)};
}

struct Measured {
  std::vector<Job> jobs;
  Cost start;  ///< `--version`
  Cost plain;  ///< every file read
};

Measured measured(const std::string& program, const std::string& records, int count, int rounds) {
  Measured all{jobs_for(program, records, count), {}, {}};
  for (int round = 0; round < rounds; ++round) {
    const auto take = [round](Cost& to, const Cost& now) {
      to = round == 0 ? now : least(to, now);
    };
    take(all.start, of_program({program, "--version"}));
    take(all.plain, of_work([&] { return read_all(records); }));
    for (Job& job : all.jobs) {
      if (job.reads_all && count > 10000 && round > 0) {
        continue;  // seconds each; once will do
      }
      take(job.cost, of_program(job.words, job.in, job.code));
    }
  }
  return all;
}

void print_table(const Measured& all, const Measured& ten, int count) {
  fmt::print(
      "{} records, {:.1f} MB: --version {:.1f} ms, read plainly {:.1f} ms of the processor\n",
      count, all.plain.told.at(0) / 1e6, all.start.cpu_ms, all.plain.cpu_ms);
  for (std::size_t i = 0; i < all.jobs.size(); ++i) {
    const Job& job = all.jobs[i];
    fmt::print("  {:<22} {:>8.1f} ms, wall {:>8.1f}; {:>6.1f} MB; ", job.name, job.cost.cpu_ms,
               job.cost.wall_ms, job.cost.peak_mb);
    if (job.reads_all) {
      fmt::print("{:.1f} times the plain reading\n", job.cost.cpu_ms / all.plain.cpu_ms);
    } else {
      fmt::print("{:.2f} times --version; with ten records {:.2f} times\n",
                 job.cost.cpu_ms / all.start.cpu_ms, ten.jobs[i].cost.cpu_ms / ten.start.cpu_ms);
    }
  }
}

}  // namespace

int main(int argc, char** argv) {
  const int rounds = argc > 1 ? std::max(1, std::atoi(argv[1])) : 9;
  const int largest = argc > 2 ? std::atoi(argv[2]) : 100000;
  const std::string program = argc > 3 ? argv[3] : LOOPLEDGER_PROGRAM;
  const MemoryFolder folder;
  Measured ten;
  for (int count = 10; count <= largest; count *= 10) {
    const std::string records = folder.path() + "/" + std::to_string(count);
    fs::create_directory(records);
    (void)of_work([&] {  // in a child, so that this process stays small
      write_ledger(records, count);
      return std::vector<double>{};
    });
    const Measured all =
        measured(program, records, count, count < 10000 ? rounds : std::min(rounds, 5));
    ten = count == 10 ? all : ten;
    print_table(all, ten, count);
  }
}
