// SPDX-License-Identifier: MIT
#include "motor/tag_fits.h"

#include <doctest/doctest.h>

using namespace loopledger;
using namespace loopledger::motor;
using namespace loopledger::tag;

namespace {

records::Record ledger_motor() {
  records::Record record;
  record.id = {"TH", 1};
  record.planned.date = Date{2026, 1, 31};
  record.planned.aim = Mass::g(1.4964);
  record.planned.loop = Length::mm(303.4);
  record.planned.rings.value = Mass::mg(12);
  record.planned.adhesive_mass.value = Mass::mg(1);
  return record;
}

TagFigures label() {
  TagFigures figures;
  figures.id = {"TH", 1};
  figures.mass = Mass::g(1.496);
  figures.loop = Length::mm(303);
  figures.date = Date{2026, 1, 31};
  return figures;
}

records::Entry entry(records::Kind kind) {
  records::Entry made;
  made.key = "20260214T100000Z-b7k2";
  made.kind = kind;
  return made;
}

using Words = std::vector<std::string_view>;

}  // namespace

TEST_CASE("a label fits the record that it was printed from, to half of its last digit") {
  CHECK(tag_misfits(label(), ledger_motor()).empty());
  TagFigures id_alone;
  id_alone.id = {"TH", 1};
  CHECK(tag_misfits(id_alone, ledger_motor()).empty());
}

TEST_CASE("a label of another ledger's motor is known by mass, loop or date") {
  TagFigures other = label();
  other.mass = Mass::g(1.498);
  CHECK(tag_misfits(other, ledger_motor()) == Words{"mass"});
  other.loop = Length::mm(305);
  other.date = Date{2025, 5, 1};
  CHECK(tag_misfits(other, ledger_motor()) == Words{"mass", "loop", "date"});
}

TEST_CASE("what was weighed and measured later fits too, corrected or not") {
  records::Record record = ledger_motor();
  records::Entry tied = entry(records::Kind::tied);
  tied.reading = Mass::g(1.507);
  tied.loop = Length::mm(306);
  record.entries.push_back(tied);
  TagFigures figures = label();
  figures.mass = Mass::g(1.494);
  figures.loop = Length::mm(306);
  figures.date = Date{2026, 2, 14};
  CHECK(tag_misfits(figures, record).empty());
  records::Entry better = entry(records::Kind::tied);
  better.reading = Mass::g(1.510);
  better.corrects = tied.key;
  record.entries.push_back(better);
  CHECK(tag_misfits(figures, record).empty());
}

TEST_CASE("a text that the record says was printed fits whatever it says") {
  records::Record record = ledger_motor();
  TagFigures figures = label();
  figures.mass = Mass::g(2.5);
  CHECK(tag_misfits(figures, record) == Words{"mass"});
  records::Entry labelled = entry(records::Kind::labelled);
  labelled.tag = tag_texts(figures).front();
  record.entries.push_back(labelled);
  CHECK(tag_misfits(figures, record).empty());
}
