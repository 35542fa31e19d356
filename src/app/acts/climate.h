#pragma once

#include "app/acts/act.h"
#include "core/climate.h"

#include <string>

/// The air where flour lies.
namespace mellowbin::app {

/// Reads a data logger's file into the book for a place.
struct ReadClimateLog {
    std::string place; ///< name
    std::string path;
};
struct WithdrawClimateLog {
    ClimateLogId log;
    std::string reason;
};

Result<Told> carry_out(State& state, const ReadClimateLog& act);
Result<Told> carry_out(State& state, const WithdrawClimateLog& act);

} // namespace mellowbin::app
