#pragma once

#include "app/models/listings.h"
#include "core/lot.h"
#include "core/quantity.h"
#include "db/span_store.h"

#include <map>
#include <optional>

/// What makes each list; asked for by name (listings.h) and by nothing else.
namespace mellowbin::app {

Listing list_lots(const Station& station, const ListingQuery& query);
Listing list_past_lots(const Station& station, const ListingQuery& query);
Listing list_stock(const Station& station, const ListingQuery& query);
Listing list_movements(const Station& station, const ListingQuery& query);
Listing list_deliveries(const Station& station, const ListingQuery& query);
Listing list_runs(const Station& station, const ListingQuery& query);
Listing list_batches(const Station& station, const ListingQuery& query);
Listing list_dispatches(const Station& station, const ListingQuery& query);
Listing list_retests(const Station& station, const ListingQuery& query);
Listing list_journal(const Station& station, const ListingQuery& query);
Listing list_mill_record(const Station& station, const ListingQuery& query);

/// A cell of what may be missing; an empty text is missing, too.
template <class T> Listing::Cell cell(const std::optional<T>& maybe) {
    return maybe ? Listing::Cell(*maybe) : Listing::Cell();
}
inline Listing::Cell cell(std::string text) {
    return text.empty() ? Listing::Cell() : Listing::Cell(std::move(text));
}
inline Listing::Cell kilograms(Grams mass) { return to_kilograms(mass).value(); }
inline Listing::Cell kilograms(const std::optional<Grams>& mass) {
    return mass ? kilograms(*mass) : Listing::Cell();
}
template <class Tag> Listing::Cell figure(const std::optional<Quantity<Tag>>& maybe) {
    return maybe ? Listing::Cell(maybe->value()) : Listing::Cell();
}

// Columns that several lists have.
inline Listing::Column text_column(std::string head) {
    return {std::move(head), "", Listing::Holds::text, 0};
}
inline Listing::Column day_column(std::string head) { return {std::move(head), "", Listing::Holds::day, 0}; }
inline Listing::Column instant_column(std::string head) {
    return {std::move(head), "UTC", Listing::Holds::instant, 0};
}
inline Listing::Column number_column(std::string head, std::string unit, int decimals) {
    return {std::move(head), std::move(unit), Listing::Holds::number, decimals};
}
inline Listing::Column kg_column(std::string head, int decimals = 1) {
    return number_column(std::move(head), "kg", decimals);
}

/// "2026-11-01 to 2026-11-25"
std::string span_in_words(const ListingQuery& query);
/// The day by the plant's clock lies within the span.
bool is_of_span(const Station& station, const ListingQuery& query, Instant at);
/// Instants that hold the span in any zone: a day more at each end.
inline Instant before_span(const ListingQuery& query) { return Instant(query.from - Days{1}); }
inline Instant after_span(const ListingQuery& query) { return Instant(query.until + Days{2}); }

/// Names of lots, each asked for once.
class LotNamesAtHand {
public:
    explicit LotNamesAtHand(Connection& connection) : store_(connection) {}
    const LotNames& operator[](LotId lot) {
        const auto at = names_.find(lot);
        return at != names_.end() ? at->second : names_.emplace(lot, store_.names_of(lot)).first->second;
    }

private:
    SpanStore store_;
    std::map<LotId, LotNames> names_;
};

} // namespace mellowbin::app
