#include "app/models/trace.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace mellowbin::app {
namespace {

using Holds = Listing::Holds;

Listing::Cell maybe(const std::optional<double>& number) {
    return number ? Listing::Cell{*number} : Listing::Cell{};
}

Listing lines_of(const TraceModel& trace) {
    Listing lines{"trace", "Trace", {trace.title}, {}, {}};
    lines.notes.insert(lines.notes.end(), trace.rules.begin(), trace.rules.end());
    lines.notes.insert(lines.notes.end(), trace.law.begin(), trace.law.end());
    lines.columns = {{"What", "", Holds::text, 0},
                     {"When", "", Holds::text, 0},
                     {"By the book", "kg", Holds::number, 3},
                     {"Likely", "kg", Holds::number, 3},
                     {"Contains", "", Holds::text, 0},
                     {"Where", "", Holds::text, 0},
                     {"Why", "", Holds::text, 0},
                     {"Who", "", Holds::text, 0}};
    for (const auto& row : trace.rows)
        lines.rows.push_back({row.what, row.when, maybe(row.kg), maybe(row.likely),
                              row.certainty ? std::string(in_words(*row.certainty)) : std::string(),
                              row.where, row.why, row.who});
    return lines;
}

Listing balance_of(const TraceModel& trace) {
    Listing balance{"balance", "Mass balance", {trace.title}, {}, {}};
    balance.columns = {{"Lot", "", Holds::text, 0}};
    for (const char* head :
         {"Received", "Counted", "Used", "In stock", "Waste", "Back to the mill", "Unexplained"})
        balance.columns.push_back({head, "kg", Holds::number, 3});
    balance.columns.push_back({"Unexplained", "%", Holds::number, 3});
    for (const auto& one : trace.balances) {
        std::vector<Listing::Cell> row{one.code};
        for (const Grams mass :
             {one.received, one.counted, one.used, one.in_stock, one.waste, one.to_mill, one.unexplained})
            row.emplace_back(to_kilograms(mass).value());
        row.emplace_back(one.unexplained_percent);
        balance.rows.push_back(std::move(row));
    }
    return balance;
}

/// Who is named, with the first and the last instant; those without an instant have none.
struct Named {
    std::optional<Instant> first, last;
    std::string did;
};

Listing persons_of(const TraceModel& trace) {
    std::map<std::string, Named> persons;
    const auto note = [&](const std::string& who, const char* did, std::optional<Instant> at) {
        if (who.empty())
            return;
        auto& named = persons[who];
        if (named.did.find(did) == std::string::npos)
            named.did += (named.did.empty() ? "" : ", ") + std::string(did);
        if (at) {
            named.first = named.first ? std::min(*named.first, *at) : *at;
            named.last = named.last ? std::max(*named.last, *at) : *at;
        }
    };
    for (const auto& lot : trace.lots)
        note(lot.lot.taken_in_by, "took in", {});
    for (const auto& batch : trace.batches)
        note(batch.batch.who, "mixed", batch.batch.at);
    for (const auto& one : trace.dispatches)
        note(one.dispatch.who, "logged dispatches", one.dispatch.at);
    Listing list{"persons", "Persons", {trace.title}, {}, {}};
    list.columns = {{"Who", "", Holds::text, 0},
                    {"Did", "", Holds::text, 0},
                    {"First", "", Holds::instant, 0},
                    {"Last", "", Holds::instant, 0}};
    for (const auto& [who, named] : persons)
        list.rows.push_back({who, named.did, named.first ? Listing::Cell{*named.first} : Listing::Cell{},
                             named.last ? Listing::Cell{*named.last} : Listing::Cell{}});
    return list;
}

} // namespace

std::vector<Listing> listings_of(const TraceModel& trace) {
    return {lines_of(trace), balance_of(trace), persons_of(trace)};
}

} // namespace mellowbin::app
