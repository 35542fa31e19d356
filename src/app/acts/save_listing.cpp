#include "app/acts/save_listing.h"

#include "app/acts/instant_typed.h"
#include "app/acts/intent.h"
#include "app/acts/saved_file.h"
#include "app/acts/state.h"
#include "app/book/durable_file.h"
#include "app/models/listings.h"
#include "app/models/supply_events.h"
#include "core/counted.h"
#include "core/typed_text.h"
#include "exchange/listing_csv.h"
#include "exchange/listing_xlsx.h"

#include <fmt/format.h>

#include <fstream>

namespace mellowbin::app {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view stopped = "it was stopped; nothing was saved";

struct Span {
    Day from, until;
};

/// As typed, else by the days before and after today.
Result<Span> read_span(Day today, const std::string& first, const std::string& last, Days before,
                       Days after) {
    const auto from = read_day("From", first);
    const auto until = read_day("To", last);
    Refusals refusals;
    if (!from)
        append(refusals, from.refusals());
    if (!until)
        append(refusals, until.refusals());
    if (!refusals.empty())
        return refusals;
    const Day to = until->value_or(today + after);
    return Span{from->value_or(std::min(to, today) - before), to};
}

Result<ListingQuery> read_query(const State& state, const SaveListing& act) {
    const auto* kind = find_listing(act.name); // a name that is none is refused where the list is made
    const auto span = read_span(state.today(), act.from, act.until, kind ? kind->before : Days{0},
                                kind ? kind->after : Days{0});
    if (!span)
        return span.refusals();
    ListingQuery query{span->from, span->until, act.mill, act.words};
    if (trimmed(act.at).empty())
        return query;
    const auto at = read_instant(state.setup.clock, "At", act.at);
    if (!at)
        return at.refusals();
    query.at = *at;
    return query;
}

std::string write_xlsx(const Listing& list, const fs::path& file, const SaveListing& act) {
    const auto written = exchange::write_listing_xlsx(list, file, {act.share_done, act.stop});
    if (!written)
        return in_words(written.refusals().front());
    return *written == exchange::Written::stopped ? std::string(stopped) : "";
}

std::string write_events(const State& state, const std::vector<exchange::SupplyEvent>& events,
                         const fs::path& file) {
    std::ofstream out(file, std::ios::binary | std::ios::trunc);
    if (!out)
        return "the folder does not let a file be written";
    exchange::SupplyEventWriter writer(out, state.setup.clock.now());
    for (const auto& event : events)
        writer.event(event);
    writer.end();
    out.close();
    return out ? "" : "the disk took only a part of it";
}

std::string write_list(const Listing& list, const fs::path& file, bool is_xlsx, const SaveListing& act) {
    return is_xlsx ? write_xlsx(list, file, act) : write_bytes(file, exchange::write_listing_csv(list));
}

/// "lots-2026-11-25.xlsx" in the book's folder; empty for a book that has none.
std::string beside_the_book(const State& state, const std::string& name) {
    if (state.setup.book.empty() || state.setup.book == ":memory:")
        return {};
    return (fs::path(state.setup.book).parent_path() / fmt::format("{}-{}.xlsx", name, iso(state.today())))
        .string();
}

} // namespace

Result<Told> carry_out(State& state, const SaveListing& act) {
    const auto query = read_query(state, act);
    if (!query)
        return query.refusals();
    const auto list = make_listing(state, act.name, *query);
    if (!list)
        return list.refusals();
    const auto file = file_to_save(state, act.file.empty() ? beside_the_book(state, list->name) : act.file,
                                   {".csv", ".xlsx"});
    if (!file)
        return file.refusals();
    const bool is_xlsx = lower_case(file->extension().string()) == ".xlsx";
    const auto failed = make_durably(
        *file, [&](const fs::path& unfinished) { return write_list(*list, unfinished, is_xlsx, act); });
    if (!failed.empty())
        return not_saved(*file, failed);
    Told told{fmt::format("{} saved to {}: {}", list->title, file->string(),
                          counted(list->rows.size(), "row", "rows"))};
    if (act.file.empty()) // pressed for, to be looked at
        told.document = file->string();
    return told;
}

Result<Told> carry_out(State& state, const SaveSupplyEvents& act) {
    constexpr Days four_weeks{27};
    const auto span = read_span(state.today(), act.from, act.until, four_weeks, Days{0});
    if (!span)
        return span.refusals();
    const auto file = file_to_save(state, act.file, {".jsonld", ".json"});
    if (!file)
        return file.refusals();
    const auto events = make_supply_events(state, {span->from, span->until, "", ""});
    const auto failed = make_durably(
        *file, [&](const fs::path& unfinished) { return write_events(state, events, unfinished); });
    if (!failed.empty())
        return not_saved(*file, failed);
    return Told{
        fmt::format("Events saved to {}: {}", file->string(), counted(events.size(), "event", "events"))};
}

} // namespace mellowbin::app
