#include "app/state.h"

namespace mellowbin::app {

Result<Told> run(App::State&, const Replan&) { return Refusal{"Plan", "is being built", ""}; }
Result<Told> run(App::State&, const SupposeRunMoved&) { return Refusal{"Plan", "is being built", ""}; }
Result<Told> run(App::State&, const SupposeOrder&) { return Refusal{"Plan", "is being built", ""}; }
Result<Told> run(App::State&, const SupposeNoOxidant&) { return Refusal{"Plan", "is being built", ""}; }
Result<Told> run(App::State&, const SupposeLotHeld&) { return Refusal{"Plan", "is being built", ""}; }
Result<Told> run(App::State&, const DropSupposition&) { return Refusal{"Plan", "is being built", ""}; }
Result<Told> run(App::State&, const PlanSuppositions&) { return Refusal{"Plan", "is being built", ""}; }

} // namespace mellowbin::app
