#include "app/acts/draws.h"
#include "app/acts/looking.h"
#include "app/acts/silos.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/trace_page.h"
#include "cli/grammar.h"
#include "cli/stock_words.h"

#include <fmt/format.h>

#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

struct StockTyped {
    std::string at;
};

int show_stock(Session& session, const StockTyped& typed) {
    App app(session.set_up());
    app.handle(ShowStock{typed.at});
    if (const int code = session.told_if_wrong(app); code != done)
        return code;
    const auto& stock = *app.trace().stock;
    if (session.wants_json())
        session.out() << stock_as_json(stock);
    else
        print_stock(session.out(), stock);
    return done;
}

struct SilosTyped {
    std::string draw = "1000";
};

int show_silos(Session& session, const SilosTyped& typed) {
    App app(session.set_up());
    app.handle(ShowSiloDraw{typed.draw});
    if (const int code = session.told_if_wrong(app); code != done)
        return code;
    if (session.wants_json())
        session.out() << silos_as_json(app.trace().silos);
    else
        print_silos(session.out(), app.trace().silos);
    return done;
}

template <class Act> int told_of(Session& session, const Act& act) {
    App app(session.set_up());
    app.handle(act);
    return session.told(app);
}

struct DrawTyped {
    std::string run, place, lot;
};

int draw_from(Session& session, const DrawTyped& typed) {
    App app(session.set_up());
    const auto run = app.run_of_code(typed.run);
    if (!run)
        throw Failed{fmt::format("Run: \"{}\" is not in the book; see mellowbin plan", typed.run)};
    LotId lot;
    if (!typed.lot.empty())
        lot = lot_of(app, typed.lot);
    app.handle(DrawFrom{*run, lot, typed.place});
    return session.told(app);
}

} // namespace

void add_stock_commands(Grammar& grammar) {
    auto stock = grammar.command("stock", "What lies where, how old it is, now or at a time that has been",
                                 show_stock);
    stock.words.option("--at", stock.typed.at, "A day (at its end), or a day and time: \"2026-11-20 08:00\"");
    auto silos = grammar.command("silos", "What lies in silos, and what a draw would hold", show_silos);
    silos.words.option("--draw", silos.typed.draw, "Of so many kg; otherwise 1000");
    auto zone = grammar.command("silo-zone", "Say how a silo mixes, which its traces and plans go by",
                                told_of<SetSiloZone>);
    zone.words.option("silo", zone.typed.silo, "Its name").required();
    zone.words
        .option("zone", zone.typed.zone,
                "Kilograms at its foot that are one mixture; none: first in, first out; all: one mixture")
        .required();
    auto capacity = grammar.command("silo-capacity", "Say how much a silo takes; no more comes into it",
                                    told_of<SetSiloCapacity>);
    capacity.words.option("silo", capacity.typed.silo, "Its name").required();
    capacity.words.option("--kg", capacity.typed.kg, "At most; left out: not known");
    auto care = grammar.command("silo-care", "Write down that a silo was emptied, cleaned or sanitised",
                                told_of<NoteCare>);
    care.words.option("silo", care.typed.silo, "Its name").required();
    care.words.option("what", care.typed.what, "emptied, cleaned or sanitised").required();
    care.words.option("--day", care.typed.day, "When; otherwise today");
    care.words.option("--by", care.typed.by, "Who did it; otherwise who writes it down");
    care.words.option("--note", care.typed.note, "With what; of flour that was booked there: where it went");
    auto draw = grammar.command("draw-from", "Say from which place a run draws its flour", draw_from);
    draw.words.option("run", draw.typed.run, "The run's code, as on the plan").required();
    draw.words.option("place", draw.typed.place, "Its name").required();
    draw.words.option("--lot", draw.typed.lot, "Only this lot; otherwise all of the card that lie there");
}

} // namespace mellowbin::cli
