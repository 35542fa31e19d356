#include "app/acts/levers.h"

#include "app/acts/intent.h"
#include "app/acts/state.h"

namespace mellowbin::app {

Result<Told> carry_out(State& state, const ShowLevers& intent) {
    if (intent.run && !state.book.run(*intent.run))
        return Refusal{"Run", "is not in the book", "Choose a run from the list"};
    state.levers_of = intent.run;
    return Told{"", Touched::opened_run};
}

Result<Told> carry_out(State& state, const ShowCures& intent) {
    state.cures_of = intent.run;
    return Told{"", Touched::plan_span};
}

} // namespace mellowbin::app
