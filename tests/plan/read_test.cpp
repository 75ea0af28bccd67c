// SPDX-License-Identifier: MIT
#include "plan/read.h"

#include <doctest/doctest.h>

#include "support/plan_text.h"

using namespace loopledger;
using test::read;
using test::said;
using test::with_head;

TEST_CASE("a plan of ten lines works and every default stands in it") {
  const auto plan = read(with_head("[[motors]]\nid = \"th\"\nrule = \"club\"\nmass = \"limit\"\n"));
  REQUIRE_MESSAGE(plan.ok(), said(plan.diagnostics()));
  CHECK(plan->bench.scale_error.value == Mass::mg(1));
  CHECK_FALSE(plan->bench.scale_error.given);
  CHECK(plan->bench.ruler_step.value == Length::mm(1));
  CHECK(plan->bench.confidence.value == Share::percent(95));
  CHECK(plan->bench.winder_ratio.value == 1);
  CHECK(plan->paper.value == "a4");
  CHECK(plan->records.value == "records");
  REQUIRE(plan->motors.size() == 1);
  const plan::MotorGroup& group = plan->motors.front();
  CHECK(group.stem.value == "TH");
  CHECK(group.count.value == 1);
  CHECK(group.strands.value == 2);
  CHECK(group.knot.value == Length::mm(16));
  CHECK(group.tails.value == Length::mm(0));
  CHECK(group.allowance.value == Length::mm(10));
  CHECK(group.window.value == Mass::mg(3));
  CHECK(group.mass_is_limit);
  CHECK(plan->strips.front().density.value == Density::g_per_cm3(0.93));
}

TEST_CASE("every fault of a plan is found in one run, from top to bottom") {
  const auto plan = read(R"(format = 1
titel = "x"
units = "imperial"
[bench]
scale_step = "1"
confidence = "95"
[strips.tan]
width = "3/32 g"
samples = [["500 mm", "1,2 g"]]
[[motors]]
id = "TH"
strands = 3
loop = "300 mm"
)");
  REQUIRE_FALSE(plan.ok());
  std::string places;
  for (const Diagnostic& d : plan.diagnostics()) {
    places +=
        d.code + " " + std::to_string(d.place.line) + ":" + std::to_string(d.place.column) + "\n";
  }
  CHECK(places ==
        "plan-key 2:1\n"
        "plan-value 3:9\n"
        "quantity-unit 5:14\n"
        "plan-bounds 6:14\n"
        "quantity-unit 8:9\n"
        "quantity-form 9:23\n"
        "plan-value 12:11\n");
}

TEST_CASE("a misspelt key is shown with its line, a caret and the nearest key") {
  const auto plan = read(with_head("[[motors]]\nid = \"TH\"\nlopp = \"300 mm\"\n"));
  CHECK(said(plan.diagnostics()) ==
        "night.toml:7:1: error: [[motors]]: unknown key `lopp` [plan-key]\n"
        "    7 | lopp = \"300 mm\"\n"
        "      | ^\n"
        "  hint: did you mean `loop`?\n");
}

TEST_CASE("a plan without format, bench, strip or motors says what to add") {
  const auto plan = read("title = \"x\"\n");
  const std::string text = said(plan.diagnostics());
  CHECK(text.find("expected `format = 1` at the top") != std::string::npos);
  CHECK(text.find("expected the key `scale_step`") != std::string::npos);
  CHECK(text.find("expected a strip to cut from") != std::string::npos);
  CHECK(text.find("expected at least one [[motors]] table") != std::string::npos);
}

TEST_CASE("another format number is an error") {
  const auto plan = read("format = 2\n");
  CHECK(said(plan.diagnostics()).find("format: expected 1, found 2") != std::string::npos);
}

TEST_SUITE("shelf") {
  const test::Texts kShelf{{"shelf.toml", R"(
paper = "letter"
[bench]
scale_step = "10 mg"
confidence = "99 %"
[strips.tan]
samples = [["500 mm", "1.5 g"]]
[strips.red]
samples = [["500 mm", "2.0 g"]]
)"}};

  TEST_CASE("the plan's own tables win over the shelf's, and the bench key by key") {
    const auto plan = read(R"(format = 1
take = ["shelf.toml"]
bench = { scale_step = "1 mg" }
strips.tan = { samples = [["500 mm", "1.2 g"], ["400 mm", "1.0 g"]] }
[[motors]]
id = "TH"
strip = "tan"
loop = "300 mm"
)",
                           kShelf);
    REQUIRE_MESSAGE(plan.ok(), said(plan.diagnostics()));
    CHECK(plan->bench.scale_step.value == Mass::mg(1));
    CHECK(plan->bench.confidence.value == Share::percent(99));
    CHECK(plan->paper.value == "letter");
    REQUIRE(plan->strips.size() == 2);
    CHECK(plan->strips[plan->motors[0].strip].samples.size() == 2);
  }

  TEST_CASE("a fault in a shelf file names the shelf file and its line") {
    const auto plan = read("format = 1\ntake = [\"s.toml\"]\n",
                           {{"s.toml", "[bench]\nscale_step = \"1 kilo\"\n"}});
    CHECK(
        said(plan.diagnostics())
            .find("s.toml:2:14: error: scale_step: expected a mass such as \"1.5 g\", found the "
                  "unit \"kilo\" in \"1 kilo\" [quantity-unit]\n    2 | scale_step = \"1 kilo\"") !=
        std::string::npos);
  }

  TEST_CASE("a missing shelf file is reported where the plan takes it") {
    const auto plan = read("format = 1\ntake = [\"gone.toml\"]\n");
    REQUIRE_FALSE(plan.ok());
    bool found = false;
    for (const Diagnostic& d : plan.diagnostics()) {
      found = found || (d.code == "disk-missing" && d.place.line == 2 && d.place.column == 9);
    }
    CHECK(found);
  }

  TEST_CASE("a shelf file takes no other and holds no motors") {
    const auto plan = read("format = 1\ntake = [\"s.toml\"]\n",
                           {{"s.toml", "take = [\"more.toml\"]\n[[motors]]\nid = \"X\"\n"}});
    const std::string text = said(plan.diagnostics());
    CHECK(text.find("s.toml:1:1: error: the shelf file: unknown key `take`") != std::string::npos);
    CHECK(text.find("s.toml:2:3: error: the shelf file: unknown key `motors`") !=
          std::string::npos);
  }

  TEST_CASE("the same strip in two shelf files is an error") {
    const auto plan = read("format = 1\ntake = [\"a.toml\", \"b.toml\"]\n",
                           {{"a.toml", "strips.t = { samples = [[\"1 m\", \"2 g\"]] }\n"},
                            {"b.toml", "strips.t = { samples = [[\"1 m\", \"3 g\"]] }\n"}});
    CHECK(said(plan.diagnostics()).find("strips \"t\" is in two shelf files") != std::string::npos);
  }

  TEST_CASE("a strip that is in two shelf files is the plan's own when it has one") {
    const auto plan = read(
        test::with_head("take = [\"a.toml\", \"b.toml\"]\n[strips.t]\nsamples = [[\"1 m\", "
                        "\"4 g\"]]\n[[motors]]\nid = \"A\"\nstrip = \"t\"\nloop = \"300 mm\"\n"),
        {{"a.toml", "strips.t = { samples = [[\"1 m\", \"2 g\"]] }\n"},
         {"b.toml", "strips.t = { samples = [[\"1 m\", \"3 g\"]] }\n"}});
    CHECK(said(plan.diagnostics()).find("two shelf files") == std::string::npos);
  }

  TEST_CASE("more tables than are read are told, not passed over") {
    std::string text = "format = 1\n";
    for (int i = 1; i <= 1001; ++i) {
      text += "[rings.r" + std::to_string(i) + "]\nmass = \"1 g\"\n";
    }
    CHECK(said(read(text).diagnostics()).find("rings: expected at most 1000 tables") !=
          std::string::npos);
  }
}

TEST_CASE("the same id planned twice names the line of the first and a free number") {
  const auto plan =
      read(with_head("[[motors]]\nid = \"TH\"\ncount = 6\nloop = \"300 mm\"\n"
                     "[[motors]]\nid = \"th\"\nfirst = 5\nloop = \"300 mm\"\n"));
  CHECK(
      said(plan.diagnostics())
          .find("night.toml:11:9: error: TH-05 is planned twice; the first time in line 5 "
                "[plan-twice]\n   11 | first = 5\n      |         ^\n  hint: first = 7, or another "
                "id\n") != std::string::npos);
}

TEST_CASE("of several groups that have an id the first in the plan is named") {
  const auto group = [](const std::string& id, int first, int count) {
    return "[[motors]]\nid = \"" + id + "\"\nfirst = " + std::to_string(first) +
           "\ncount = " + std::to_string(count) + "\nloop = \"300 mm\"\n";
  };
  const auto told = [&](const std::string& newest) {
    return said(
        read(with_head(group("TH", 20, 5) + group("TH", 1, 5) + group("LA", 1, 50) + newest))
            .diagnostics());
  };
  CHECK(told(group("TH", 6, 14)).empty());
  CHECK(told(group("TH", 25, 1)).empty());
  CHECK(told(group("TH", 3, 30)).find("TH-20 is planned twice; the first time in line 5 ") !=
        std::string::npos);
  CHECK(told(group("TH", 3, 17)).find("TH-03 is planned twice; the first time in line 10 ") !=
        std::string::npos);
  // The one that was refused has its numbers too.
  CHECK(told(group("TH", 3, 8) + group("TH", 8, 1))
            .find("TH-08 is planned twice; the first time in line 20 ") != std::string::npos);
}

TEST_CASE("more motors than a plan may hold is an error, not a hang") {
  const auto plan =
      read(with_head("[[motors]]\nid = \"A\"\ncount = 9000\nloop = \"300 mm\"\n"
                     "[[motors]]\nid = \"B\"\ncount = 9000\nloop = \"300 mm\"\n"));
  CHECK(said(plan.diagnostics()).find("the plan has 18000 motors, at most 10000 fit one plan") !=
        std::string::npos);
}

TEST_CASE("a date may stand with or without quotes, and must exist") {
  const char* const motors = "[[motors]]\nid = \"A\"\nloop = \"300 mm\"\n";
  for (const char* date : {"date = 2026-02-28\n", "date = \"2026-02-28\"\n"}) {
    const auto plan = read(std::string(date) + with_head(motors));
    REQUIRE_MESSAGE(plan.ok(), said(plan.diagnostics()));
    CHECK(iso(plan->date.value) == "2026-02-28");
  }
  CHECK_FALSE(read(std::string("date = \"2026-02-30\"\n") + with_head(motors)).ok());
}

TEST_CASE("a link needs a web address with {id}") {
  const char* const motors = "[[motors]]\nid = \"A\"\nloop = \"300 mm\"\n";
  CHECK(read("link = \"https://example.org/m/{id}\"\n" + with_head(motors)).ok());
  CHECK_FALSE(read("link = \"https://example.org/m\"\n" + with_head(motors)).ok());
  CHECK_FALSE(read("link = \"ftp://example.org/{id}\"\n" + with_head(motors)).ok());
}

TEST_CASE("faults without an end are told in a bounded number of words") {
  std::string lines = "format = 1\n";
  for (int i = 0; i < 30'000; ++i) {
    lines += "b" + std::to_string(i) + " = 1\n";
  }
  const auto unknown = read(lines);
  CHECK(unknown.diagnostics().size() < 30);
  CHECK(said(unknown.diagnostics()).find("the plan: 29980 more unknown keys") != std::string::npos);

  std::string motors(with_head(""));
  for (int i = 0; i < 9'000; ++i) {
    motors += "[[motors]]\nid = \"A!\"\nstrip = \"none\"\n";
  }
  const auto many = read(motors);
  CHECK(many.diagnostics().size() < 1100);
  CHECK(said(many.diagnostics()).find("more than 1000 faults; what follows is not read") !=
        std::string::npos);
}

TEST_CASE("a name that is none of hundreds is answered with some of them") {
  std::string text(with_head(""));
  for (int i = 0; i < 500; ++i) {
    text += "[strips.s" + std::to_string(i) + "]\nwidth = \"2 mm\"\nthickness = \"1 mm\"\n";
  }
  const auto plan =
      read(text + "[[motors]]\nid = \"A\"\nloop = \"300 mm\"\nstrip = \"unheard-of\"\n");
  REQUIRE_FALSE(plan.ok());
  CHECK(said(plan.diagnostics()).size() < 1000);
  CHECK(said(plan.diagnostics()).find(", and 481 more") != std::string::npos);
}
