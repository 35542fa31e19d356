#pragma once

#include "app/acts/act.h"
#include "core/plant.h"

#include <optional>
#include <string>

/// Deliveries to come, flour that is spoken for.
namespace mellowbin::app {

struct ExpectDelivery {
    std::string mill;  ///< name
    std::string flour; ///< name
    std::string kg;
    std::string arrives;    ///< ISO day
    std::string milled;     ///< ISO day; empty: not known
    ExpectedId again = {};  ///< one that ended: it is expected again as it stood, and nothing else is read
    std::string order = {}; ///< number of the order, as a label may say it; may be empty
};
/// It came or was called off. With a lot, what plans had from it goes to that lot, as far as it reaches.
struct EndExpectation {
    ExpectedId delivery;
    std::optional<LotId> came_as;
    std::string reason; ///< where it was called off
};
struct ReserveLot {
    LotId lot;
    std::string product; ///< name; empty: nobody's, the kg are kept back from every plan
    std::string kg;      ///< empty with a product
    std::string reason;
};
struct EndReservation {
    ReservationId reservation;
    std::string reason;
};

Result<Told> carry_out(State& state, const ExpectDelivery& act);
Result<Told> carry_out(State& state, const EndExpectation& act);
Result<Told> carry_out(State& state, const ReserveLot& act);
Result<Told> carry_out(State& state, const EndReservation& act);

} // namespace mellowbin::app
