#pragma once

#include "exchange/epcis.h"

#include <string>
#include <vector>

namespace mellowbin::app {

struct Station;
struct ListingQuery;

/// What became of flour in the span, for other companies' programs: received, moved, made into dough, and
/// bread that left for a customer; each movement, batch or dispatch that was taken back once more, as the
/// declaration that it did not occur. Counts, waste and returns are the plant's own and not in it. A lot
/// bears the plant's own URI, since the book knows no GTIN of it; a pallet its SSCC.
std::vector<exchange::SupplyEvent> make_supply_events(const Station& station, const ListingQuery& span);

/// What tells this plant's records from another plant's: of the first line of its journal, which is never
/// edited.
std::string plant_mark(const Station& station);

} // namespace mellowbin::app
