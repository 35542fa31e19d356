#include "ui/models/doughs.h"

#include "app/models/keeping.h"
#include "app/models/ladders.h"
#include "app/models/levers.h"

namespace mellowbin::test {
namespace {

using Lever = app::LeverRow::Standing;
using Limit = app::KeepingLimit::Standing;

app::LeverRow lever(const char* name, Lever standing, const char* figures) {
    app::LeverRow row;
    row.name = name;
    row.standing = standing;
    row.figures = figures;
    return row;
}

Day november(unsigned day) { return date::year{2026} / 11 / day; }

app::LadderModel of_ascorbic_acid() {
    app::LadderModel ladder;
    ladder.substance = "Ascorbic acid";
    ladder.unit = "ml";
    ladder.rows = {{BakeId{5}, november(24), 80, 1012, "open top", "Ines", false},
                   {BakeId{4}, november(24), 40, 1064, "", "Ines", false},
                   {BakeId{3}, november(24), 40, 640, "oven was cold", "Tomas", true},
                   {BakeId{2}, november(24), 20, 1031, "", "Ines", false},
                   {BakeId{1}, november(24), 0, 958, "", "Ines", false}};
    ladder.best_words =
        "best at 47 mg/kg (32 to 61, to hold in 80 of 100): 4 loaves of its own, 6 lots behind them";
    ladder.fall_words = "Baked at 62 % matured, today 70 %: 0.5 mg/kg less than the 48 that were best then "
                        "(0.1 to 1.4 in 80 of 100)";
    ladder.gain_words = "106 ml over none (61 to 148 in 80 of 100)";
    ladder.next_words = "Bake 55 mg/kg next: narrows the best dose from 29 to about 18 mg/kg";
    ladder.curve = {{0, 930, 955, 980},
                    {20, 1010, 1030, 1050},
                    {40, 1040, 1060, 1080},
                    {60, 1030, 1055, 1082},
                    {80, 985, 1010, 1040}};
    ladder.loaves = {{0, 958}, {20, 1031}, {40, 1064}, {80, 1012}};
    ladder.permits = {{"Pan bread", 30, 30, true,
                       "Pan bread: up to 30 mg/kg, less than the loaves would like. House maximum 30 mg/kg"},
                      {"Island bun", 0, 0, true, "Island bun: none is permitted. The row is not confirmed"}};
    ladder.notes = {"Nothing is said above 80 mg/kg, the highest dose baked."};
    return ladder;
}

} // namespace

app::LeversModel some_levers() {
    app::LeversModel m;
    m.run = RunId{11};
    m.title = "Pan bread, Wed 25 Nov, Line 1";
    m.is_short = true;
    m.gap = "Strength is short: 66 of 90 % mature, about 15 days at 20 °C too few";
    m.gap_spread = "the blend counts as 66 %, about 13 days at 20 °C; 55 to 78 % in 80 of 100";
    m.too_far = {"Lot B26-031 is past its best with a probability of 34 %"};
    m.levers = {
        lever("Wait", Lever::helps, "W26-131 alone is ready on Sat 12 Dec, 80 % sure"),
        lever("Blend", Lever::reaches, "35 % of B26-044 makes it 91 % mature"),
        lever("Oxidant", Lever::forbidden, ""),
        lever("Longer fermentation", Lever::not_known, "Pan bread was not calibrated for it"),
        lever("Water", Lever::not_needed, "62.3 % stands at its optimum"),
    };
    m.levers[0].spread = "between Tue 1 Dec and Wed 16 Dec in 80 of 100 cases";
    m.levers[0].time = "17 days";
    m.levers[0].money = "nothing";
    m.levers[1].spread = "then 91 % mature (84 to 97 % in 80 of 100)";
    m.levers[1].time = "none";
    m.levers[1].money = "14 more a tonne of flour";
    m.levers[1].label = "as it is";
    m.levers[2].notes = {"The product is sold without oxidant: its label says so"};
    m.levers[3].notes = {"Published figures of other plants are not taken over"};
    m.mixes = {{"35 % of B26-044", 0.91, 0, 14, "as it is"},
               {"20 % of B26-044 and 30 min more fermentation", 0.90, 30, 8, "as it is"}};
    return m;
}

app::LeversModel levers_out_of_reach() {
    app::LeversModel m;
    m.run = RunId{16};
    m.title = "Bun, Wed 25 Nov, Line 2";
    m.is_short = true;
    m.gap = "Strength is short: 52 of 95 % mature, about 27 days at 20 °C too few";
    m.levers = {lever("Wait", Lever::helps, "ready on Mon 4 Jan, 80 % sure")};
    m.no_mix = "No mix reaches 95 %: the best comes to 81 %. Move the run or order older flour.";
    return m;
}

app::KeepingModel pan_bread_keeping() {
    app::KeepingModel m;
    m.product = ProductId{1};
    m.product_name = "Pan bread";
    m.sold_as = SoldAs::prepacked_sliced;
    m.figures = {
        {"Calcium propionate", 0.30, 2, "% of flour", "Settings of the product"},
        {"In finished bread", 2070, 0, "mg/kg", "at a yield of 1.45"},
        {"Acid that works", 8.5, 1, "%",
         "8.5 % of the acid works at pH 5.90; as much effect as at pH 5.60 takes 1.84 times the dose"}};
    m.limits = {{Limit::permitted, "Canada: 2 070 of 2 000 to 3 000 mg/kg"},
                {Limit::unconfirmed, "Brazil: nobody has read the row in its source"},
                {Limit::forbidden, "House rule: none in bread sold as plain"}};
    m.warnings = {"Mould on day 5 of the newest bakes"};
    m.mould_line = "4.6 days free of mould at an ERH of 94 %, by the published line";
    m.site_words = "Mould first seen on day 5 of 12 bakes";
    m.advice = {"Clean the cooler and the slicer, and look where mould settles",
                "Then bring the dough below pH 5.6", "Only then raise the dose"};
    m.practice = {"Whole wheat bread moulds sooner than white, being moister (common practice, no source)",
                  "Amylase holds staling off: what it does here is measured as firmness (common practice, no "
                  "source)"};
    m.records = {{KeepingId{4}, november(23), "day 5: mould seen, pH 5.9", "Ines", false},
                 {KeepingId{3}, november(21), "day 3: firmness 412 g", "Tomas", false},
                 {KeepingId{2}, november(21), "day 3: firmness 41 g", "Tomas", true},
                 {KeepingId{1}, november(19), "day 1: firmness 236 g", "Tomas", false}};
    m.firmness = {{1, 220, 236, 252, 3}, {3, 390, 412, 431, 2}, {5, 560, 560, 560, 1}};
    return m;
}

app::KeepingModel bare_keeping() {
    app::KeepingModel m;
    m.product = ProductId{3};
    m.product_name = "Bun";
    m.mould_line = "Refused: no ERH of the crumb was measured";
    return m;
}

std::vector<app::LadderModel> two_ladders() {
    app::LadderModel by_height;
    by_height.substance = "Azodicarbonamide";
    by_height.unit = "mm";
    by_height.rows = {{BakeId{9}, november(20), 2.5, 118, "", "Ines", false}};
    by_height.best_words = "not known: two doses at least are needed";
    by_height.loaves = {{2.5, 118}};
    return {of_ascorbic_acid(), by_height};
}

} // namespace mellowbin::test
