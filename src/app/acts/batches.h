#pragma once

#include "app/acts/act.h"
#include "core/batch.h"

#include <string>
#include <vector>

/// What goes into dough, and what came of it.
namespace mellowbin::app {

/// What went in of one lot where it was not what the card says, in the house's unit of mass. A lot that is
/// not on the card went in beside it, or in the place of another.
struct FlourGiven {
    LotId lot; ///< not known: the one of this number
    std::string mass;
    std::string code = {};
};
/// What went in, as typed in the units of the house. What is empty went in as the card says.
struct BatchDraft {
    std::vector<FlourGiven> flour;
    std::string water;
    std::string water_temperature;
    std::string ice;
    std::string oxidant;     ///< in the unit of the card: g, or mL of the stock solution
    std::string checked_by;  ///< the second person, where the plant asks for one
    std::string answer = {}; ///< why it is mixed all the same, where something stands against it
};
struct ConfirmBatch {
    RunId run; ///< the next batch of it went in: its flour leaves the stock
    BatchDraft went_in = {};
    int batch = 0; ///< as the screen showed it; 0: whichever is next
};
struct LogResult {
    BatchId batch;
    ResultDraft result;
};
/// The batch was not mixed, or not so: its flour goes back, and it teaches nothing.
struct CounterBatch {
    BatchId batch;
    std::string reason;
};

Result<Told> carry_out(State& state, const ConfirmBatch& act);
Result<Told> carry_out(State& state, const LogResult& act);
Result<Told> carry_out(State& state, const CounterBatch& act);

} // namespace mellowbin::app
