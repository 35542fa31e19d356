#include "app/plan/what_if.h"

#include "app/book/fields.h"
#include "app/plan/freeze.h"
#include "core/lot_words.h"
#include "core/typed_text.h"
#include "dough/law.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

namespace mellowbin::app {
namespace {

constexpr int most_in_a_row = 1000;

/// A day that is not before today; what is left empty is `otherwise`, where there is one.
std::optional<Day> coming_day(const char* field, const std::string& typed, std::optional<Day> otherwise,
                              Day today, Refusals& refusals) {
    const auto day = read_day(field, typed);
    if (!day) {
        append(refusals, day.refusals());
        return {};
    }
    const auto read = day->has_value() ? *day : otherwise;
    if (!read)
        refusals.push_back({field, "is empty", "Enter the day as year-month-day"});
    else if (*read < today)
        refusals.push_back({field,
                            fmt::format("{} was read, which is before today, {}", iso(*read), iso(today)),
                            "Suppose today or later"});
    else
        return read;
    return {};
}

/// Where the run is supposed to be.
struct Move {
    LineId line;
    Day day;
    int sequence = 0; ///< 0: the last
};

std::optional<Move> read_move(const Book& book, const Run& run, const SupposeRunMoved& what, Day today,
                              Refusals& refusals) {
    Move move{run.line, run.day, 0};
    if (!what.line.empty())
        if (const Line* line = named(book.lines, "Line", what.line, refusals))
            move.line = line->id;
    if (const auto day = coming_day("Day", what.day, run.day, today, refusals))
        move.day = *day;
    if (!what.sequence.empty())
        move.sequence = read_count("Sequence", what.sequence, most_in_a_row, refusals).value_or(1);
    else if (move.line == run.line && move.day == run.day)
        move.sequence = run.sequence;
    if (!refusals.empty())
        return {};
    return move;
}

Result<Supposition> accepted(const Book& book, const SupposeRunMoved& what, Day today) {
    const Run* run = book.run(what.run);
    if (!run)
        return Refusal{"Run", "is not in the book", "Choose a run on the plan"};
    if (run->day < today)
        return Refusal{"Run", fmt::format("{} was on {}, which is past", run->code, short_day(run->day)),
                       "Choose a run of today or later"};
    if (is_frozen(book, *run, today))
        return Refusal{"Run", fmt::format("{} is frozen: it is being mixed or too near", run->code),
                       "Choose another run"};
    Refusals refusals;
    const auto move = read_move(book, *run, what, today, refusals);
    if (!move)
        return refusals;
    if (move->line == run->line && move->day == run->day && move->sequence == run->sequence)
        return Refusal{"Run", fmt::format("{} is there already", run->code),
                       "Give another day, line or place"};
    std::string where = fmt::format("{}, {}", short_day(move->day), book.line(move->line)->name);
    if (move->sequence > 0)
        where += fmt::format(", place {}", move->sequence);
    return Supposition{what, fmt::format("Run {} moved to {}", run->code, where)};
}

Result<Supposition> accepted(const Book& book, const SupposeOrder& what, Day today) {
    Refusals refusals;
    const Flour* flour = named(book.flours, "Flour", what.flour, refusals);
    const auto mass = read_mass(what.kg, refusals);
    const auto day = coming_day("Arrives", what.arrives, {}, today, refusals);
    if (!refusals.empty())
        return refusals;
    return Supposition{what,
                       fmt::format("{} {} arrive on {}", kg_words(*mass), flour->name, short_day(*day))};
}

bool is_sold_in(const Book& book, const Product& product, const std::string& market) {
    const auto markets = dough::with_wider(book.markets, product.market);
    return std::find(markets.begin(), markets.end(), market) != markets.end();
}

Result<Supposition> accepted(const Book& book, const SupposeNoOxidant& what, Day /*today*/) {
    const auto count = std::count_if(book.products.begin(), book.products.end(), [&](const Product& product) {
        return is_sold_in(book, product, what.market);
    });
    if (count > 0)
        return Supposition{what,
                           fmt::format("No oxidant in {}: neither the bakery's nor the mill's", what.market)};
    std::string sold;
    for (const auto& product : book.products)
        if (sold.find(product.market) == std::string::npos)
            sold += (sold.empty() ? "" : ", ") + product.market;
    return Refusal{
        "Market", what.market.empty() ? "is empty" : fmt::format("no product is sold in \"{}\"", what.market),
        "Choose one of: " + sold};
}

Result<Supposition> accepted(const Book& book, const SupposeLotHeld& what, Day today) {
    const Lot* lot = book.lot(what.lot);
    if (!lot)
        return Refusal{"Lot", "is not in the book", "Choose a lot"};
    if (lot->state != LotState::released)
        return Refusal{"Lot",
                       fmt::format("{} is {} and goes into no dough anyway", lot->code, in_words(lot->state)),
                       "Choose a released lot"};
    if (stands_on_hold(*lot, today))
        return Refusal{"Lot", fmt::format("{} goes into no dough anyway: its concession is over", lot->code),
                       "Choose a released lot"};
    return Supposition{what, fmt::format("Lot {} on hold", lot->code)};
}

/// Puts the run into its place among those of the line and day, and counts them anew.
void do_to(Book& copy, const SupposeRunMoved& what) {
    const auto at =
        std::find_if(copy.runs.begin(), copy.runs.end(), [&](const Run& r) { return r.id == what.run; });
    Refusals none;
    const auto move = read_move(copy, *at, what, Day::min(), none);
    Run run = *at;
    copy.runs.erase(at);
    run.line = move->line;
    run.day = move->day;
    std::vector<Run*> beside;
    for (auto& other : copy.runs)
        if (other.line == run.line && other.day == run.day)
            beside.push_back(&other);
    std::sort(beside.begin(), beside.end(),
              [](const Run* a, const Run* b) { return a->sequence < b->sequence; });
    const int last = static_cast<int>(beside.size()) + 1;
    run.sequence = move->sequence == 0 ? last : std::min(move->sequence, last);
    int place = 0;
    for (Run* other : beside)
        other->sequence = ++place == run.sequence ? ++place : place;
    copy.runs.push_back(std::move(run));
    std::stable_sort(copy.runs.begin(), copy.runs.end(), [](const Run& a, const Run& b) {
        return std::tuple(a.day, a.line, a.sequence, a.id) < std::tuple(b.day, b.line, b.sequence, b.id);
    });
}

void do_to(Book& copy, const SupposeOrder& what) {
    ExpectedDelivery order;
    std::int64_t last = 0;
    int orders = 1;
    for (const auto& known : copy.expected) {
        last = std::max(last, known.id.number());
        orders += known.code.starts_with("supposed order") ? 1 : 0;
    }
    order.id = ExpectedId{last + 1};
    order.code = fmt::format("supposed order {}", orders);
    for (const auto& flour : copy.flours)
        if (flour.name == what.flour)
            order.flour = flour.id;
    for (const auto& lot : copy.lots) // as the newest of its kind
        if (lot.flour == order.flour && lot.state != LotState::rejected)
            order.mill = lot.mill;
    Refusals none;
    order.mass = read_mass(what.kg, none).value_or(Grams{0});
    order.arrives = **read_day("Arrives", what.arrives);
    order.milled = order.arrives;
    copy.expected.push_back(std::move(order));
}

void do_to(Book& copy, const SupposeNoOxidant& what) {
    for (auto& product : copy.products)
        if (is_sold_in(copy, product, what.market))
            product.oxidant.reset();
}

void do_to(Book& copy, const SupposeLotHeld& what) {
    for (auto& lot : copy.lots)
        if (lot.id == what.lot) {
            lot.state = LotState::held;
            lot.state_reason = "supposed";
        }
}

} // namespace

Result<Supposition> accept(const Book& book, const WhatIf& what, Day today) {
    return std::visit([&](const auto& one) { return accepted(book, one, today); }, what);
}

void suppose(Book& copy, const WhatIf& what) {
    std::visit([&](const auto& one) { do_to(copy, one); }, what);
}

std::vector<RunId> moved_runs(const std::vector<Supposition>& suppositions) {
    std::vector<RunId> runs;
    for (const auto& supposition : suppositions)
        if (const auto* move = std::get_if<SupposeRunMoved>(&supposition.what))
            runs.push_back(move->run);
    return runs;
}

} // namespace mellowbin::app
