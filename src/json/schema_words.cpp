// SPDX-License-Identifier: MIT
#include "json/schema_words.h"

#include <array>

namespace loopledger::json {
namespace {

constexpr std::array kTables{
    TableWords{"", "the plan", "Batch plan",
               "One build night: what to make, of what, under which rule."},
    TableWords{"bench", "[bench]", "Bench",
               "Scale, ruler and winder, and how sure a motor should be within its limit."},
    TableWords{"rules.NAME", "rule \"NAME\"", "Rule",
               "A class's limit, and what is on the scale when its motors are weighed. With `take` "
               "the keys here win over the template's."},
    TableWords{"strips.NAME", "strip \"NAME\"", "Strip",
               "Rubber of one width and lot: `samples`, or `width` and `thickness`, say what it "
               "weighs per length."},
    TableWords{"strips.NAME.pieces", "piece", "Piece",
               "One length of the strip on the shelf: `length`, `mass` or both."},
    TableWords{"rings.NAME", "rings \"NAME\"", "Rings", "The small rings at the ends of a loop."},
    TableWords{"lubricants.NAME", "lubricant \"NAME\"", "Lubricant",
               "What is rubbed in, as shares of the rubber's mass."},
    TableWords{"adhesives.NAME", "adhesive \"NAME\"", "Adhesive", "The dot of glue on the knot."},
    TableWords{"recipes.NAME", "recipe \"NAME\"", "Recipe",
               "Break-in: the first stretching and winding. Steps of one's own win over the "
               "template's."},
    TableWords{"recipes.NAME.steps", "recipe step", "Step",
               "A stretch, or a winding to turns or torque, whichever comes first; what numbers "
               "can't say stands in `note`."},
    TableWords{"motors", "[[motors]]", "Motors", "Motors that are alike."},
};

constexpr std::array kKeys{
    KeyWords{"", "format", "", "needed", "1",
             "Format of the plan; of a shelf file it may be left "
             "out."},
    KeyWords{"", "title", "", "none", "\"Thursday build night\"", "Stands on every sheet."},
    KeyWords{"", "date", "", "none", "2026-01-31", "Of the night, without quotes."},
    KeyWords{"", "take", "", "none", "[\"shelf.toml\"]",
             "Shelf files, by their path from the plan. The plan's own tables win; `[bench]` is "
             "merged key by key."},
    KeyWords{"", "paper", "\"a4\"", "", "\"letter\"",
             "Paper of the sheets: a name in templates/stock, or the path of such a file."},
    KeyWords{"", "labels", "", "plain paper with lines to cut along", "\"a4-3x8-70x37\"",
             "Label stock: a name in templates/stock, or the path of such a file."},
    KeyWords{
        "", "slip", "\"slip\"", "", "\"mine.toml\"",
        "Layout of the labels of the night: a name in templates/layouts, or the path of such a "
        "file."},
    KeyWords{"", "units", "\"metric\"", "", "\"inch\"",
             "Which units lead on paper; the others follow in brackets."},
    KeyWords{"", "records", "\"records\"", "", "\"records\"",
             "Folder of the records, from the plan."},
    KeyWords{"", "link", "", "the code holds text", "\"https://example.org/m/{id}\"",
             "Web address that the labels' codes hold instead of text, with {id} between slashes."},
    KeyWords{"", "bench", "", "the shelf's", "{ scale_step = \"1 mg\" }", "See [bench]."},
    KeyWords{"", "rules", "", "none: no limit",
             "{ club = { limit = \"1.5 g\", counts = "
             "[\"rubber\"] } }",
             "See [rules.NAME]."},
    KeyWords{"", "strips", "", "the shelf's", "{ tan = { samples = [[\"500 mm\", \"1.290 g\"]] } }",
             "See [strips.NAME]."},
    KeyWords{"", "rings", "", "none", "{ tube = { weighed = 10, mass = \"60 mg\" } }",
             "See [rings.NAME]."},
    KeyWords{"", "lubricants", "", "none", "{ soap = { uptake = \"1.2 %\" } }",
             "See [lubricants.NAME]."},
    KeyWords{"", "adhesives", "", "none", "{ dot = { mass = \"1 mg ± 0.5 mg\" } }",
             "See [adhesives.NAME]."},
    KeyWords{"", "recipes", "", "none", "{ six = { take = \"stretch-6-wind-75\" } }",
             "See [recipes.NAME]."},
    KeyWords{"", "motors", "", "needed", "[{ id = \"TH\", loop = \"300 mm\" }]", "See [[motors]]."},

    KeyWords{"bench", "scale_step", "", "needed", "\"1 mg\"", "What the scale reads to."},
    KeyWords{"bench", "scale_error", "", "one step", "\"2 mg\"",
             "The scale's largest permissible error, from its manual."},
    KeyWords{"bench", "ruler_step", "\"1 mm\"", "", "\"1/32 in\"", "What the ruler reads to."},
    KeyWords{"bench", "confidence", "\"95 %\"", "", "\"98 %\"",
             "That a motor is within its limit when it is weighed at the event."},
    KeyWords{"bench", "winder_ratio", "1", "", "15", "Motor turns per turn of the crank."},

    KeyWords{"rules.NAME", "take", "", "none", "\"fai-f1d\"",
             "A file of templates/rules to start from: check the edition in force."},
    KeyWords{"rules.NAME", "limit", "", "needed, here or in the template", "\"1.5 g\"",
             "The motor's largest mass."},
    KeyWords{"rules.NAME", "counts", "", "needed, here or in the template",
             "[\"rubber\", \"lubricant\"]", "What is on the scale at the event; rubber always."},
    KeyWords{"rules.NAME", "weighed", "\"fresh\"", "", "\"rested\"",
             "Fresh: lubricant as just rubbed in; rested: what is left later."},
    KeyWords{"rules.NAME", "official_error", "\"0 mg\"", "", "\"1 mg\"",
             "Largest error of the event's scale."},
    KeyWords{"rules.NAME", "source", "", "none", "\"this year's sheet\"",
             "Where the figures were read."},
    KeyWords{"rules.NAME", "check", "", "none", "\"ask about rings\"",
             "What to check before relying on them; printed on the cut sheet."},

    KeyWords{"strips.NAME", "lot", "", "none", "\"Amber 24/03\"",
             "Make and date: what `fit` and `list` go by."},
    KeyWords{"strips.NAME", "width", "", "not known", "\"3/32 in\"", "Of the strip as supplied."},
    KeyWords{"strips.NAME", "thickness", "", "not known", "\"1.05 mm\"",
             "With width and density it stands in for samples."},
    KeyWords{"strips.NAME", "density", "\"0.93 g/cm3\"", "", "\"0.95 g/cm3\"", "Of the rubber."},
    KeyWords{"strips.NAME", "samples", "", "width x thickness x density",
             "[[\"500 mm\", \"1.214 g\"], [\"800 mm\", \"1.940 g\"]]",
             "Pairs of a length and what it weighs; three or more, from different places."},
    KeyWords{"strips.NAME", "samples_washed", "true", "", "false",
             "Whether the talc was off when they were weighed."},
    KeyWords{"strips.NAME", "talc", "\"0 %\"", "", "\"0.8 % ± 0.3 %\"",
             "Share of the strip's mass that washing takes off."},
    KeyWords{"strips.NAME", "pieces", "", "no cutting plan",
             "[{ tag = \"a\", length = \"4.20 m\" }]", "What lies on the shelf."},
    KeyWords{"strips.NAME", "keep", "", "the strip's shortest motor", "\"250 mm\"",
             "A shorter remnant is scrap."},
    KeyWords{"strips.NAME", "ends", "\"0 mm\"", "", "\"5 mm\"",
             "Lost of each piece that is cut, for a clean end."},
    KeyWords{"strips.NAME", "turns_factor", "", "11.0 with its interval: see `loopledger sources`",
             "\"10.6 ± 0.5\"", "The lot's k_N; with a ± the lot counts as fitted."},
    KeyWords{"strips.NAME", "torque_factor", "",
             "0.6 MPa with its interval: see `loopledger sources`", "\"0.62 MPa ± 0.05 MPa\"",
             "The lot's k_Q."},

    KeyWords{"strips.NAME.pieces", "tag", "", "its number in the list", "\"a\"",
             "What is written on the piece."},
    KeyWords{"strips.NAME.pieces", "length", "", "from its mass", "\"4.20 m\"", "As it lies."},
    KeyWords{"strips.NAME.pieces", "mass", "", "from its length", "\"4.96 g\"",
             "As it lies, talc on; with a length it has a linear density of its own."},

    KeyWords{"rings.NAME", "weighed", "1", "", "12", "How many lay on the scale together."},
    KeyWords{"rings.NAME", "mass", "", "needed", "\"84 mg\"", "Of all of those."},
    KeyWords{"rings.NAME", "spread", "\"0 mg\"", "", "\"0.4 mg\"",
             "Standard deviation from ring to ring."},
    KeyWords{"rings.NAME", "each", "2", "", "2", "How many a motor has."},

    KeyWords{"lubricants.NAME", "uptake", "", "needed", "\"1.2 % ± 0.4 %\"", "As just rubbed in."},
    KeyWords{"lubricants.NAME", "left", "", "uptake", "\"0.5 % ± 0.2 %\"", "Later."},

    KeyWords{"adhesives.NAME", "mass", "", "needed", "\"1.5 mg ± 0.5 mg\"", "On one motor."},

    KeyWords{"recipes.NAME", "take", "", "none", "\"stretch-6-wind-75\"",
             "A file of templates/recipes to start from."},
    KeyWords{"recipes.NAME", "steps", "", "needed, here or in the template",
             "[{ stretch = 5.0, hold = \"5 min\" }]", "In their order."},
    KeyWords{"recipes.NAME", "source", "", "none", "\"our own practice\"",
             "Where the recipe was read."},

    KeyWords{"recipes.NAME.steps", "stretch", "", "none", "5.0", "Times the loop as tied."},
    KeyWords{"recipes.NAME.steps", "turns", "", "none", "\"50 %\"", "Of the largest turns."},
    KeyWords{"recipes.NAME.steps", "torque", "", "none", "\"75 %\"", "Of the largest torque."},
    KeyWords{"recipes.NAME.steps", "note", "", "none", "\"until it feels solid\"",
             "What numbers can't say."},
    KeyWords{"recipes.NAME.steps", "hold", "", "none", "\"5 min\"", "How long to hold it there."},
    KeyWords{"recipes.NAME.steps", "rest", "", "none", "\"1 h\"", "How long to leave it after."},
    KeyWords{"recipes.NAME.steps", "repeat", "1", "", "3", "How often."},

    KeyWords{"motors", "id", "", "needed", "\"TH\"",
             "Stem of the ids: TH gives TH-01, TH-02 and so on."},
    KeyWords{"motors", "count", "1", "", "6", "How many."},
    KeyWords{"motors", "first", "1", "", "7", "Number of the first one."},
    KeyWords{"motors", "for", "", "none", "\"Lantern 46\"", "The model."},
    KeyWords{"motors", "owner", "", "none", "\"Quenna\"", "Whose they are."},
    KeyWords{"motors", "rule", "", "none: no limit; the only one with mass = \"limit\"",
             "\"hall-league\"", "A [rules.NAME]."},
    KeyWords{"motors", "strip", "", "the only one", "\"amber-24\"", "A [strips.NAME]."},
    KeyWords{"motors", "rings", "", "none", "\"tube\"", "A [rings.NAME]."},
    KeyWords{"motors", "lubricant", "", "none", "\"soap\"", "A [lubricants.NAME]."},
    KeyWords{"motors", "adhesive", "", "none", "\"dot\"", "An [adhesives.NAME]."},
    KeyWords{"motors", "recipe", "", "none", "\"evening\"", "A [recipes.NAME]."},
    KeyWords{"motors", "strands", "2", "", "6", "An even number: 2 for a loop."},
    KeyWords{"motors", "knot", "\"16 mm\"", "", "\"5/8 in\"",
             "Strip that stays in the knot, weighed with it."},
    KeyWords{"motors", "tails", "\"0 mm\"", "", "\"1/2 in\"",
             "Strip needed to tie, snipped off afterwards; weighed with the washed strip."},
    KeyWords{"motors", "allowance", "",
             "the larger of 10 mm and half the 95 % interval of the strip to cut", "\"5 mm\"",
             "Cut longer by this; the scale decides."},
    KeyWords{
        "motors", "mass", "", "from `loop`; without both `check` shows choices", "\"limit\"",
        "\"limit\": as heavy as the rule allows; or of washed rubber. Alone it gives the loop, "
        "with `loop` the width to slit."},
    KeyWords{"motors", "loop", "", "from `mass`", "\"300 mm\"",
             "Loop length as tied, hanging straight."},
    KeyWords{"motors", "window", "", "the larger of 3 mg and two scale steps", "\"4 mg\"",
             "Width of the window of the washed motor."},
    KeyWords{"motors", "hooks", "", "not known", "\"16 1/2 in\"", "Distance of the hooks."},
    KeyWords{"motors", "part", "", "a full motor", "0.5",
             "Part motor: its share of the full loop and turns, with a spacer."},
};

}  // namespace

std::span<const TableWords> table_words() { return kTables; }
std::span<const KeyWords> key_words() { return kKeys; }

}  // namespace loopledger::json
