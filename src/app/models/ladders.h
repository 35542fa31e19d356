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

/// What a lot's loaves say of one oxidant.
struct LadderModel {
    std::string substance, unit; ///< unit of size: "ml", "mm"
    std::vector<LadderRow> rows; ///< newest first
    std::string best_words;      ///< "best at 42 mg/kg (30 to 55): 5 loaves of its own, 4 lots behind them"
    std::string gain_words;      ///< "48 ml over none (20 to 75)"
    std::string next_words;      ///< "Bake 40 mg/kg next: narrows the best dose from 25 to about 15 mg/kg"
    struct Point {
        double dose = 0, low = 0, likely = 0, high = 0; ///< mg/kg; size at 10, 50 and 90 %
    };
    std::vector<Point> curve;
    std::vector<std::pair<double, double>> loaves; ///< dose, size; those that count
    std::vector<std::string> notes;                ///< cut by law, at the end of what was baked, assumptions
};

struct Station;

/// One a substance and measure that the lot was baked with.
std::vector<LadderModel> make_ladders(const Station& station, LotId lot);

} // namespace mellowbin::app
