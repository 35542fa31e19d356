#pragma once

#include "app/acts/act.h"
#include "core/dispatch.h"
#include "core/drill.h"
#include "core/rework.h"

#include <string>
#include <vector>

/// Where flour and bread went.
namespace mellowbin::app {

/// What a trace begins with, as typed.
struct TraceTyped {
    TraceOf asks{};
    std::string of;  ///< lot number (or MILL/LOT), product, run or customer code
    std::string day; ///< of a product or a customer; empty: today
    friend bool operator==(const TraceTyped&, const TraceTyped&) = default;
};
/// Shows the trace; with nothing typed none is shown any more. It changes no book.
struct ShowTrace {
    TraceTyped typed;
};
/// All lots of the trace that is shown that have stock and can be held are put on hold, all or none. What
/// cannot be held is named.
struct HoldConcerned {
    std::string reason;
};

struct LogDispatch {
    DispatchDraft dispatch;
};
/// All of them, or none.
struct LogDispatches {
    std::vector<DispatchLine> lines;
    std::string file; ///< its name, for the journal
};
/// Reads a file of dispatches and logs them, all or none.
struct ReadDispatches {
    std::string file; ///< its name
    std::string bytes;
};
struct CounterDispatch {
    DispatchId dispatch;
    std::string reason;
};

struct LogRework {
    ReworkDraft rework;
};
struct CounterRework {
    ReworkId rework;
    std::string reason;
};

/// A trace is asked for, and the clock runs.
struct BeginDrill {
    TraceTyped typed;
};
/// The trace is complete: it is made once more and kept with the drill.
struct EndDrill {
    DrillId drill;
    std::string note;
};

Result<Told> carry_out(State& state, const ShowTrace& act);
Result<Told> carry_out(State& state, const HoldConcerned& act);
Result<Told> carry_out(State& state, const LogDispatch& act);
Result<Told> carry_out(State& state, const LogDispatches& act);
Result<Told> carry_out(State& state, const ReadDispatches& act);
Result<Told> carry_out(State& state, const CounterDispatch& act);
Result<Told> carry_out(State& state, const LogRework& act);
Result<Told> carry_out(State& state, const CounterRework& act);
Result<Told> carry_out(State& state, const BeginDrill& act);
Result<Told> carry_out(State& state, const EndDrill& act);

} // namespace mellowbin::app
