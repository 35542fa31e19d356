#include "app/acts/supply.h"

#include "app/acts/assignments.h"
#include "app/acts/came.h"
#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/book/fields.h"
#include "app/plan/reserved.h"
#include "core/delivery.h"
#include "core/lot_words.h"
#include "db/run_store.h"
#include "db/supply_store.h"

#include <fmt/format.h>

#include <set>

namespace mellowbin::app {
namespace {

/// The delivery as typed; empty, with every reason, where it cannot be expected.
std::optional<ExpectedDelivery> read_delivery(const State& state, const ExpectDelivery& typed,
                                              Refusals& refusals) {
    const Mill* mill = named(state.book.mills, "Mill", typed.mill, refusals);
    const Flour* flour = named(state.book.flours, "Flour", typed.flour, refusals);
    const auto mass = read_mass(typed.kg, refusals);
    const auto arrives = read_given_day("Arrives", typed.arrives, refusals);
    if (arrives && *arrives < state.today()) {
        refusals.push_back(
            {"Arrives",
             fmt::format("{} was read, which is before today, {}", iso(*arrives), iso(state.today())),
             "Enter a day to come; flour that has come is taken in on Intake"});
    }
    auto milled = arrives;
    if (!typed.milled.empty())
        milled = read_given_day("Milled on", typed.milled, refusals);
    if (milled && arrives && *milled > *arrives) {
        refusals.push_back(
            {"Milled on",
             fmt::format("{} was read, which is after the arrival, {}", iso(*milled), iso(*arrives)),
             "Correct one of the two days"});
    }
    const auto order = read_order(typed.order, refusals);
    if (!refusals.empty())
        return {};
    return ExpectedDelivery{{}, "", mill->id, flour->id, *mass, *arrives, *milled, false, order};
}

Result<Told> expect_again(State& state, ExpectedId id) {
    const auto* delivery = state.book.delivery(id);
    const auto words = fmt::format("Delivery {} is expected again", delivery ? delivery->code : "?");
    Change change =
        state.change("expect_again", delivery ? subject_of(*delivery) : Subject("delivery ?"), words);
    if (const auto done = SupplyStore(*state.connection).expect_again(change, id); !done)
        return change.refuse(done.refusals());
    change.commit();
    return Told{words, Touched::nothing, "Undo: it is not to come", {EndExpectation{id, {}, "taken back"}}};
}

Refusals why_not_as(const Book& book, const ExpectedDelivery& delivery, LotId id) {
    const Lot* lot = book.lot(id);
    if (!lot)
        return {{"Lot", "is not in the book", "Take the delivery in first"}};
    Refusals refusals;
    if (lot->flour != delivery.flour) {
        const Flour* is = book.flour(lot->flour);
        const Flour* was = book.flour(delivery.flour);
        refusals.push_back({"Lot",
                            fmt::format("{} is {}; {} was to be {}", lot->code, is ? is->name : "?",
                                        delivery.code, was ? was->name : "?"),
                            "Choose the lot it came as, or call the delivery off"});
    }
    if (lot->state == LotState::rejected || lot->state == LotState::used_up)
        refusals.push_back({"Lot", fmt::format("{} is {}", lot->code, in_words(lot->state)),
                            "Choose a lot that flour is left of, or call the delivery off"});
    return refusals;
}

std::set<RunId> runs_with(const Book& book, LotId lot) {
    std::set<RunId> runs;
    for (const auto& a : book.assignments)
        if (a.lot == lot)
            runs.insert(a.run);
    return runs;
}

/// What a reservation takes from the plan as it stands, in words.
std::string broken_by(const State& state, const Reservation& reservation) {
    int broken = 0;
    for (const RunId id : runs_with(state.book, reservation.lot)) {
        const Run* run = state.book.run(id);
        const bool is_open = run && run->day >= state.today() && state.book.used_for(id) < run->flour;
        if (is_open && reservation.product && run->product != *reservation.product)
            ++broken;
    }
    if (broken > 0)
        return fmt::format("; {} of other products {} it in the plan: plan again",
                           broken == 1 ? "1 run" : fmt::format("{} runs", broken),
                           broken == 1 ? "has" : "have");
    if (!reservation.product && free_of(state.book, reservation.lot) < reservation.kept_back)
        return "; runs have of it in the plan: plan again";
    return {};
}

/// The reservation as typed; empty, with every reason, where it cannot be made.
std::optional<Reservation> read_reservation(const Book& book, const ReserveLot& typed, Refusals& refusals) {
    const Lot* lot = book.lot(typed.lot);
    if (!lot)
        refusals.push_back({"Lot", "is not in the book", "Choose a lot from the list"});
    else if (lot->state == LotState::rejected || lot->state == LotState::used_up)
        refusals.push_back({"Lot", fmt::format("{} is {}", lot->code, in_words(lot->state)),
                            "Choose a lot that flour is left of"});
    Reservation reservation{{}, typed.lot, {}, {}, typed.reason};
    if (!typed.product.empty()) {
        const Product* product = named(book.products, "Product", typed.product, refusals);
        if (product)
            reservation.product = product->id;
        if (product && lot && !part_of(*product, lot->flour))
            refusals.push_back({"Product",
                                fmt::format("{} takes another flour than lot {}", product->name, lot->code),
                                "Choose a product that takes it"});
        if (!typed.kg.empty())
            refusals.push_back(
                {"Weight", fmt::format("\"{}\" was read; a lot is kept for a product as a whole", typed.kg),
                 "Leave the weight empty, or the product"});
    } else if (const auto mass = read_mass(typed.kg, refusals)) {
        reservation.kept_back = *mass;
        const Grams left = book.stock.total(typed.lot) - kept_back(book, typed.lot);
        if (lot && *mass > left)
            refusals.push_back({"Weight",
                                fmt::format("{} was read, but only {} of lot {} are there and not kept back",
                                            kg_words(*mass), kg_words(std::max(left, Grams{0})), lot->code),
                                "Keep less back, or count the lot"});
    }
    if (typed.reason.empty())
        refusals.push_back({"Reason", "is empty", "Say what for, in a few words"});
    return refusals.empty() ? std::optional(reservation) : std::nullopt;
}

} // namespace

Result<Told> carry_out(State& state, const ExpectDelivery& intent) {
    if (intent.again.is_known())
        return expect_again(state, intent.again);
    Refusals refusals;
    const auto delivery = read_delivery(state, intent, refusals);
    if (!delivery)
        return refusals;
    Change change = state.change("expect_delivery", "", "");
    const auto expected = SupplyStore(*state.connection).expect(change, *delivery);
    if (!expected)
        return change.refuse(expected.refusals());
    const auto words =
        fmt::format("Delivery {} expected on {}: {} {} from {}", expected->code, short_day(expected->arrives),
                    kg_words(expected->mass), intent.flour, intent.mill);
    change.journal_line().subject = subject_of(*expected).words;
    change.journal_line().about = subject_of(*expected).record;
    change.journal_line().words = words;
    change.commit();
    return Told{
        words, Touched::nothing, "Undo: it is not to come", {EndExpectation{expected->id, {}, "taken back"}}};
}

Result<Told> carry_out(State& state, const EndExpectation& intent) {
    const auto* delivery = state.book.delivery(intent.delivery);
    if (!delivery)
        return Refusal{"Delivery", "is not in the book", "Choose one that is still to come"};
    const Lot* lot = nullptr;
    if (intent.came_as) {
        if (auto refusals = why_not_as(state.book, *delivery, *intent.came_as); !refusals.empty())
            return refusals;
        lot = state.book.lot(*intent.came_as);
    } else if (intent.reason.empty()) {
        return Refusal{"Reason", "is empty", "Say why it does not come, or which lot it came as"};
    }
    const auto runs = promised_runs(state.book, delivery->id);
    auto before = as_they_stand(state.book, runs);
    const auto after = lot ? arrived(state.book, *delivery, {{lot->id, free_of(state.book, lot->id)}}, runs)
                           : Arrived{before, {}};
    const auto words = lot ? came_in_words(*delivery, "lot " + lot->code, runs.size(), after.missing)
                           : called_off_in_words(*delivery, intent.reason, runs.size());
    Change change = state.change("end_expectation", subject_of(*delivery), words);
    if (const auto done = SupplyStore(*state.connection).end(change, delivery->id); !done)
        return change.refuse(done.refusals());
    if (lot)
        change.also(state.journal_line("end_expectation", subject_of(*lot), words));
    if (lot && !runs.empty()) {
        const auto& plan = after.plan;
        const auto done =
            RunStore(*state.connection).set_assignments(change, runs, plan.assignments, plan.promises);
        if (!done)
            return change.refuse(done.refusals());
    }
    change.commit();
    ExpectDelivery again;
    again.again = delivery->id;
    Intents undoing{again};
    if (!runs.empty())
        for (auto& act : putting_back(std::move(before), after.plan.assignments, lot ? lot->id : LotId{}))
            undoing.push_back(std::move(act));
    return Told{words, Touched::nothing, "Undo: it is still to come", std::move(undoing)};
}

Result<Told> carry_out(State& state, const ReserveLot& intent) {
    Refusals refusals;
    const auto reservation = read_reservation(state.book, intent, refusals);
    if (!reservation)
        return refusals;
    const Lot& lot = *state.book.lot(intent.lot);
    auto words = reservation->product
                     ? fmt::format("Lot {} kept for {}: {}", lot.code, intent.product, intent.reason)
                     : fmt::format("{} of lot {} kept back: {}", kg_words(reservation->kept_back), lot.code,
                                   intent.reason);
    words += broken_by(state, *reservation);
    Change change = state.change("reserve_lot", subject_of(lot), words);
    const auto id = SupplyStore(*state.connection).reserve(change, *reservation);
    if (!id)
        return change.refuse(id.refusals());
    change.commit();
    return Told{words, Touched::nothing, "Undo: end the reservation", {EndReservation{*id, "taken back"}}};
}

Result<Told> carry_out(State& state, const EndReservation& intent) {
    const auto& all = state.book.reservations;
    const auto at = std::find_if(all.begin(), all.end(),
                                 [&](const Reservation& r) { return r.id == intent.reservation; });
    if (at == all.end())
        return Refusal{"Reservation", "is not in the book, or ended before", "Choose one that holds"};
    const Lot* lot = state.book.lot(at->lot);
    const Product* product = at->product ? state.book.product(*at->product) : nullptr;
    const std::string code = lot ? lot->code : "?";
    const auto words =
        fmt::format("Lot {}: {} no more{}", code,
                    product ? "kept for " + product->name : kg_words(at->kept_back) + " kept back",
                    intent.reason.empty() ? "" : ": " + intent.reason);
    const ReserveLot again{at->lot, product ? product->name : "",
                           product ? "" : fixed(to_kilograms(at->kept_back).value(), 3), at->reason};
    Change change = state.change("end_reservation", lot ? subject_of(*lot) : Subject("lot ?"), words);
    if (const auto done = SupplyStore(*state.connection).end(change, intent.reservation); !done)
        return change.refuse(done.refusals());
    change.commit();
    return Told{words, Touched::nothing, "Undo: reserve it again", {again}};
}

} // namespace mellowbin::app
