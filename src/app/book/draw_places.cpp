#include "app/book/draw_places.h"

#include "core/decimal.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

/// Where the run's last draw of the lot that stands came from.
std::optional<PlaceId> last_place(const Book& book, RunId run, LotId lot) {
    const auto movements = book.movements_of(lot);
    std::vector<MovementId> countered;
    for (auto at = movements.rbegin(); at != movements.rend(); ++at) {
        const Movement& one = **at;
        if (one.counters)
            countered.push_back(*one.counters);
        else if (one.kind == MovementKind::use && one.run == run && one.from &&
                 std::ranges::find(countered, one.id) == countered.end())
            return one.from;
    }
    return {};
}

} // namespace

std::vector<PlacedFlour> draw_places(const Book& book, RunId run, LotId lot, Grams needed) {
    std::vector<PlaceId> said;
    for (const auto& place : {book.said_place(run, lot), last_place(book, run, lot)})
        if (place && std::ranges::find(said, *place) == said.end())
            said.push_back(*place);
    return drawn_from(book.stock.places_of(lot), said, needed);
}

std::string in_words(const Book& book, const std::vector<PlacedFlour>& places) {
    std::string words;
    for (const auto& part : places) {
        words += (words.empty() ? "" : ", ") + book.name(part.place);
        if (places.size() > 1)
            words += fmt::format(" {} kg", fixed(to_kilograms(part.mass).value(), 1));
    }
    return words;
}

} // namespace mellowbin::app
