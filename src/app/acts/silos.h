#pragma once

#include "app/acts/act.h"

#include <string>

/// What is said of silos, and done to them.
namespace mellowbin::app {

/// How a silo gives its flour: "all", "none" or kg.
struct SetSiloZone {
    std::string silo; ///< its name
    std::string zone;
};

/// How much a silo takes; nothing more comes into it.
struct SetSiloCapacity {
    std::string silo;
    std::string kg; ///< empty: not known
};

/// A silo was emptied, cleaned or sanitised. What the book says is left in one that was emptied is taken off
/// it, as a count that found nothing; one that holds flour is neither cleaned nor sanitised.
struct NoteCare {
    std::string silo;
    std::string what; ///< key of a CareKind
    std::string day;  ///< empty: today
    std::string by;   ///< who did it; empty: the person at the station
    std::string note; ///< with what; of one that was emptied while flour was booked there: why
};

Result<Told> carry_out(State& state, const SetSiloZone& act);
Result<Told> carry_out(State& state, const SetSiloCapacity& act);
Result<Told> carry_out(State& state, const NoteCare& act);

} // namespace mellowbin::app
