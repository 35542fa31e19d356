#pragma once

#include "app/acts/act.h"
#include "core/plant.h"

#include <string>

/// Runs on the plan.
namespace mellowbin::app {

struct AddRun {
    std::string product; ///< name
    std::string line;    ///< name
    std::string day;     ///< ISO
    std::string batches;
    std::string longer_minutes = {}; ///< its dough ferments so much beyond its product's; empty: no longer
};
struct DropRun {
    RunId run;
};
/// Other batches, another place in time or on another line; what is left empty stays as it is.
struct ChangeRun {
    RunId run;
    std::string line; ///< name
    std::string day;  ///< ISO
    std::string batches;
    std::string sequence; ///< its place among the runs of line and day, from 1
};

Result<Told> carry_out(State& state, const AddRun& act);
Result<Told> carry_out(State& state, const DropRun& act);
Result<Told> carry_out(State& state, const ChangeRun& act);

} // namespace mellowbin::app
