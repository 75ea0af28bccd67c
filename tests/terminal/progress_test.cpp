// SPDX-License-Identifier: MIT
//
// How far long work has come: only on a terminal, only after a second, and gone at the end.
#include "terminal/progress.h"

#include <doctest/doctest.h>

#include <sstream>
#include <string>
#include <thread>
#include <vector>

#include "photo/picture.h"
#include "support/cli_run.h"
#include "support/terminal.h"

using namespace loopledger;
using namespace loopledger::test;
using terminal::LineProgress;

namespace {

/// A clock that is set by hand.
struct Watch {
  std::ostringstream err;
  LineProgress::Instant now;
  std::function<LineProgress::Instant()> clock = [this] { return now; };
};

constexpr auto kMs = std::chrono::milliseconds(1);

}  // namespace

TEST_CASE("progress is silent for a second, then shown ten times a second, then taken back") {
  Watch watch;
  {
    LineProgress progress(watch.err, "reading records", 100, watch.clock);
    watch.now += 999 * kMs;
    progress.step();
    CHECK(watch.err.str().empty());
    watch.now += 1 * kMs;
    progress.step();
    CHECK(watch.err.str() == "\r\x1b[Kreading records: 2 of 100");
    watch.now += 99 * kMs;
    progress.step();
    CHECK(watch.err.str() == "\r\x1b[Kreading records: 2 of 100");
    watch.now += 1 * kMs;
    progress.step();
    CHECK(watch.err.str().ends_with("\r\x1b[Kreading records: 4 of 100"));
    progress.hide();
    CHECK(watch.err.str().ends_with("4 of 100\r\x1b[K"));
    const std::string before = watch.err.str();
    progress.hide();
    CHECK(watch.err.str() == before);
    watch.now += 100 * kMs;
    progress.step();
  }
  CHECK(watch.err.str().ends_with("5 of 100\r\x1b[K"));
}

TEST_CASE("several threads count together") {
  Watch watch;
  LineProgress progress(watch.err, "reading records", 4001, watch.clock);
  watch.now += 900 * kMs;
  std::vector<std::thread> threads;
  for (int t = 0; t < 4; ++t) {
    threads.emplace_back([&progress] {
      for (int i = 0; i < 999; ++i) {
        progress.step();
      }
    });
  }
  for (std::thread& thread : threads) {
    thread.join();
  }
  watch.now += 100 * kMs;
  progress.step();
  CHECK(watch.err.str() == "\r\x1b[Kreading records: 3997 of 4001");
}

TEST_CASE("a scan of many pictures shows how far it has come, and leaves no trace of it") {
  const TempFolder folder;
  // Noise holds no label, and looking for one takes a while.
  photo::Grey plain;
  plain.width = plain.height = 500;
  plain.pixels.assign(std::size_t{500} * 500, 128);
  for (unsigned i = 0; i < 12; ++i) {
    folder.write("p" + std::to_string(i) + ".png", png(with_noise(plain, 120, i)));
  }
  Terminal terminal({"scan", folder.path(), "--json"}, {"TERM=xterm"});
  const std::string seen = terminal.all();
  CHECK(terminal.ended() == 4);
  CHECK(has(seen, "reading pictures: "));
  CHECK(has(seen, " of 12"));
  CHECK(seen.rfind("\r\x1b[K") < seen.find("\"format\""));
  Terminal dumb({"scan", folder.path("p0.png"), folder.path("p1.png"), "--json"}, {"TERM=dumb"});
  CHECK_FALSE(has(dumb.all(), "\x1b"));
}
