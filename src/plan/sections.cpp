// SPDX-License-Identifier: MIT
#include "plan/sections.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"

namespace loopledger::plan {
namespace {

constexpr std::size_t kMaxSamples = 1000;
constexpr std::size_t kMaxPieces = 1000;

const Bounds<Mass> kAnyMass{Mass{}, Mass::kg(1), true};
const Bounds<Mass> kMassOrNone{Mass{}, Mass::kg(1), false};
const Bounds<Length> kSampleLength{Length::mm(1), Length::m(1000), false};
const Bounds<Share> kTalc{Share{}, Share::percent(20), false};
const Bounds<Share> kOil{Share{}, Share::percent(50), false};

Sample read_sample(TableReader& reader, const Node& node) {
  Sample sample;
  sample.place = node.place;
  if (node.type != Node::Type::array || node.items.size() != 2) {
    reader.problem("plan-type",
                   "samples: expected a length and a mass, as in [\"500 mm\", \"1.214 g\"]",
                   "one pair in square brackets per sample", node.place);
    return sample;
  }
  const auto& tree = reader.tree();
  const auto length =
      reader.quantity<Length>(tree.at(node.items[0]), "samples: length", kSampleLength);
  const auto mass = reader.quantity<Mass>(tree.at(node.items[1]), "samples: mass", kAnyMass);
  sample.length = length.value_or(Length{});
  sample.mass = mass.value_or(Mass{});
  return sample;
}

Piece read_piece(TableReader& outer, const Node& node) {
  Piece piece;
  piece.place = node.place;
  if (node.type != Node::Type::table) {
    outer.problem("plan-type",
                  "pieces: expected a table, as in { tag = \"a\", length = \"4.20 m\" }",
                  "one table in braces per piece", node.place);
    return piece;
  }
  TableReader reader(outer.tree(), node, "piece", outer.problems());
  reader.read("tag", piece.tag, kMaxNameLength);
  Placed<Length> length;
  Placed<Mass> mass;
  reader.read("length", length, kSampleLength);
  reader.read("mass", mass, kAnyMass);
  reader.finish();
  if (length.given) {
    piece.length = length.value;
  }
  if (mass.given) {
    piece.mass = mass.value;
  }
  if (length.place.line == 0 && mass.place.line == 0) {
    reader.problem("plan-missing", "piece: expected a length or a mass, found neither",
                   "as in { tag = \"a\", length = \"4.20 m\" }", node.place);
  }
  return piece;
}

bool has_piece(const Strip& strip, std::string_view tag) {
  return std::ranges::find(strip.pieces, tag, &Piece::tag) != strip.pieces.end();
}

/// Pieces without a tag get their place in the list as one, or the next number that is free.
void read_pieces(TableReader& reader, Strip& strip) {
  for (const Node* node : reader.list("pieces", kMaxPieces)) {
    Piece piece = read_piece(reader, *node);
    if (!piece.tag.empty() && has_piece(strip, piece.tag)) {
      reader.problem(
          "plan-twice",
          fmt::format("strip \"{}\": two pieces have the tag \"{}\"", strip.name, piece.tag),
          "give each piece a tag of its own", piece.place);
    }
    strip.pieces.push_back(std::move(piece));
  }
  for (std::size_t i = 0; i < strip.pieces.size(); ++i) {
    for (std::size_t n = i + 1; strip.pieces[i].tag.empty(); ++n) {
      if (std::string tag = fmt::format("{}", n); !has_piece(strip, tag)) {
        strip.pieces[i].tag = std::move(tag);
      }
    }
  }
}

}  // namespace

void read_bench(TableReader& reader, Bench& bench) {
  reader.read("scale_step", bench.scale_step, Bounds<Mass>{Mass::mg(0.001), Mass::g(1)});
  reader.read("scale_error", bench.scale_error, Bounds<Mass>{Mass{}, Mass::g(10)});
  reader.read("ruler_step", bench.ruler_step, Bounds<Length>{Length::mm(0.01), Length::mm(100)});
  reader.read("confidence", bench.confidence,
              Bounds<Share>{Share::percent(50), Share::percent(99.99)});
  reader.read("winder_ratio", bench.winder_ratio, Bounds<double>{0.1, 100});
  reader.finish();
}

void check_bench(Bench& bench, const Place& place, Diagnostics& problems) {
  if (!bench.scale_step.given && bench.scale_step.place.line == 0) {
    problems.push_back(error("plan-missing", "[bench]: expected the key `scale_step`, found none",
                             "what the scale reads to, such as scale_step = \"1 mg\"", place));
  }
  if (!bench.scale_error.given) {
    bench.scale_error.value = bench.scale_step.value;
  }
}

Strip read_strip(const NamedTable& from, Diagnostics& problems) {
  Strip strip;
  strip.name = from.name;
  strip.place = from.table->place;
  TableReader reader(*from.tree, *from.table, fmt::format("strip \"{}\"", from.name), problems);
  reader.read("lot", strip.lot, kMaxNameLength);
  reader.read("width", strip.width, Bounds<Length>{Length::mm(0.1), Length::mm(100)});
  reader.read("thickness", strip.thickness, Bounds<Length>{Length::mm(0.05), Length::mm(20)});
  reader.read("density", strip.density,
              Bounds<Density>{Density::g_per_cm3(0.5), Density::g_per_cm3(2)});
  for (const Node* node : reader.list("samples", kMaxSamples)) {
    strip.samples.push_back(read_sample(reader, *node));
  }
  reader.read("samples_washed", strip.samples_washed);
  reader.read("talc", strip.talc, kTalc);
  read_pieces(reader, strip);
  reader.read("keep", strip.keep, Bounds<Length>{Length{}, Length::m(100)});
  reader.read("ends", strip.ends, Bounds<Length>{Length{}, Length::m(1)});
  reader.read("turns_factor", strip.turns_factor, Bounds<double>{1, 50});
  reader.read("torque_factor", strip.torque_factor,
              Bounds<Pressure>{Pressure::mpa(0.01), Pressure::mpa(10)});
  reader.finish();
  const bool tried = reader.find("samples") != nullptr;
  const bool section = strip.width.place.line > 0 && strip.thickness.place.line > 0;
  if (!tried && !section) {
    reader.problem(
        "plan-missing",
        fmt::format("strip \"{}\": expected `samples`, or `width` and `thickness`, found "
                    "neither",
                    strip.name),
        "weigh a measured length: samples = [[\"500 mm\", \"1.214 g\"]]", strip.place);
  } else if (tried && strip.samples.empty() && !section) {
    reader.problem("plan-missing", fmt::format("strip \"{}\": samples holds none", strip.name),
                   "weigh a measured length: samples = [[\"500 mm\", \"1.214 g\"]]", strip.place);
  }
  return strip;
}

Rings read_rings(const NamedTable& from, Diagnostics& problems) {
  Rings rings;
  rings.name = from.name;
  rings.place = from.table->place;
  TableReader reader(*from.tree, *from.table, fmt::format("rings \"{}\"", from.name), problems);
  reader.read("weighed", rings.weighed, Bounds<int>{1, 10000});
  reader.read("mass", rings.mass, kMassOrNone);
  reader.read("spread", rings.spread, kMassOrNone);
  reader.read("each", rings.each, Bounds<int>{0, 20});
  reader.finish();
  if (rings.mass.place.line == 0) {
    reader.missing("mass", "of all that were weighed together: weighed = 10, mass = \"60 mg\"");
  }
  return rings;
}

Lubricant read_lubricant(const NamedTable& from, Diagnostics& problems) {
  Lubricant oil;
  oil.name = from.name;
  oil.place = from.table->place;
  TableReader reader(*from.tree, *from.table, fmt::format("lubricant \"{}\"", from.name), problems);
  reader.read("uptake", oil.uptake, kOil);
  reader.read("left", oil.left, kOil);
  reader.finish();
  if (oil.uptake.place.line == 0) {
    reader.missing("uptake", "share of the rubber's mass: uptake = \"1.2 % ± 0.4 %\"");
  }
  if (!oil.left.given) {
    oil.left.value = oil.uptake.value;
  }
  return oil;
}

Adhesive read_adhesive(const NamedTable& from, Diagnostics& problems) {
  Adhesive glue;
  glue.name = from.name;
  glue.place = from.table->place;
  TableReader reader(*from.tree, *from.table, fmt::format("adhesive \"{}\"", from.name), problems);
  reader.read("mass", glue.mass, kMassOrNone);
  reader.finish();
  if (glue.mass.place.line == 0) {
    reader.missing("mass", "of the dot on one motor: mass = \"1 mg ± 0.5 mg\"");
  }
  return glue;
}

}  // namespace loopledger::plan
