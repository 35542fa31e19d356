#include "app/acts/intake.h"
#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/stock.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/intake.h"
#include "app/models/lots.h"
#include "cli/as_json.h"
#include "cli/as_text.h"
#include "cli/grammar.h"

#include <fmt/format.h>
#include <fmt/ostream.h>

#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

struct TakeInTyped {
    std::string file;
    LotDraft defaults;
    bool only_what_is_good = false;
};

int take_in(Session& session, const TakeInTyped& typed) {
    App app(session.set_up());
    app.handle(TakeInFile{typed.file, typed.defaults,
                          typed.only_what_is_good ? FaultyLines::leave_out : FaultyLines::take_nothing});
    for (const auto& note : app.intake().file_notes)
        fmt::print(session.world().err, "mellowbin: note: {}\n", note);
    const int code = session.told(app);
    if (code != done) {
        session.world().err << "mellowbin: nothing was taken in\n";
        return code;
    }
    session.complain(app.intake().file_refusals); // lines left out
    return app.intake().file_refusals.empty() ? done : not_done;
}

struct LotsTyped {
    bool past = false;
    std::string words;
    int page = 1;
};

int show_past_lots(Session& session, App& app, const LotsTyped& typed) {
    PastLotQuery query;
    query.words = typed.words;
    query.from = (typed.page - 1) * query.count;
    app.handle(ShowPastLots{query});
    if (const int code = session.told_if_wrong(app); code != done)
        return code;
    if (session.wants_json())
        session.out() << past_lots_as_json(*app.lots().past);
    else
        print_past_lots(session.out(), *app.lots().past);
    return done;
}

int show_lots(Session& session, const LotsTyped& typed) {
    App app(session.set_up());
    if (typed.past)
        return show_past_lots(session, app, typed);
    if (session.wants_json())
        session.out() << lots_as_json(app.lots());
    else
        print_lots(session.out(), app.lots());
    return done;
}

struct JudgementTyped {
    std::string lot, reason;
};

template <class Judgement> int judge(Session& session, const JudgementTyped& typed) {
    App app(session.set_up());
    app.handle(Judgement{lot_of(app, typed.lot), typed.reason});
    return session.told(app);
}

struct MoveTyped {
    std::string lot, from, to, kg;
};

int move_flour(Session& session, const MoveTyped& typed) {
    App app(session.set_up());
    const auto place = [&](const std::string& name) {
        for (const auto& [id, known] : app.lots().places)
            if (known == name)
                return id;
        throw Failed{fmt::format("Place: \"{}\" is not known", name)};
    };
    app.handle(MoveLot{lot_of(app, typed.lot), place(typed.from), place(typed.to), typed.kg});
    return session.told(app);
}

void add_take_in(Grammar& grammar) {
    auto [words, typed] = grammar.command("take-in", "Take lots in from a certificate file (CSV)", take_in);
    words.option("file", typed.file, "The file; its columns are named in its first line").required();
    words.option("--mill", typed.defaults.mill, "Where the file has no column for it");
    words.option("--flour", typed.defaults.flour, "Where the file has no column for it");
    words.option("--place", typed.defaults.place, "Where the file has no column for it");
    words.option("--delivered-on", typed.defaults.delivered_on,
                 "Where the file has no column for it; otherwise today");
    words.flag("--only-what-is-good", typed.only_what_is_good, "Leave out the lines that are refused");
}

enum class Reason { may_be_given, is_needed };

template <class Judgement>
void add_judgement(Grammar& grammar, const char* name, const char* what, Reason reason) {
    auto [words, typed] = grammar.command(name, what, judge<Judgement>);
    words.option("lot", typed.lot, "Lot number, or MILL/LOT").required();
    words.option("--reason", typed.reason, "In a few words").required(reason == Reason::is_needed);
}

void add_move(Grammar& grammar) {
    auto [words, typed] = grammar.command("move", "Move flour of a lot to another place", move_flour);
    words.option("lot", typed.lot).required();
    words.option("--from", typed.from, "The place it leaves").required();
    words.option("--to", typed.to, "The place it goes to").required();
    words.option("--kg", typed.kg, "How much").required();
}

} // namespace

void add_lot_commands(Grammar& grammar) {
    add_take_in(grammar);
    auto lots = grammar.command("lots", "List the lots", show_lots);
    lots.words.flag("--past", lots.typed.past, "Those that were used up or rejected, the last first");
    lots.words.option("--words", lots.typed.words, "With --past: in the lot's number or its mill's name");
    lots.words.option("--page", lots.typed.page, "With --past: of 50 lots each").within(1, 1'000'000);
    add_judgement<ReleaseLot>(grammar, "release", "Release a lot for dough", Reason::may_be_given);
    add_judgement<HoldLot>(grammar, "hold", "Hold a lot back", Reason::is_needed);
    add_judgement<RejectLot>(grammar, "reject", "Reject a lot", Reason::is_needed);
    add_move(grammar);
}

} // namespace mellowbin::cli
