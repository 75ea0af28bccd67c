// SPDX-License-Identifier: MIT
#include "tag/tag_text.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <random>
#include <string>

#include "tag/id.h"

using namespace loopledger;
using namespace loopledger::tag;

namespace {

TagFigures th1() {
  return {MotorId{"TH", 1}, TagState::made,  Turns::of(1180),  Torque::gf_cm(44),
          Mass::g(1.496),   Length::mm(303), Date{2026, 1, 31}};
}

std::string id1() { return with_check(MotorId{"TH", 1}); }

std::string code(const Result<TagFigures>& result) {
  return result.ok() ? "" : result.diagnostics().at(0).code;
}

}  // namespace

TEST_CASE("a tag says what is wound first, then what the motor is") {
  const auto texts = tag_texts(th1());
  REQUIRE(texts.size() == 3);
  CHECK(texts[0] == id1() + " MADE 1180T 44GFCM 1.496G 303MM L1 260131");
  CHECK(texts[1] == id1() + " 1180T 44GFCM");
  CHECK(texts[2] == id1());
}

TEST_CASE("what is not known is left out") {
  TagFigures figures = th1();
  figures.state = TagState::est;
  figures.torque.reset();
  figures.date.reset();
  CHECK(tag_texts(figures).front() == id1() + " EST 1180T 1.496G 303MM L1");
  TagFigures bare;
  bare.id = figures.id;
  CHECK(tag_texts(bare) == std::vector<std::string>{id1()});
  bare.turns = Turns::of(900);
  CHECK(tag_texts(bare) == std::vector<std::string>{id1() + " 900T", id1()});
  bare.turns = Turns::of(900.7);  // never up: it may be the limit
  CHECK(tag_texts(bare).front() == id1() + " 900T");
}

TEST_CASE("small torques keep two digits, large masses fewer decimals") {
  TagFigures figures = th1();
  figures.torque = Torque::gf_cm(4.24);
  CHECK(tag_texts(figures)[1] == id1() + " 1180T 4.2GFCM");
  figures.torque = Torque::gf_cm(0.424);
  CHECK(tag_texts(figures)[1] == id1() + " 1180T 0.42GFCM");
  figures.torque = Torque::gf_cm(9.97);
  CHECK(tag_texts(figures)[1] == id1() + " 1180T 10GFCM");
  figures.mass = Mass::g(123.46);
  CHECK(tag_texts(figures)[0].find(" 123.5G ") != std::string::npos);
}

TEST_CASE("the widest figures give 61 characters, and figures that don't fit are left out") {
  TagFigures wide{MotorId{"ABCDEFGH", 9999}, TagState::made,  Turns::of(99999),
                  Torque::gf_cm(9999),       Mass::g(99.999), Length::mm(9999),
                  Date{2099, 12, 31}};
  CHECK(tag_texts(wide).front().size() == kTagMaxCharacters);
  wide.turns = Turns::of(100000);
  wide.torque = Torque::gf_cm(10000);
  wide.mass = Mass::g(10000);
  wide.loop = Length::mm(10000);
  wide.date = Date{2100, 1, 1};
  CHECK(tag_texts(wide).front() == with_check(wide.id) + " MADE L1");
  wide.turns = Turns::of(std::numeric_limits<double>::quiet_NaN());
  wide.torque = Torque::gf_cm(-3);
  CHECK(tag_texts(wide)[1] == with_check(wide.id));
}

TEST_CASE("every set of figures reads back to the digits that were printed") {
  std::mt19937 random(20260131);
  const auto pick = [&](double low, double high) {
    return std::exp(std::uniform_real_distribution<double>(std::log(low), std::log(high))(random));
  };
  const auto maybe = [&] { return random() % 4 != 0; };
  constexpr std::string_view kSet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";
  for (int i = 0; i < 5000; ++i) {
    TagFigures figures;
    const std::size_t length = 1 + random() % 8;
    for (std::size_t k = 0; k < length; ++k) {
      figures.id.stem += kSet[random() % 36];
    }
    figures.id.number = 1 + static_cast<int>(pick(1, 9999)) % 9999;
    if (maybe()) {
      figures.state = random() % 2 == 0 ? TagState::est : TagState::made;
    }
    if (maybe()) {
      figures.turns = Turns::of(pick(0.1, 200000));
    }
    if (maybe()) {
      figures.torque = Torque::gf_cm(pick(0.001, 20000));
    }
    if (maybe()) {
      figures.mass = Mass::g(pick(0.0001, 20000));
    }
    if (maybe()) {
      figures.loop = Length::mm(pick(0.1, 20000));
    }
    if (maybe()) {
      figures.date = Date{2000 + static_cast<int>(random() % 100),
                          1 + static_cast<int>(random() % 12), 1 + static_cast<int>(random() % 28)};
    }
    const auto texts = tag_texts(figures);
    REQUIRE(texts.front().size() <= kTagMaxCharacters);
    REQUIRE(std::is_sorted(texts.begin(), texts.end(),
                           [](const auto& a, const auto& b) { return a.size() > b.size(); }));
    for (const std::string& text : texts) {
      REQUIRE(text.find_first_not_of(kSet) == std::string::npos);
      const auto read = read_label(text);
      REQUIRE_MESSAGE(read.ok(), text);
      REQUIRE(read->id == figures.id);
      REQUIRE(tag_texts(*read).front() == text);
    }
  }
}

TEST_CASE("no label with one wrong character in its id is read as another motor's") {
  const std::string text = tag_texts(th1()).front();
  constexpr std::string_view kSet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";
  for (std::size_t i = 0; i < id1().size(); ++i) {
    for (const char c : kSet) {
      std::string wrong = text;
      wrong[i] = c;
      if (wrong != text) {
        CHECK_FALSE_MESSAGE(read_label(wrong).ok(), wrong);
      }
    }
  }
}

TEST_CASE("a symbol's text is ours only character for character") {
  const std::string id = id1();
  for (const std::string& text : {id + " MADE 1180T 44GFCM 1.496G 303MM 260131",
                                  id + "  1180T",
                                  id + " 1180T ",
                                  id + " 44GFCM 1180T",
                                  id + " 01180T",
                                  id + " 1180.0T",
                                  id + " MADE",
                                  id + " L1",
                                  id + " 1180T 1180T",
                                  id + " 1.5G L1",
                                  id + " MADE 303MM 1.496G L1",
                                  id + " 1180T X",
                                  id + " MADE L1 261331",
                                  id + " 1/2G L1",
                                  std::string("TH-01"),
                                  std::string("th1"),
                                  std::string("TH01K"),
                                  std::string(),
                                  std::string("HELLO WORLD"),
                                  std::string("12345"),
                                  id + "\n",
                                  id + std::string(1, '\0'),
                                  std::string(301, 'A')}) {
    CHECK_FALSE_MESSAGE(read_label(text).ok(), text);
  }
  CHECK(read_label(id).ok());
  CHECK(read_label(id + " MADE L1").ok());
}

TEST_CASE("a wrong check character and a later layout are told apart") {
  std::string wrong = id1();
  wrong.back() = wrong.back() == 'A' ? 'B' : 'A';
  CHECK(code(read_label(wrong + " 1180T")) == "id-check");
  CHECK(code(read_label(id1() + " MADE 1180T L2 260131")) == "tag-version");
  CHECK(code(read_label(id1() + " KG=3 L12")) == "tag-version");
  CHECK(code(read_label("HELLO L2")) == "tag-form");
}

TEST_CASE("a typed tag may be in any case and spacing, or only an id") {
  CHECK(read_tag("th1")->id == MotorId{"TH", 1});
  CHECK(read_tag(" TH-01\r\n")->id == MotorId{"TH", 1});
  const auto read = read_tag("  " + id1() + "  made 1180t\t44gfcm 1.496g 303mm l1 260131 ");
  REQUIRE(read.ok());
  CHECK(read->state == TagState::made);
  CHECK(read->date == Date{2026, 1, 31});
  CHECK(read->mass->in_g() == doctest::Approx(1.496));
  CHECK(code(read_tag("what is this")) == "tag-form");
  CHECK(code(read_tag("xyz")) == "id-form");
  CHECK(code(read_tag("")) == "id-form");
}

TEST_CASE("an address carries the id, and gives it back") {
  const MotorId id{"TH", 1};
  const std::string address = tag_address("https://loft.example/m/{id}?v=1", id);
  CHECK(address == "https://loft.example/m/" + id1() + "?v=1");
  CHECK(read_label(address)->id == id);
  CHECK(read_label("https://loft.example/show?motor=" + id1() + "&x=2")->id == id);
  CHECK(read_label("https://loft.example/#th-01-" + std::string(1, id1().back()))->id == id);
  CHECK_FALSE(read_label("https://" + id1() + ".example/page").ok());
  CHECK_FALSE(read_label("https://loft.example/m/TH-01").ok());
  CHECK_FALSE(read_label("https://loft.example/m/x" + id1()).ok());
  CHECK_FALSE(read_label("https://loft.example/" + id1() + "/" + with_check({"TH", 2})).ok());
  CHECK_FALSE(read_label("://" + id1()).ok());
}

TEST_CASE("a text that drives a terminal is quoted harmlessly") {
  const auto result = read_tag("\x1b[2J hello \xe2\x80\xae there");
  REQUIRE_FALSE(result.ok());
  CHECK(result.diagnostics()[0].message.find('\x1b') == std::string::npos);
  CHECK(result.diagnostics()[0].message.find("\xe2\x80\xae") == std::string::npos);
}
