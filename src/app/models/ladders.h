#pragma once

#include "core/bake.h"
#include "core/day.h"

#include <string>
#include <utility>
#include <vector>

namespace mellowbin::app {

/// A loaf of the lot's bake ladder.
struct LadderRow {
    BakeId id;
    Day day;
    double dose = 0, size = 0; ///< mg/kg of flour; in the ladder's unit
    std::string note, who;
    bool is_withdrawn = false;
};

/// What a product of the lot's flour may take of the oxidant, beside what the mill put in.
struct LadderPermit {
    std::string product;
    double room = 0;     ///< mg/kg that law and house leave; 0 as well where a row is not confirmed
    double best = 0;     ///< mg/kg, the best dose within that
    bool is_cut = false; ///< the loaves would like more
    std::string words;   ///< "Pan bread: up to 60 mg/kg. Canada, bread: ..."
};

/// What a lot's loaves say of one oxidant. The best dose is the flour's own; what a product may have of it
/// stands beside it.
struct LadderModel {
    std::string substance, unit; ///< unit of size: "ml", "mm"
    std::vector<LadderRow> rows; ///< newest first
    std::string best_words;      ///< "best at 42 mg/kg (30 to 55): 5 loaves of its own, 4 lots behind them"
    std::string fall_words;      ///< "Baked at 62 % matured, today 85 %: 4 mg/kg less (1 to 9 in 80 of 100)"
    std::string gain_words;      ///< "48 ml over none (20 to 75)"
    std::string next_words;      ///< "Bake 40 mg/kg next: narrows the best dose from 25 to about 15 mg/kg"
    struct Point {
        double dose = 0, low = 0, likely = 0, high = 0; ///< mg/kg; size at 10, 50 and 90 %
    };
    std::vector<Point> curve;
    std::vector<std::pair<double, double>> loaves; ///< dose, size; those that count
    std::vector<LadderPermit> permits;             ///< one a product of the flour that takes the oxidant
    std::vector<std::string> notes; ///< at the end of what was baked, not for sale, assumptions
};

struct Station;

/// One a substance and measure that the lot was baked with.
std::vector<LadderModel> make_ladders(const Station& station, LotId lot);

} // namespace mellowbin::app
