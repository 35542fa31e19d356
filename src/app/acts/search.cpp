#include "app/acts/intent.h"
#include "app/acts/looking.h"
#include "app/acts/scan_reading.h"
#include "app/acts/state.h"
#include "app/book/clock_words.h"
#include "app/models/lot_standing.h"
#include "core/decimal.h"
#include "core/typed_text.h"
#include "db/delivery_store.h"
#include "db/lot_store.h"
#include "db/past_store.h"
#include "db/run_store.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace mellowbin::app {
namespace {

constexpr int most_offered = 8; // of lots; a person reads them in one look

/// What tells a lot from another one of the same number.
std::string details_of(const State& state, const Lot& lot) {
    const Mill* mill = state.book.mill(lot.mill);
    const Flour* flour = state.book.flour(lot.flour);
    auto standing = standing_of(state.book, lot, state.today());
    if (lot.state == LotState::rejected && standing.words.empty() &&
        PastStore(*state.connection).went_back(lot.id))
        standing.words = returned_to_the_mill;
    auto words = fmt::format("{}, {}, {}", mill ? mill->name : "?", flour ? flour->name : "?",
                             in_words(lot.state, standing));
    const bool is_gone = lot.state == LotState::used_up || lot.state == LotState::rejected;
    const Day since = plant_day(state.setup.clock, lot.state_at);
    if (is_gone)
        return words + " on " + iso(since);
    return words + fmt::format(", {} kg", fixed(to_kilograms(state.book.stock.total(lot.id)).value(), 0));
}

FoundOne found(const State& state, const Lot& lot) { return {lot.id, {}, lot.code, details_of(state, lot)}; }

FoundOne found(const State& state, const Run& run) {
    const Product* product = state.book.product(run.product);
    return {{}, run.id, run.code, fmt::format("{} on {}", product ? product->name : "?", short_day(run.day))};
}

/// Capitals count for a run of the past only.
std::optional<Run> called_run(const State& state, const std::string& words) {
    for (const auto& run : state.book.runs)
        if (lower_case(run.code) == lower_case(words))
            return run;
    return RunStore(*state.connection).find(words);
}

/// What is called just so.
Found called(const State& state, const std::string& words) {
    Found all{words, {}, false};
    const LotStore lots(*state.connection);
    for (const LotId id : lots.of_code(words))
        if (const auto lot = lots.find(id))
            all.all.push_back(found(state, *lot));
    if (const auto run = called_run(state, words))
        all.all.push_back(found(state, *run));
    return all;
}

/// What is called so once a separator is put back that a scanner lost.
Found parted(const State& state, const std::string& scan) {
    const auto read = read_bytes(state.book.settings, scan);
    return read && read->doubt ? called(state, read->doubt->otherwise) : Found();
}

/// The next run of each product whose name has the words in it.
void add_runs(const State& state, const std::string& words, Found& all) {
    std::set<ProductId> told;
    for (const auto& run : state.book.runs) {
        const Product* product = state.book.product(run.product);
        if (product && run.day >= state.today() &&
            lower_case(product->name).find(lower_case(words)) != std::string::npos &&
            told.insert(product->id).second)
            all.all.push_back(found(state, run));
    }
}

/// What has the words in its name.
Found with(const State& state, const std::string& words) {
    Found all{words, {}, false};
    const LotStore lots(*state.connection);
    for (const LotId id : lots.with(words, most_offered + 1)) {
        all.are_more = all.all.size() == most_offered;
        const auto lot = all.are_more ? std::nullopt : lots.find(id);
        if (lot)
            all.all.push_back(found(state, *lot));
    }
    add_runs(state, words, all);
    return all;
}

/// The SSCC in what was scanned or typed; empty: there is none.
std::string pallet_in(const State& state, const std::string& words) {
    const auto read = read_bytes(state.book.settings, words);
    const auto sscc =
        sscc_digits(read && read->scan.is_gs1() ? exchange::value_of(read->scan.elements, "00") : words);
    return why_no_sscc(sscc) ? std::string() : sscc;
}

Told opened(State& state, LotId id) {
    state.opened_lot = id;
    state.book.call_up(*state.connection, id);
    state.look_at(record_of(id));
    const Lot* lot = state.book.lot(id);
    return Told{fmt::format("Lot {}", lot ? lot->code : "?"), Touched::opened_lot, "", {}, "Lots"};
}

Told opened(State& state, RunId id) {
    state.opened_run = id;
    state.book.call_up(*state.connection, id);
    state.look_at(record_of(id));
    const Run* run = state.book.run(id);
    const Product* product = run ? state.book.product(run->product) : nullptr;
    return Told{
        run ? fmt::format("Run {}: {} on {}", run->code, product ? product->name : "?", short_day(run->day))
            : std::string("Run ?"),
        Touched::opened_run,
        "",
        {},
        "Mixer"};
}

Told opened(State& state, const FoundOne& one) {
    return one.lot.is_known() ? opened(state, one.lot) : opened(state, one.run);
}

} // namespace

Result<Told> carry_out(State& state, const Search& intent) {
    state.found = state.overview.found = {};
    if (trimmed(intent.words).empty())
        return Told{""};
    const auto sscc = pallet_in(state, intent.words);
    if (const auto came = DeliveryStore(*state.connection).pallet(sscc))
        return opened(state, came->lot);
    const auto words = lot_in(state.book.settings, intent.words);
    if (!words && !sscc.empty())
        return Refusal{"Search", fmt::format("no pallet of the book is {}", sscc_in_words(sscc)),
                       "Scan the label with the lot"};
    if (!words)
        return words.refusals();
    auto all = called(state, *words);
    const bool is_lost = all.all.empty() && !(all = parted(state, intent.words)).all.empty();
    if (all.all.empty())
        all = with(state, *words);
    if (all.all.empty())
        return Refusal{"Search", fmt::format("nothing is called \"{}\"", *words),
                       "Try a lot number, a mill, a product or a run"};
    if (all.all.size() == 1) {
        auto told = opened(state, all.all.front());
        if (is_lost)
            told.words += "; the scanner lost the separator behind its number, see Scanner on Settings";
        return told;
    }
    state.found = std::move(all);
    return Told{"", Touched::found};
}

Result<Told> carry_out(State& state, const OpenFound& intent) {
    state.found = {};
    if (intent.lot.is_known())
        return opened(state, intent.lot);
    return opened(state, intent.run);
}

Result<Told> carry_out(State& state, const PutAwayFound&) {
    state.found = {};
    return Told{"", Touched::found};
}

} // namespace mellowbin::app
