#pragma once

#include "app/acts/certificate_source.h"
#include "app/acts/intake.h"
#include "app/acts/intent.h"
#include "db/delivery_store.h"
#include "db/lot_store.h"

#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

/// Lots that come in, as the deliveries they are of.
namespace mellowbin::app {

struct State;

/// A lot that comes in, and what was said of it on the way.
struct Arrival {
    Delivered delivered;
    std::string doubts; ///< taken in all the same, and why; empty: nothing stood against it
    std::vector<Pallet> pallets = {};
    CameWith certificate = {};
};

/// One delivery among what comes in.
struct Coming {
    DeliveryRecord record;           ///< without what has no number before it is in the book
    std::optional<DeliveryId> joins; ///< one of which lots came in before
    std::vector<LotThatCame> before; ///< those lots
    std::vector<std::size_t> lots;   ///< places in what comes in
    std::string doubts;              ///< weights that were let be, and why; empty: they agree
};

/// Every reason against the pallets of a lot that only the book and the lots before it know, each at its
/// field: they came before, or with another lot of these. `seen` has the pallets of the lots before, with
/// their lots.
Refusals why_not_these(const State& state, const LotDraft& draft, std::map<std::string, std::string>& seen);

/// Gives lots the pallets that are said beside them. Refused: a lot that is none of these.
Refusals add_pallets(const PalletsOfLots& said, std::span<LotDraft* const> drafts);

/// The deliveries that the lots are of: those of one mill, one note and one day are one. What is said of a
/// whole delivery is said of one only. Refused with every reason: what cannot be read, an expected delivery
/// that is none or cannot be this one, weights that differ as long as nobody says why.
Result<std::vector<Coming>> read_deliveries(const State& state, std::span<const Arrival> arrivals,
                                            const OfDelivery& of);
/// What of that can be said before the lots are known.
Refusals faults_of(const State& state, const OfDelivery& of);

/// What came of the deliveries in the book.
struct WrittenDeliveries {
    std::string words; ///< ". Delivery E-3 came as lot W24-118. Weight let be: …"; empty: nothing to tell
    Intents putting_back; ///< the acts that put back what plans had, once the lots are withdrawn
};
/// Writes them with their lots, which are in the book under these numbers now, and ends what was expected and
/// begun.
Result<WrittenDeliveries> write_deliveries(State& state, Change& change, const std::vector<Coming>& coming,
                                           std::span<const Arrival> arrivals, std::span<const LotId> ids,
                                           const OfDelivery& of);

} // namespace mellowbin::app
