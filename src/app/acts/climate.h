#pragma once

#include "app/acts/act.h"
#include "core/climate.h"

#include <string>

/// The air where flour lies.
namespace mellowbin::app {

/// Reads a data logger's file into the book for a place. Refused with what is to be decided first, and asked
/// for the reason in its own field, where something stands against it (core/climate_doubts.h) and none is
/// given.
struct ReadClimateLog {
    std::string place; ///< name
    std::string path;
    std::string accept_reason = {}; ///< why it counts all the same; goes into the journal
};
struct WithdrawClimateLog {
    ClimateLogId log;
    std::string reason;
};

Result<Told> carry_out(State& state, const ReadClimateLog& act);
Result<Told> carry_out(State& state, const WithdrawClimateLog& act);

} // namespace mellowbin::app
