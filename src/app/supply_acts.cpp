#include "app/state.h"

namespace mellowbin::app {

Result<Told> run(App::State&, const ExpectDelivery&) { return Refusal{"Plan", "is being built", ""}; }
Result<Told> run(App::State&, const EndExpectation&) { return Refusal{"Plan", "is being built", ""}; }
Result<Told> run(App::State&, const ReserveLot&) { return Refusal{"Plan", "is being built", ""}; }
Result<Told> run(App::State&, const EndReservation&) { return Refusal{"Plan", "is being built", ""}; }
Result<Told> run(App::State&, const ChangeRun&) { return Refusal{"Plan", "is being built", ""}; }
Result<Told> run(App::State&, const GiveLot&) { return Refusal{"Plan", "is being built", ""}; }

} // namespace mellowbin::app
