#pragma once

#include "app/models/lot_standing.h"
#include "app/models/outlook.h"
#include "app/models/story.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace mellowbin::app {

/// A lot as a band over days.
struct ReadinessRow {
    LotId id;
    std::string code, flour;
    double stock_kg = 0;
    LotState state{};
    Readiness now{};
    Day delivered_on; ///< where its band begins
    DaySpread usable, ready, past_best;
    /// The days that state, words and band all go by.
    std::optional<Day> usable_at_confidence, ready_at_confidence, use_first_on, past_best_at_confidence;
    double probability_mature = 0;
    Advice advice{};
    std::string advice_words;  ///< its first reason
    int tests = 0;             ///< results that count as evidence
    bool asks_check = false;   ///< a result lies far from what the others predict
    double measured = 0;       ///< share of its storage so far that a logger measured
    std::string words;         ///< "ready from 28 Nov (80 %), best until 20 Mar"
    LotStanding standing = {}; ///< where it stands otherwise than its state says
};

struct RunTick {
    RunId run;
    LotId lot; ///< the lot it draws
    Day day;
    std::string words; ///< "Pan bread, Line 1: 1 200 kg"
};

struct ReadinessModel {
    Day today; ///< the real one
    Day as_of; ///< the one asked about
    double confidence = 0.8;
    std::vector<ReadinessRow> rows;   ///< lots in stock, youngest first
    std::vector<RunTick> ticks;       ///< sorted by lot
    std::optional<AgingStory> opened; ///< of the opened lot
    std::vector<Property> tests;      ///< what a retest may measure, the plain figures first, for the form
    std::vector<std::string> places, bases;
    std::uint64_t retests_logged = 0; ///< counts accepted retests: the view empties its form when it changes
};

struct Station;

/// All but the opened lot's story.
void make_readiness(const Station& station, std::optional<Day> as_of, ReadinessModel& model);

} // namespace mellowbin::app
