#pragma once

#include "app/book/book.h"

#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// What silos hold, and what they would give next.
namespace mellowbin::app {

/// What really lies in each silo, the lowest first, by the movements of the lots that are here: what lots of
/// long ago left in a silo that was never empty since stands under the lots it was drawn by.
std::map<PlaceId, std::vector<Layer>> silo_layers(const Book& book);

/// So much that a silo gives in one go, of one make: of really which lots, and by which the book names it.
struct SiloPortion {
    PlaceId silo;
    Grams mass;
    std::vector<Layer> holds; ///< its lots, by what would come; add up to the mass
    std::vector<Layer> named; ///< the same mass by the names that it lies there under
    std::vector<Layer> below; ///< what has to leave first
};

/// All that lies in a silo as it would come, the first to come first: one mixture, layer by layer, or in
/// steps where a zone of it mixes. None is smaller than `least`, but the only one; layers that are join their
/// next.
std::vector<SiloPortion> portions_of(const Book& book, PlaceId silo, std::vector<Layer> layers, Grams least);

/// What lifts such a stop, and who may.
inline constexpr std::string_view silo_stop_lifted_by =
    "Quality staff release that lot, or say that the silo does not mix; or draw from another place";
/// Flour that comes, or may come, with a lot out of a silo and may go into no dough.
struct SiloStop {
    LotId named;       ///< the lot that is drawn by its name
    std::string words; ///< "Silo 1 may give W24-119 with it, and that one is on hold"
};
/// What stands against a run's batch of these lots, drawn from where draw_places() says, one after another.
std::vector<SiloStop> silo_stops(const Book& book, RunId run, std::span<const BatchFlour> flour, Day day);

} // namespace mellowbin::app
