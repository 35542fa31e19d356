#include "app/models/listings.h"

#include "app/book/clock_words.h"
#include "app/book/fields.h"
#include "app/book/station.h"
#include "app/models/listing_makers.h"

#include <fmt/format.h>

#include <array>

namespace mellowbin::app {
namespace {

constexpr Days four_weeks{27};

constexpr std::array<ListingKind, 11> kinds{{
    {"lots",
     "Lots",
     "lots that are live, with stock, certificate and readiness",
     false,
     {},
     {},
     false,
     list_lots},
    {"past-lots",
     "Lots of the past",
     "lots used up or rejected in the span",
     true,
     Days{364},
     {},
     false,
     list_past_lots},
    {"stock", "Stock by place", "what lies where now", false, {}, {}, false, list_stock},
    {"movements",
     "Movements of flour",
     "every movement of the span",
     true,
     four_weeks,
     {},
     false,
     list_movements},
    {"deliveries",
     "Deliveries",
     "deliveries of the span; with --mill those of one mill",
     true,
     four_weeks,
     {},
     false,
     list_deliveries},
    {"runs", "Runs and their flour", "runs of the span, a line a lot planned", true, four_weeks, four_weeks,
     false, list_runs},
    {"batches",
     "Batches",
     "batches as they were logged, of runs of the span",
     true,
     four_weeks,
     {},
     false,
     list_batches},
    {"dispatches",
     "Dispatches",
     "bread that left in the span, and to whom",
     true,
     four_weeks,
     {},
     false,
     list_dispatches},
    {"retests", "Retests", "the plant's own results of the span", true, four_weeks, {}, false, list_retests},
    {"journal", "Journal", "who did what in the span", true, four_weeks, {}, false, list_journal},
    {"mill-record",
     "Record of a mill",
     "lots of one mill delivered in the span, beside own tests",
     true,
     Days{365},
     {},
     true,
     list_mill_record},
}};

Refusals why_not(const Station& s, const ListingKind& kind, const ListingQuery& query) {
    Refusals refusals;
    if (kind.has_span && query.until < query.from)
        refusals.push_back({"To",
                            fmt::format("{} is before {}, the first day", iso(query.until), iso(query.from)),
                            "Name the last day, not before the first"});
    const bool names_a_mill = kind.of_a_mill || (kind.name == "deliveries" && !query.mill.empty());
    const auto is_it = [&](const Mill& mill) { return mill.name == query.mill; };
    if (names_a_mill && std::none_of(s.book.mills.begin(), s.book.mills.end(), is_it))
        named(s.book.mills, "Mill", query.mill, refusals);
    return refusals;
}

} // namespace

std::span<const ListingKind> all_listings() { return kinds; }

const ListingKind* find_listing(std::string_view name) {
    const auto at =
        std::find_if(kinds.begin(), kinds.end(), [&](const auto& kind) { return kind.name == name; });
    return at == kinds.end() ? nullptr : &*at;
}

std::string listing_names() {
    std::string names;
    for (const auto& kind : kinds)
        names += (names.empty() ? "" : ", ") + std::string(kind.name);
    return names;
}

Result<Listing> make_listing(const Station& s, std::string_view name, const ListingQuery& query) {
    const auto* kind = find_listing(name);
    if (!kind)
        return Refusal{"List", fmt::format("\"{}\" is not one of the lists", name),
                       "Choose one of: " + listing_names()};
    if (auto refusals = why_not(s, *kind, query); !refusals.empty())
        return refusals;
    auto list = kind->make(s, query);
    list.name = kind->name;
    if (list.title.empty())
        list.title = kind->title;
    if (kind->has_span)
        list.notes.insert(list.notes.begin(), span_in_words(query));
    else if (!query.at)
        list.notes.insert(list.notes.begin(), "As of " + iso(s.today()));
    return list;
}

std::string span_in_words(const ListingQuery& query) {
    return fmt::format("{} to {}", iso(query.from), iso(query.until));
}

bool is_of_span(const Station& s, const ListingQuery& query, Instant at) {
    const Day day = plant_day(s.setup.clock, at);
    return day >= query.from && day <= query.until;
}

} // namespace mellowbin::app
