#include "app/plan/reserved.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {

Grams kept_back(const Book& book, LotId lot) {
    Grams kept;
    for (const auto& reservation : book.reservations)
        if (lot.is_known() && reservation.lot == lot && !reservation.product)
            kept += reservation.kept_back;
    return kept;
}

std::string kept_for_others(const Book& book, LotId lot, const Product& product) {
    std::string words;
    for (const auto& reservation : book.reservations) {
        if (reservation.lot != lot || !reservation.product)
            continue;
        if (*reservation.product == product.id)
            return {};
        const Product* other = book.product(*reservation.product);
        words += fmt::format("{}it is kept for {}: {}", words.empty() ? "" : "; ", other ? other->name : "?",
                             reservation.reason);
    }
    return words;
}

Grams free_of(const Book& book, LotId lot) {
    Grams free = book.stock.total(lot) - kept_back(book, lot);
    for (const auto& a : book.assignments)
        if (a.lot == lot)
            free = free - std::max(Grams{0}, a.mass - book.used_for(a.run, lot));
    return std::max(Grams{0}, free);
}

} // namespace mellowbin::app
