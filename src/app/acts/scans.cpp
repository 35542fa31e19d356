#include "app/acts/scans.h"

#include "app/acts/draws.h"
#include "app/acts/intent.h"
#include "app/acts/scan_reading.h"
#include "app/acts/state.h"
#include "app/models/run_card.h"
#include "core/typed_text.h"
#include "db/scan_store.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

/// A bag of the card's lot of this number, the one that was not scanned yet where several have it.
const dough::CardFlour* flour_of(const RunCard& made, const std::string& code) {
    if (!made.card)
        return nullptr;
    const auto& scanned = made.input.bags.right;
    const dough::CardFlour* found = nullptr;
    for (const auto& one : made.card->flour) {
        const bool is_scanned = std::find(scanned.begin(), scanned.end(), one.lot) != scanned.end();
        if (one.code == code && (!found || !is_scanned))
            found = &one;
    }
    return found;
}

std::string scanned_words(const RunCard& made, LotId with) {
    auto scanned = made.input.bags.right;
    scanned.push_back(with);
    const auto& flour = made.card->flour;
    const auto count = std::count_if(flour.begin(), flour.end(), [&](const dough::CardFlour& one) {
        return std::find(scanned.begin(), scanned.end(), one.lot) != scanned.end();
    });
    return fmt::format("{} of {} scanned", count, flour.size());
}

Refusal wrong_bag(const RunCard& made, const std::string& code) {
    std::string codes;
    if (made.card)
        for (const auto& one : made.card->flour)
            codes += (codes.empty() ? "" : ", ") + one.code;
    return {"Bag",
            fmt::format("STOP: lot {} is not on this card; {} is expected", excerpt(code),
                        codes.empty() ? "no lot" : codes),
            "Put the bag back. If it was tipped, keep the dough back and tell quality staff"};
}

} // namespace

Result<Told> carry_out(State& state, const ScanBag& intent) {
    const auto card = run_card(state, intent.run);
    if (!card)
        return card.refusals();
    const RunCard& made = **card;
    if (made.is_finished)
        return Refusal{"Batch", "all batches of this run are mixed", "Choose the next run"};
    const auto scanned = read_bytes(state.book.settings, intent.scan);
    if (!scanned)
        return scanned.refusals();
    const auto& lot_number = scanned->lot;
    if (lot_number.empty())
        return Refusal{"Bag",
                       fmt::format("\"{}\" was read, in which there is no lot number", excerpt(intent.scan)),
                       "Scan the label with the lot, or type the lot number"};
    const auto& doubt = scanned->doubt;
    if (doubt && !flour_of(made, doubt->as_read) && flour_of(made, doubt->otherwise))
        return Refusal{"Bag",
                       fmt::format("\"{}\" was read: lot {} and the separator behind it lost?",
                                   doubt->as_read, doubt->otherwise),
                       "Type the lot number as it is printed, and have the scanner set to send separators"};
    const auto* flour = flour_of(made, lot_number);
    if (!flour)
        for (const auto& place : state.book.places)
            if (same_words(place.name, lot_number))
                return carry_out(state, DrawFrom{intent.run, {}, place.name});
    const Run& run = made.input.run;
    const auto where = fmt::format("Run {}, batch {}", run.code, made.batch);
    const auto wrong = wrong_bag(made, lot_number);
    Change change =
        state.change("scan_bag", subject_of(run),
                     flour ? fmt::format("{}: a bag of lot {} was scanned", where, flour->code)
                           : fmt::format("{}: a wrong bag was scanned, lot {}", where, excerpt(lot_number)));
    change.journal_line().detail = "scanned: " + excerpt(intent.scan);
    BagScan scan;
    scan.run = run.id;
    scan.batch = made.batch;
    scan.code = lot_number;
    if (flour)
        scan.lot = flour->lot;
    ScanStore(*state.connection).log(change, scan);
    change.commit();
    if (!flour)
        return wrong;
    return Told{fmt::format("Lot {} is right for batch {}: {}", flour->code, made.batch,
                            scanned_words(made, flour->lot)),
                Touched::opened_run};
}

Result<Told> carry_out(State& state, const ClearBags& intent) {
    const auto card = run_card(state, intent.run);
    if (!card)
        return card.refusals();
    const RunCard& made = **card;
    const Run& run = made.input.run;
    const std::string by(trimmed(intent.by));
    const std::string reason(trimmed(intent.reason));
    Refusals refusals;
    if (by.empty())
        refusals.push_back({"Cleared by", "is empty; the name of somebody of quality is expected",
                            "Have quality staff look at the bowl and enter the name"});
    if (reason.empty())
        refusals.push_back({"Reason", "is empty", "Say what was looked at, in a few words"});
    if (made.input.bags.wrong.empty())
        refusals.push_back({"Bag", "no wrong bag stands against this batch", "Look at the card again"});
    if (!refusals.empty())
        return refusals;
    std::string codes;
    for (const auto& wrong : made.input.bags.wrong)
        codes += (codes.empty() ? "" : ", ") + wrong.code;
    Change change = state.change("clear_bags", subject_of(run),
                                 fmt::format("Run {}, batch {}: the wrong bag of lot {} cleared by {}: {}",
                                             run.code, made.batch, codes, by, reason));
    for (const BagScan* scan : state.book.scans_of(run.id, made.batch))
        if (!scan->lot && scan->cleared_by.empty())
            if (const auto done = ScanStore(*state.connection).clear(change, scan->id, by, reason); !done)
                return done.refusals();
    change.commit();
    ++state.batches_logged;
    return Told{change.journal_line().words};
}

} // namespace mellowbin::app
