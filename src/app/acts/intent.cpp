#include "app/acts/intent.h"

#include "app/acts/state.h"

namespace mellowbin::app {

Intent::Any::~Any() = default;

Result<Told> Intent::happen(State& state) const { return act_->carry_out_in(state); }

} // namespace mellowbin::app
