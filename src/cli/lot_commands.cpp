#include "app/acts/intake.h"
#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/acts/stock.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/intake.h"
#include "app/models/lots.h"
#include "cli/as_json.h"
#include "cli/as_text.h"
#include "cli/certificate_command.h"
#include "cli/door_words.h"
#include "cli/grammar.h"
#include "cli/pallet_words.h"
#include "cli/say.h"
#include "core/door.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <ostream>

namespace mellowbin::cli {
namespace {

using namespace app;

struct TakeInTyped {
    std::string file;
    LotDraft defaults;
    bool only_what_is_good = false;
    CertificateTyped certificate; ///< what else a file says that is understood first
    std::vector<std::string> checks, pallets;
    DeliveryDraft delivery;
};

/// Where a person must decide, the command says how that is told.
void say_how_to_accept(const Session& session, const Refusals& refusals) {
    if (std::any_of(refusals.begin(), refusals.end(),
                    [](const Refusal& refusal) { return refusal.field.ends_with(accept_field); }))
        session.world().err << "mellowbin: with --accept REASON such lots are taken in all the same\n";
}

int take_in(Session& session, const TakeInTyped& typed) {
    std::vector<DoorCheckDraft> door;
    Refusals refusals;
    for (const auto& words : typed.checks) {
        const auto check = read_door_check(words);
        if (check)
            door.push_back(*check); // whether it is one of the questions is for core to say
        else
            append(refusals, check.refusals());
    }
    PalletsOfLots pallets;
    for (const auto& words : typed.pallets)
        if (const auto pallet = read_pallet(words))
            pallets[pallet->first].push_back(pallet->second);
        else
            append(refusals, pallet.refusals());
    if (!refusals.empty())
        return session.refused(refusals);
    OfDelivery delivery;
    delivery.said = typed.delivery;
    if (is_certificate_to_understand(typed.file)) {
        auto certificate = typed.certificate;
        certificate.file = typed.file;
        certificate.defaults = typed.defaults;
        certificate.only_what_is_good = typed.only_what_is_good;
        return take_in_certificate(session, certificate, {std::move(door), delivery, pallets});
    }
    App app(session.set_up());
    find_by_order(session, app, delivery.said);
    app.handle(TakeInFile{typed.file, typed.defaults,
                          typed.only_what_is_good ? FaultyLines::leave_out : FaultyLines::take_nothing, door,
                          delivery, pallets});
    for (const auto& note : app.intake().file_notes)
        say(session.world().err, "mellowbin: note: {}\n", note);
    const int code = session.told(app);
    if (code != done) {
        say_how_to_accept(session, app.notice().refusals);
        session.world().err << "mellowbin: nothing was taken in\n";
        return code;
    }
    session.complain(app.intake().file_refusals); // lines left out
    say_how_to_accept(session, app.intake().file_refusals);
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

struct GiveBackTyped {
    std::string lot, to, kg, run, reason;
};

int give_back(Session& session, const GiveBackTyped& typed) {
    App app(session.set_up());
    const LotId lot = lot_of(app, typed.lot);
    std::optional<RunId> run;
    if (!typed.run.empty()) {
        run = app.run_of_code(typed.run);
        if (!run)
            throw Failed{fmt::format("Run: \"{}\" is not in the book", typed.run)};
    }
    app.handle(GiveBack{lot, place_of(app, typed.to), typed.kg, run, typed.reason});
    return session.told(app);
}

struct MoveTyped {
    std::string lot, from, to, kg;
};

int move_flour(Session& session, const MoveTyped& typed) {
    App app(session.set_up());
    app.handle(MoveLot{lot_of(app, typed.lot), place_of(app, typed.from), place_of(app, typed.to), typed.kg});
    return session.told(app);
}

struct FoundTyped {
    std::string lot, place, kg, reason;
};

/// A count or waste: what was found of a lot in a place, and why.
template <class Found> int found(Session& session, const FoundTyped& typed) {
    App app(session.set_up());
    app.handle(Found{lot_of(app, typed.lot), place_of(app, typed.place), typed.kg, typed.reason});
    return session.told(app);
}

void add_delivery_words(Words& words, TakeInTyped& typed) {
    auto& delivery = typed.delivery;
    words.option("--for", delivery.expected, "The expected delivery it answers, such as E-3");
    words.option("--order", delivery.order,
                 "The order's number; one that is expected by it is taken to be this one");
    words.option("--note-weight", delivery.on_note,
                 "Weight on the delivery note, in the house's unit or with its own");
    words.option("--weighed", delivery.weighed, "Weight by the plant's own scale or bridge");
    words.option("--weight-reason", delivery.weight_reason, "Why the weights may differ");
    words.option("--remark", delivery.remark, "On the delivery as a whole");
    words.option("--pallet", typed.pallets, "A pallet that a lot came on; once for each")
        .one_at_a_time()
        .shown_as(fmt::format("\"{}\"", pallet_form));
}

void add_take_in(Grammar& grammar) {
    auto [words, typed] =
        grammar.command("take-in", "Take lots in from a certificate (CSV, XLSX, PDF, text)", take_in);
    words.option("file", typed.file, "The file; - reads what is piped in").required();
    words.option("--mill", typed.defaults.mill, "Where the file has no column for it");
    words.option("--flour", typed.defaults.flour, "Where the file has no column for it");
    words.option("--place", typed.defaults.place, "Where the file has no column for it");
    words.option("--delivered-on", typed.defaults.delivered_on,
                 "Where the file has no column for it; otherwise today");
    words.flag("--only-what-is-good", typed.only_what_is_good, "Leave out the lots that are refused");
    words.option("--map", typed.certificate.meanings, "What words of the certificate mean; once for each")
        .one_at_a_time()
        .shown_as(fmt::format("\"{}\"", meaning_form));
    words
        .option("--answer", typed.certificate.answers,
                "To a question that the command printed; once for each")
        .one_at_a_time()
        .shown_as(fmt::format("\"{}\"", answer_form));
    words.option("--lot", typed.certificate.of_lot, "The lot that the certificate must be of");
    words.flag("--confirm", typed.certificate.confirm,
               "It was understood rightly: remember the mill's words and take the lots in");
    words
        .option("--check", typed.checks,
                "A check at the door, of the whole delivery or of one lot; once for each")
        .one_at_a_time()
        .shown_as(fmt::format("\"{}\"", door_check_form));
    words.option("--accept", typed.defaults.accept_reason,
                 "Why lots come in although something stands against them");
    add_delivery_words(words, typed);
    words.footer(
        "A CSV file whose columns are named as this program names them is taken in at once. Of all else it\n"
        "is printed what was understood, beside the source; what is asked is refused with its place, and\n"
        "is answered with --map or --answer. The lots come in with --confirm, and their certificate is\n"
        "kept with them.\n"
        "A check is a question, or its beginning, and after a \"=\" yes, no or not looked at; then, each\n"
        "after a \";\", the lot it is about alone, how many bags and a note. A \"no\" holds its lots:\n"
        "  --check \"Seal=yes\" --check \"Bags dry=yes\"\n"
        "  --check \"Bags dry=no; lot=W24-118; 3 bags; wet at one corner\"\n"
        "A best-before day that is over, moisture over the flour's specification, a certificate older\n"
        "than the milling and flour that came warm are refused without --accept REASON.");
}

void add_give_back(Grammar& grammar) {
    auto [words, typed] = grammar.command(
        "give-back", "Bring flour back that was taken out for a run and not mixed", give_back);
    words.option("lot", typed.lot, "Lot number, or MILL/LOT").required();
    words.option("--to", typed.to, "The place it comes to").required();
    words.option("--kg", typed.kg, "How much").required();
    words.option("--run", typed.run, "The run it was out for, where the lot is out for more than one");
    words.option("--reason", typed.reason, "In a few words").required();
}

void add_move(Grammar& grammar) {
    auto [words, typed] = grammar.command("move", "Move flour of a lot to another place", move_flour);
    words.option("lot", typed.lot).required();
    words.option("--from", typed.from, "The place it leaves").required();
    words.option("--to", typed.to, "The place it goes to").required();
    words.option("--kg", typed.kg, "How much").required();
}

void add_count_and_waste(Grammar& grammar) {
    auto count = grammar.command("count", "Enter what was counted of a lot in a place", found<CountLot>);
    count.words.option("lot", count.typed.lot, "Lot number, or MILL/LOT").required();
    count.words.option("--place", count.typed.place, "Where it lies").required();
    count.words.option("--kg", count.typed.kg, "What was counted").required();
    count.words.option("--reason", count.typed.reason,
                       "Why it differs from the book, in a few words; needed where it does");
    auto waste = grammar.command("waste", "Write off flour of a lot in a place", found<WasteLot>);
    waste.words.option("lot", waste.typed.lot, "Lot number, or MILL/LOT").required();
    waste.words.option("--place", waste.typed.place, "Where it lay").required();
    waste.words.option("--kg", waste.typed.kg, "How much").required();
    waste.words.option("--reason", waste.typed.reason, "In a few words").required();
}

} // namespace

void add_lot_commands(Grammar& grammar) {
    add_take_in(grammar);
    auto lots = grammar.command("lots", "List the lots", show_lots);
    lots.words.flag("--past", lots.typed.past, "Those that were used up or rejected, the last first");
    lots.words.option("--words", lots.typed.words, "With --past: in the lot's number or its mill's name");
    lots.words.option("--page", lots.typed.page, "With --past: of 50 lots each").within(1, 1'000'000);
    add_move(grammar);
    add_give_back(grammar);
    add_count_and_waste(grammar);
}

} // namespace mellowbin::cli
