#pragma once

#include "core/plant.h"

#include <string>

namespace mellowbin::app {

struct ExpectedRow {
    ExpectedId id;
    std::string words;    ///< "E-3: 24 000 kg Strong white from Hill Mill, Fri 4 Dec"
    std::string promised; ///< "18 000 kg in 3 runs"
    bool is_late = false;
    std::string order = {}; ///< its number; may be empty
};

struct ReservedRow {
    ReservationId id;
    LotId lot;
    std::string words;
};

struct PlanModel;
struct Station;

/// Fills the deliveries to come, what is spoken for, and the mills, flours and markets to choose from.
void show_supply(const Station& station, PlanModel& model);

} // namespace mellowbin::app
