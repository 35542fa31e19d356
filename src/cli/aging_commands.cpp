#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/acts/retests.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/readiness.h"
#include "app/models/story.h"
#include "cli/aging_as_json.h"
#include "cli/aging_as_text.h"
#include "cli/as_json.h"
#include "cli/as_text.h"
#include "cli/grammar.h"
#include "cli/result_words.h"
#include "cli/say.h"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

struct ReadinessTyped {
    std::string day;
};

int show_readiness(Session& session, const ReadinessTyped& typed) {
    App app(session.set_up());
    if (const auto day = day_from(typed.day))
        app.handle(ShowAsOf{*day});
    if (session.wants_json())
        session.out() << readiness_as_json(app.readiness());
    else
        print_readiness(session.out(), app.readiness());
    return done;
}

struct LotTyped {
    std::string lot, day;
    bool curve = false;
};

int show_lot(Session& session, const LotTyped& typed) {
    App app(session.set_up());
    const LotId lot = lot_of(app, typed.lot);
    if (const auto day = day_from(typed.day))
        app.handle(ShowAsOf{*day});
    app.handle(OpenLot{lot});
    if (const int code = session.told_if_wrong(app); code != done)
        return code;
    if (session.wants_json()) {
        session.out() << lot_as_json(app);
        return done;
    }
    print_lot(session.out(), app);
    if (typed.curve)
        print_lot_days(session.out(), *app.readiness().opened);
    return done;
}

struct RetestTyped {
    std::string lot, day, place, note;
    std::vector<std::string> results;
};

int log_retest(Session& session, const RetestTyped& typed) {
    RetestDraft draft{typed.day, typed.place, typed.note, {}};
    Refusals refusals;
    for (const auto& words : typed.results) {
        const auto figure = read_result(words);
        if (figure)
            draft.figures.push_back(*figure); // twice the same is for core to refuse
        else
            append(refusals, figure.refusals());
    }
    if (!refusals.empty())
        return session.refused(refusals);
    App app(session.set_up());
    app.handle(LogRetest{lot_of(app, typed.lot), draft});
    if (const int code = session.told_if_wrong(app); code != done)
        return code;
    const auto number = app.notice().undoing.front().as<WithdrawRetest>()->retest.number();
    if (session.wants_json()) {
        session.out() << act_as_json(app.notice().words, "retest", number);
        return done;
    }
    say(session.out(), "{}\nIts number is {}; mellowbin withdraw-retest {} {} takes it back\n",
        app.notice().words, number, typed.lot, number);
    return done;
}

struct WithdrawalTyped {
    std::string lot;
    std::int64_t number = 0;
    std::string reason;
};

int withdraw_retest(Session& session, const WithdrawalTyped& typed) {
    App app(session.set_up());
    app.handle(OpenLot{lot_of(app, typed.lot)});
    if (const int code = session.told_if_wrong(app); code != done)
        return code;
    const RetestId retest{typed.number};
    const auto& tests = app.readiness().opened->tests;
    if (std::none_of(tests.begin(), tests.end(), [&](const TestRow& test) { return test.retest == retest; }))
        return session.refused(
            {{"Retest", fmt::format("no. {} is no standing retest of lot {}", typed.number, typed.lot),
              fmt::format("See mellowbin lot {}", typed.lot)}});
    app.handle(WithdrawRetest{retest, typed.reason});
    if (const int code = session.told_if_wrong(app); code != done || !session.wants_json())
        return session.told(app);
    session.out() << act_as_json(app.notice().words, "retest", typed.number);
    return done;
}

void add_retest(Grammar& grammar) {
    auto [words, typed] = grammar.command("retest", "Log the laboratory's results for a lot", log_retest);
    words.option("lot", typed.lot, "Lot number, or MILL/LOT").required();
    words.option("--day", typed.day, "When the sample was taken; otherwise today");
    words.option("--place", typed.place, "Where it was taken; otherwise the lot as a whole");
    words.option("--note", typed.note, "In a few words");
    words.option("--result", typed.results, "A result; once for each")
        .required()
        .one_at_a_time()
        .shown_as(fmt::format("\"{}\"", result_form));
    words.footer(
        "A result is PROPERTY=VALUE, then after an \"@\" its moisture basis (as is, 14 % moisture, dry\n"
        "matter), then after a second \"@\" the method. Comma and point are the same. Where the\n"
        "property has no basis, its place stays empty:\n"
        "  --result \"glutathione=105,5 @ 14 % moisture @ in-house\"\n"
        "  --result \"stability=14.5 @ @ ICC 115/1\"\n"
        "Results are compared only with those of the same method.");
}

} // namespace

void add_aging_commands(Grammar& grammar) {
    auto readiness = grammar.command("readiness", "How far each lot has matured", show_readiness);
    readiness.words.option("--as-of", readiness.typed.day, "Asked for this day instead of today");
    auto lot = grammar.command("lot", "One lot's aging: what to do with it, and why", show_lot);
    lot.words.option("lot", lot.typed.lot, "Lot number, or MILL/LOT").required();
    lot.words.option("--day,--as-of", lot.typed.day, "Asked for this day instead of today");
    lot.words.flag("--curve", lot.typed.curve, "With its maturity and storage, day by day");
    add_retest(grammar);
    auto withdrawal =
        grammar.command("withdraw-retest", "Take a retest back; it stays on record", withdraw_retest);
    withdrawal.words.option("lot", withdrawal.typed.lot, "Lot number, or MILL/LOT").required();
    withdrawal.words.option("number", withdrawal.typed.number, "Its number, as mellowbin lot shows it")
        .required();
    withdrawal.words.option("--reason", withdrawal.typed.reason, "In a few words").required();
}

} // namespace mellowbin::cli
