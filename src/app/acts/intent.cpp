#include "app/acts/intent.h"

#include "app/acts/state.h"

namespace mellowbin::app {

Intent::Any::~Any() = default;

Result<Told> carry_out(State& state, const Intent& intent) { return intent.act_->carry_out_in(state); }

} // namespace mellowbin::app
