#include "app/acts/fermentation.h"
#include "app/acts/give_lot.h"
#include "app/acts/runs.h"
#include "app/acts/supply.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/plan.h"
#include "app/models/plan_supply.h"
#include "app/plan/expected.h"
#include "cli/grammar.h"
#include "cli/json_parts.h"
#include "cli/say.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

/// The code that begins a line of the list: "E-3".
bool is_called(const ExpectedRow& row, const std::string& code) {
    return row.words.rfind(code + ":", 0) == 0;
}

ExpectedId delivery_of(const App& app, const std::string& code) {
    for (const auto& row : app.plan().expected)
        if (is_called(row, code))
            return row.id;
    throw Failed{fmt::format("no delivery \"{}\" is expected: see \"mellowbin expected\"", code)};
}

RunId run_of(const App& app, const std::string& code) {
    if (const auto run = app.run_of_code(code))
        return *run;
    throw Failed{fmt::format("no run \"{}\" is on the plan", code)};
}

// Deliveries to come

int expect(Session& session, const ExpectDelivery& typed) {
    App app(session.set_up());
    app.handle(typed);
    return session.told(app);
}

int show_expected(Session& session) {
    const App app(session.set_up());
    const auto& rows = app.plan().expected;
    if (session.wants_json()) {
        auto list = nlohmann::json::array();
        for (const auto& row : rows)
            list.push_back({{"delivery", row.words.substr(0, row.words.find(':'))},
                            {"words", row.words},
                            {"promised", row.promised},
                            {"order", row.order},
                            {"late", row.is_late}});
        session.out() << as_document(list);
        return done;
    }
    for (const auto& row : rows)
        say(session.out(), "{}{}\n", row.words,
            row.promised.empty() ? "" : fmt::format("; the plan has {}", row.promised));
    if (rows.empty())
        session.out() << "No delivery is expected\n";
    return done;
}

struct EndTyped {
    std::string delivery, came_as, reason;
};

int end_expectation(Session& session, const EndTyped& typed) {
    App app(session.set_up());
    EndExpectation intent{delivery_of(app, typed.delivery), {}, typed.reason};
    if (!typed.came_as.empty())
        intent.came_as = lot_of(app, typed.came_as);
    app.handle(intent);
    return session.told(app);
}

// Flour that is spoken for

struct ReserveTyped {
    std::string lot, product, kg, reason;
};

int reserve(Session& session, const ReserveTyped& typed) {
    App app(session.set_up());
    app.handle(ReserveLot{lot_of(app, typed.lot), typed.product, typed.kg, typed.reason});
    return session.told(app);
}

int show_reserved(Session& session) {
    const App app(session.set_up());
    const auto& rows = app.plan().reserved;
    if (session.wants_json()) {
        auto list = nlohmann::json::array();
        for (const auto& row : rows)
            list.push_back({{"reservation", row.id.number()}, {"words", row.words}});
        session.out() << as_document(list);
        return done;
    }
    for (const auto& row : rows)
        say(session.out(), "{}  {}\n", row.id.number(), row.words);
    if (rows.empty())
        session.out() << "Nothing is reserved\n";
    return done;
}

struct EndReservationTyped {
    std::int64_t reservation = 0;
    std::string reason;
};

int end_reservation(Session& session, const EndReservationTyped& typed) {
    App app(session.set_up());
    app.handle(EndReservation{ReservationId{typed.reservation}, typed.reason});
    return session.told(app);
}

// Runs changed by hand

struct ChangeRunTyped {
    std::string run, line, day, batches, sequence;
};

int change_run(Session& session, const ChangeRunTyped& typed) {
    App app(session.set_up());
    app.handle(ChangeRun{run_of(app, typed.run), typed.line, typed.day, typed.batches, typed.sequence});
    return session.told(app);
}

struct FermentTyped {
    std::string run, minutes;
};

int ferment_longer(Session& session, const FermentTyped& typed) {
    App app(session.set_up());
    app.handle(FermentLonger{run_of(app, typed.run), typed.minutes});
    return session.told(app);
}

struct GiveTyped {
    std::string lot, from, to;
};

int give_lot(Session& session, const GiveTyped& typed) {
    App app(session.set_up());
    GiveLot intent{lot_of(app, typed.lot), {}, run_of(app, typed.to)};
    if (!typed.from.empty())
        intent.from = run_of(app, typed.from);
    app.handle(intent);
    return session.told(app);
}

void add_deliveries(Grammar& grammar) {
    auto [order, wish] = grammar.command("expect", "A delivery is to come: the plan counts on it", expect);
    order.option("--mill", wish.mill).required();
    order.option("--flour", wish.flour).required();
    order.option("--kg", wish.kg).required();
    order.option("--arrives", wish.arrives, "Day of arrival").required();
    order.option("--milled", wish.milled, "Day of milling; otherwise the day of arrival");
    order.option("--order", wish.order, "The order's number, as a label may say it");
    grammar.command("expected", "Show the deliveries to come", show_expected);
    auto [end, typed] = grammar.command(
        "end-expectation", "A delivery came, as a lot that was taken in, or was called off", end_expectation);
    end.option("delivery", typed.delivery, "Its code, such as E-3").required();
    end.option("--came-as", typed.came_as, "The lot it came as: LOT or MILL/LOT");
    end.option("--reason", typed.reason, "Why it does not come");
}

void add_reservations(Grammar& grammar) {
    auto [words, typed] =
        grammar.command("reserve", "Keep a lot for a product, or so much of it from every plan", reserve);
    words.option("lot", typed.lot, "LOT or MILL/LOT").required();
    const auto product = words.option("--product", typed.product, "The product that alone may have it");
    words.option("--kg", typed.kg, "How much is kept back").excludes(product);
    words.option("--reason", typed.reason).required();
    grammar.command("reserved", "Show what is reserved", show_reserved);
    auto [end, ended] = grammar.command("end-reservation", "A reservation holds no more", end_reservation);
    end.option("reservation", ended.reservation, "Its number, as \"reserved\" shows it").required();
    end.option("--reason", ended.reason);
}

void add_runs_by_hand(Grammar& grammar) {
    auto [change, run] = grammar.command(
        "change-run", "Move a run in time or to another line, or change its batches", change_run);
    change.option("run", run.run, "Its code, as the plan shows it").required();
    change.option("--line", run.line);
    change.option("--day", run.day);
    change.option("--batches", run.batches);
    change.option("--sequence", run.sequence, "Its place among the runs of line and day, from 1");
    auto [ferment, longer] = grammar.command(
        "ferment-longer", "Ferment a run's dough longer, for strength its flour lacks", ferment_longer);
    ferment.option("run", longer.run, "Its code, as the plan shows it").required();
    ferment.option("minutes", longer.minutes, "Beyond the product's; 0 takes it back").required();
    auto [give, gift] = grammar.command("give-lot", "Lock a lot to a run, as much as it needs", give_lot);
    give.option("lot", gift.lot, "LOT or MILL/LOT").required();
    give.option("--to", gift.to, "The run's code").required();
    give.option("--from", gift.from, "The run that has it now; otherwise what no run has");
}

} // namespace

void add_supply_commands(Grammar& grammar) {
    add_deliveries(grammar);
    add_reservations(grammar);
    add_runs_by_hand(grammar);
}

} // namespace mellowbin::cli
