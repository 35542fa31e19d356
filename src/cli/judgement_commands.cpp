#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/mill_returns.h"
#include "app/acts/notice.h"
#include "app/app.h"
#include "app/book/setup.h"
#include "app/models/lot_agreements.h"
#include "app/models/lot_results.h"
#include "app/models/lots.h"
#include "cli/grammar.h"
#include "cli/say.h"
#include "core/typed_text.h"

#include <optional>
#include <ostream>

/// Quality's word on lots.
namespace mellowbin::cli {
namespace {

using namespace app;

struct JudgementTyped {
    std::string lot, reason;
};

template <class Judgement> int judge(Session& session, const JudgementTyped& typed) {
    App app(session.set_up());
    app.handle(Judgement{lot_of(app, typed.lot), typed.reason});
    return session.told(app);
}

// Release

struct ReleaseTyped {
    JudgementTyped judgement;
    ConcessionDraft concession;
};

/// What stands for what of the lot fails its specification.
constexpr std::string_view as_failed = "failed";

/// What whoever releases a lot has to know of it goes to stderr, before it is done.
void note_findings(Session& session, const LotSheet& sheet) {
    const auto note = [&](const std::string& words) {
        say(session.world().err, "mellowbin: note: {}\n", words);
    };
    for (const auto& findings : {sheet.door, sheet.results})
        for (const auto& finding : findings)
            if (finding.weight != Finding::Weight::well)
                note(finding.words);
    for (std::size_t i = 0; i < sheet.agreements.size(); ++i)
        if (sheet.agreements[i].verdict == ComparedResult::Verdict::contradicts)
            note(findings_of(sheet.agreements)[i].words);
}

/// Nothing was typed of a concession.
std::optional<ConcessionDraft> concession_of(const ReleaseTyped& typed, const LotSheet* sheet) {
    auto draft = typed.concession;
    if (draft == ConcessionDraft{})
        return {};
    if (same_words(draft.deviation, as_failed)) {
        draft.deviation = sheet ? failing_as_text(sheet->failing) : std::string();
        if (draft.deviation.empty())
            throw Failed{"Conceded: nothing of the lot fails its specification; say what is let pass"};
    }
    return draft;
}

/// One that is released already is judged anew.
int release(Session& session, const ReleaseTyped& typed) {
    App app(session.set_up());
    const LotId lot = lot_of(app, typed.judgement.lot);
    app.handle(OpenLot{lot});
    const auto sheet = app.lots().opened;
    if (sheet)
        note_findings(session, *sheet);
    const auto concession = concession_of(typed, sheet ? &*sheet : nullptr);
    if (concession && sheet && sheet->row.state == LotState::released)
        app.handle(ConcedeLot{lot, *concession});
    else
        app.handle(ReleaseLot{lot, typed.judgement.reason, concession});
    return session.told(app);
}

// Return to the mill

struct ReturnTyped {
    std::string lot, place, kg, reason, document;
};

int return_to_mill(Session& session, const ReturnTyped& typed) {
    App app(session.set_up());
    std::optional<PlaceId> place;
    if (!typed.place.empty())
        place = place_of(app, typed.place);
    app.handle(ReturnToMill{lot_of(app, typed.lot), place, typed.kg, typed.reason, typed.document});
    return session.told(app);
}

// Last day

struct ExtensionTyped {
    std::string lot, until, reason;
};

int extend_lot(Session& session, const ExtensionTyped& typed) {
    App app(session.set_up());
    app.handle(ExtendBestBefore{lot_of(app, typed.lot), typed.until, typed.reason});
    return session.told(app);
}

// Words

using Judge = int (*)(Session&, const JudgementTyped&);

void add_judgement(Grammar& grammar, const char* name, const char* what, Judge act) {
    auto [words, typed] = grammar.command(name, what, act);
    words.option("lot", typed.lot, "Lot number, or MILL/LOT").required();
    words.option("--reason", typed.reason, "In a few words").required();
}

void add_release(Grammar& grammar) {
    auto [words, typed] =
        grammar.command("release", "Release a lot for dough, or for some under a concession", release);
    words.option("lot", typed.judgement.lot, "Lot number, or MILL/LOT").required();
    words.option("--reason", typed.judgement.reason, "In a few words");
    words.option("--concession", typed.concession.deviation, "What of it is let pass; failed: what fails");
    words.option("--until", typed.concession.until,
                 "With --concession: the last day on which it may be used");
    words
        .option("--for", typed.concession.products,
                "With --concession: a product it may go into; once for each")
        .one_at_a_time();
    words.flag("--for-all", typed.concession.for_all, "With --concession: it may go into every product");
    words.option("--conceded-by", typed.concession.by, "With --concession: who concedes it; otherwise you");
    words.footer("A lot that fails its specification is released with a reason or a concession. One that is\n"
                 "released already is judged anew: its concession is wider or narrower from then on.\n"
                 "  --concession \"protein 11.2 %\" --until 2026-11-27 --for \"Pan bread\" --for Bun");
}

void add_return(Grammar& grammar) {
    auto [words, typed] = grammar.command(
        "return-to-mill", "Send flour of a lot that is not released back to the mill", return_to_mill);
    words.option("lot", typed.lot, "Lot number, or MILL/LOT").required();
    words.option("--place", typed.place, "That it leaves; otherwise every place it lies in");
    words.option("--kg", typed.kg, "How much; otherwise all that lies there");
    words.option("--reason", typed.reason, "In a few words").required();
    words.option("--document", typed.document, "The paper it goes with");
}

void add_extension(Grammar& grammar) {
    auto [words, typed] =
        grammar.command("extend-lot", "Let a lot be used beyond its best-before day", extend_lot);
    words.option("lot", typed.lot, "Lot number, or MILL/LOT").required();
    words.option("--until", typed.until, "The last day on which it may be used").required();
    words.option("--reason", typed.reason, "In a few words").required();
}

} // namespace

void add_judgement_commands(Grammar& grammar) {
    add_release(grammar);
    add_judgement(grammar, "end-concession", "Release a lot for all dough, without its concession",
                  judge<EndConcession>);
    add_judgement(grammar, "hold", "Hold a lot back", judge<HoldLot>);
    add_judgement(grammar, "reject", "Reject a lot", judge<RejectLot>);
    add_return(grammar);
    add_extension(grammar);
}

} // namespace mellowbin::cli
