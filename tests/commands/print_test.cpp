// SPDX-License-Identifier: MIT
//
// The commands that print, as functions in a world that lies in memory.
#include "commands/print.h"

#include <doctest/doctest.h>

#include "commands/card.h"
#include "commands/exit_code.h"
#include "commands/label.h"
#include "commands/outcome.h"
#include "commands/test_page.h"
#include "records/ledger.h"
#include "support/club_plan.h"
#include "support/memory_world.h"

using namespace loopledger;
using namespace loopledger::test;

namespace {

/// A world with a night's plan, night.toml.
struct Shop {
  Shop() {
    world.templates.take_tree();
    world.files.files["shop/night.toml"] = club_plan(3);
  }
  commands::PrintAnswer print(const std::vector<std::string>& only = {}, bool new_only = false) {
    commands::PrintRequest request;
    request.plan = "shop/night.toml";
    request.only = only;
    request.new_only = new_only;
    return commands::print(request, world.get());
  }
  commands::TestPageAnswer test_page(const std::string& labels) {
    commands::TestPageRequest request;
    request.labels = labels;
    request.out = "o";
    return commands::test_page(request, world.get());
  }
  /// The night is printed, and its first motor has a new knot.
  void tie_first() {
    const commands::PrintAnswer night = print();
    REQUIRE_MESSAGE(!has_errors(night.said), render(night.said));
    records::Entry tied;
    tied.key = "20260301T100000Z-aaaa";
    tied.kind = records::Kind::tied;
    tied.loop = Length::mm(200);
    REQUIRE(records::Ledger(world.disk, "shop/records").add({"TH", 1}, tied).empty());
  }

  MemoryWorld world;
};

std::vector<std::string> paths_of(const std::vector<commands::WrittenFile>& files) {
  std::vector<std::string> paths;
  for (const commands::WrittenFile& file : files) {
    paths.push_back(file.path);
  }
  return paths;
}

}  // namespace

TEST_CASE("print's answer has the files, the records opened and kept, and the night's cuts") {
  Shop shop;
  const commands::PrintAnswer first = shop.print();
  REQUIRE_MESSAGE(!has_errors(first.said), render(first.said));
  const std::vector<std::string> papers{"shop/out/cut-sheet.pdf", "shop/out/break-in.pdf",
                                        "shop/out/labels.pdf"};
  CHECK(paths_of(first.files) == papers);
  CHECK(shop.world.files.committed == papers);
  CHECK(first.records == "shop/records");
  CHECK(first.opened == std::vector<MotorId>{{"TH", 1}, {"TH", 2}, {"TH", 3}});
  CHECK(first.kept == 0);
  CHECK(first.batch.motors.size() == 3);
  CHECK(first.plan.file == "shop/night.toml");
  const commands::PrintAnswer again = shop.print();
  CHECK(again.opened.empty());
  CHECK(again.kept == 3);
  CHECK(again.files.front().replaced);
}

TEST_CASE("no record is opened when a paper can't be written, and no paper put in place without") {
  Shop full;
  full.world.files.fail(FileCall::write, "shop/out/labels.pdf");
  const commands::PrintAnswer unwritten = full.print();
  CHECK(commands::exit_code_of(unwritten.said) == commands::kEnvironment);
  CHECK(full.world.disk.files.empty());
  CHECK(full.world.files.committed.empty());
  CHECK(unwritten.files.empty());
  Shop torn;
  torn.world.disk.cut_write(1, 10, false);
  const commands::PrintAnswer unopened = torn.print();
  CHECK(has_errors(unopened.said));
  CHECK(torn.world.files.committed.empty());
  CHECK(torn.print().opened.size() == 3);
}

TEST_CASE("print takes ids as they are typed, and only those of the plan") {
  Shop shop;
  CHECK(shop.print({"th1, th3"}).opened == std::vector<MotorId>{{"TH", 1}, {"TH", 3}});
  const commands::PrintAnswer other = shop.print({"th9"});
  REQUIRE(other.said.size() == 1);
  CHECK(other.said.front().code == "print-only");
  CHECK(shop.print({}, true).opened == std::vector<MotorId>{{"TH", 2}});
  CHECK(commands::exit_code_of(commands::print({}, shop.world.get()).said) == commands::kUsage);
}

TEST_CASE("the test page's answer has the stock and where the measures go") {
  Shop shop;
  shop.world.templates.printer = "printer.toml";
  const commands::TestPageAnswer answer = shop.test_page("a4-3x8-70x37");
  REQUIRE_MESSAGE(answer.file, render(answer.said));
  CHECK(answer.file->path == "o/test-page.pdf");
  CHECK(answer.stock.name == "a4-3x8-70x37");
  CHECK(answer.printer_file == "printer.toml");
  const commands::TestPageAnswer unknown = shop.test_page("a4-3x8-70x38");
  CHECK_FALSE(unknown.file);
  CHECK(has_errors(unknown.said));
}

TEST_CASE("label notes what it printed, and stale labels are those that it has not") {
  Shop shop;
  shop.tie_first();
  commands::LabelRequest request;
  request.stale = true;
  request.records = "shop/records";
  request.out = "shop/out";
  request.labels.copies = 2;
  const commands::LabelAnswer stale = commands::label(request, shop.world.get());
  REQUIRE_MESSAGE(!has_errors(stale.said), render(stale.said));
  CHECK(stale.file == "shop/out/labels.pdf");
  CHECK(stale.replaced);
  CHECK(stale.labels == 2);
  CHECK(stale.motors == std::vector<MotorId>{{"TH", 1}});
  const commands::LabelAnswer none = commands::label(request, shop.world.get());
  CHECK(none.said.empty());
  CHECK(none.file.empty());
  request.stale = false;
  request.ids = {","};
  const commands::LabelAnswer nothing = commands::label(request, shop.world.get());
  CHECK_FALSE(nothing.understood);
  CHECK(commands::exit_code_of(nothing.said) == commands::kUsage);
}

TEST_CASE("card's answer has its motors once each; a day that is none is not understood") {
  Shop shop;
  shop.tie_first();
  commands::CardRequest request;
  request.ids = {"th1,th2", "th1"};
  request.records = "shop/records";
  const commands::CardAnswer answer = commands::card(request, shop.world.get());
  REQUIRE_MESSAGE(!has_errors(answer.said), render(answer.said));
  CHECK(answer.file == "out/card.pdf");
  CHECK(answer.cards == 2);
  REQUIRE(answer.motors.size() == 2);
  CHECK(answer.motors[1].id == MotorId{"TH", 2});
  request.today.winder_ratio = "none";
  const commands::CardAnswer ratio = commands::card(request, shop.world.get());
  CHECK_FALSE(ratio.understood);
  CHECK(ratio.file.empty());
  CHECK_FALSE(commands::card({}, shop.world.get()).understood);
}
