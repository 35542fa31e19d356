#pragma once

#include "core/listing.h"
#include "core/result.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>

/// The program's lists on their way out: onto paper, into CSV and spreadsheets. One table of them all, by
/// name.
namespace mellowbin::app {

struct Station;

/// Which part of a list is asked for.
struct ListingQuery {
    Day from, until;   ///< both included; of lists of a span
    std::string mill;  ///< of the mill's record, and of deliveries where they are those of one mill alone
    std::string words; ///< of past lots: in the lot's number or its mill's name; empty: all
    std::optional<Instant> at = {}; ///< of stock; nothing: now
};

struct ListingKind {
    std::string_view name;  ///< as it is asked for, and as its file begins: "movements"
    std::string_view title; ///< "Movements of flour"
    std::string_view what;  ///< in a few words, for who chooses
    bool has_span = false;
    Days before{0}, after{0}; ///< today, the span where nobody named one
    bool of_a_mill = false;   ///< a mill must be named
    Listing (*make)(const Station& station, const ListingQuery& query) = nullptr;
};

std::span<const ListingKind> all_listings();
const ListingKind* find_listing(std::string_view name);
/// "lots, past-lots, …"
std::string listing_names();

/// Makes the list from the book as it is now, past rows by query. Refused under "List", "Mill", "To": a name
/// that is not in the table, a mill that is not known, a span that ends before it begins.
Result<Listing> make_listing(const Station& station, std::string_view name, const ListingQuery& query);

} // namespace mellowbin::app
