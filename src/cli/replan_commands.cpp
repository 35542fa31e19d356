#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/acts/plan.h"
#include "app/acts/what_if.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/overview.h"
#include "app/models/plan.h"
#include "app/plan/what_if.h"
#include "cli/as_json.h"
#include "cli/as_text.h"
#include "cli/grammar.h"

#include <fmt/format.h>

#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

struct DaysTyped {
    std::string from;
    int days = 7;
};

struct ReplanTyped : DaysTyped {
    bool adopt = false;
};

struct SupposeTyped : DaysTyped {
    std::vector<std::string> move_run, order, no_oxidant, hold;
};

void add_days(Words words, DaysTyped& typed) {
    words.option("--from", typed.from, "First day; otherwise today");
    words.option("--days", typed.days, "How many days").within(1, 56);
}

Day first_day(const App& app, const DaysTyped& typed) {
    return day_from(typed.from).value_or(app.overview().today);
}

bool is_done(const App& app) { return app.notice().kind == Notice::Kind::done; }

void show(Session& session, const App& app) {
    if (session.wants_json())
        session.out() << plan_as_json(app.plan());
    else
        print_plan(session.out(), app.plan());
}

int replan(Session& session, const ReplanTyped& typed) {
    App app(session.set_up());
    app.handle(Replan{first_day(app, typed), typed.days});
    if (!is_done(app))
        return session.told(app);
    app.finish_work();
    if (!is_done(app))
        return session.told(app);
    show(session, app);
    if (!typed.adopt)
        return done;
    app.handle(AdoptPlan{});
    return session.told_if_wrong(app);
}

/// "A:B:C" in its parts, of which so many must be there.
std::vector<std::string> parts_of(const char* option, const std::string& typed, std::size_t least,
                                  std::size_t most, const char* form) {
    std::vector<std::string> parts(1);
    for (const char c : typed) {
        if (c == ':')
            parts.emplace_back();
        else
            parts.back() += c;
    }
    if (parts.size() < least || parts.size() > most)
        throw Failed{fmt::format("{} \"{}\": {} is expected", option, typed, form)};
    parts.resize(most);
    return parts;
}

RunId run_named(const App& app, const std::string& code) {
    const auto run = app.run_of_code(code);
    if (!run)
        throw Failed{fmt::format("Run \"{}\" is not in the book", code)};
    return *run;
}

Intents suppositions_of(const App& app, const SupposeTyped& typed) {
    Intents all;
    for (const auto& words : typed.move_run) {
        const auto parts = parts_of("--move-run", words, 2, 4, "RUN:DAY, RUN:DAY:LINE or RUN:DAY:LINE:PLACE");
        all.emplace_back(SupposeRunMoved{run_named(app, parts[0]), parts[2], parts[1], parts[3]});
    }
    for (const auto& words : typed.order) {
        const auto parts = parts_of("--order", words, 3, 3, "FLOUR:KG:DAY");
        all.emplace_back(SupposeOrder{parts[0], parts[1], parts[2]});
    }
    for (const auto& market : typed.no_oxidant)
        all.emplace_back(SupposeNoOxidant{market});
    for (const auto& lot : typed.hold)
        all.emplace_back(SupposeLotHeld{lot_of(app, lot)});
    return all;
}

int suppose(Session& session, const SupposeTyped& typed) {
    App app(session.set_up());
    app.handle(ShowPlan{first_day(app, typed), typed.days});
    for (const auto& intent : suppositions_of(app, typed)) {
        app.handle(intent);
        if (!is_done(app))
            return session.told(app);
    }
    app.handle(PlanSuppositions{});
    if (!is_done(app))
        return session.told(app);
    app.finish_work();
    if (!is_done(app))
        return session.told(app);
    show(session, app);
    return done;
}

int order_by(Session& session, const DaysTyped& typed) {
    App app(session.set_up());
    app.handle(ShowPlan{first_day(app, typed), typed.days});
    if (session.wants_json())
        session.out() << orders_as_json(app.plan());
    else
        print_orders(session.out(), app.plan());
    return done;
}

} // namespace

void add_replan_commands(Grammar& grammar) {
    auto mend = grammar.command(
        "replan", "Mend the plan where it holds no longer, with few changes, and show both plans", replan);
    add_days(mend.words, mend.typed);
    mend.words.flag("--adopt", mend.typed.adopt, "Adopt the mended plan");
    auto what_if = grammar.command("suppose",
                                   "Plan with something supposed, beside the plan in the book; the book "
                                   "is not touched",
                                   suppose);
    add_days(what_if.words, what_if.typed);
    what_if.words.option("--move-run", what_if.typed.move_run,
                         "RUN:DAY[:LINE[:PLACE]]: a run on another day, line or place on it");
    what_if.words.option("--order", what_if.typed.order, "FLOUR:KG:DAY: flour that arrives on a day");
    what_if.words.option("--no-oxidant", what_if.typed.no_oxidant,
                         "MARKET: no oxidant in what is sold there");
    what_if.words.option("--hold", what_if.typed.hold, "LOT: a lot put on hold");
    auto orders =
        grammar.command("order-by", "What to order for runs that are short, and until when", order_by);
    add_days(orders.words, orders.typed);
}

} // namespace mellowbin::cli
