#pragma once

#include "app/models/card.h"
#include "app/models/keeping.h"
#include "app/models/levers.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace mellowbin::app {

struct RunChoice {
    RunId run;
    std::string words; ///< "Line 1, 1st: Pan bread, 12 batches"
    bool is_finished = false;
};

struct MixerModel {
    Day today;
    std::vector<RunChoice> runs; ///< of today, by line and sequence
    std::optional<CardModel> card;
    std::optional<LeversModel> levers;   ///< of the run asked about
    std::optional<KeepingModel> keeping; ///< of the product of the run shown
    std::vector<std::string> oxidants;   ///< names, for a stock solution
    /// What another station changed of the run shown or of its lots: "04:12, Ines: Lot W24-101: held".
    std::vector<std::string> changed;
    std::uint64_t batches_logged =
        0; ///< counts what was accepted here: the view empties its forms when it changes
};

struct LookedAt;
struct Station;

/// Where no run is opened, the first of today that is not finished is.
void make_mixer(const Station& station, LookedAt& looked_at, MixerModel& model);

} // namespace mellowbin::app
