#include "app/acts/intake.h"

#include "app/acts/arrival.h"
#include "app/acts/certificate_source.h"
#include "app/acts/state.h"
#include "app/book/door.h"
#include "core/decimal.h"
#include "core/typed_text.h"
#include "db/lot_store.h"
#include "exchange/certificate_file.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

std::string ordinal(std::size_t n) {
    const char* tail = n % 100 / 10 == 1 ? "th"
                       : n % 10 == 1     ? "st"
                       : n % 10 == 2     ? "nd"
                       : n % 10 == 3     ? "rd"
                                         : "th";
    return fmt::format("{}{}", n, tail);
}

/// Which lot of a delivery of several a refusal is about: "Lot W24-118: Moisture".
void name_the_lot(Refusals& refusals, const LotDraft& draft, std::size_t place, std::size_t of) {
    if (of < 2)
        return;
    const std::string lot = draft.code.empty() ? ordinal(place + 1) + " lot" : "Lot " + draft.code;
    for (auto& r : refusals)
        r.field = r.field.empty() ? lot : lot + ": " + r.field;
}

/// "taken in all the same: Best before: 2026-11-01 was read, which is over; because the mill was asked"
std::string doubts_in_words(const Lot& lot, const IntakeContext& context, std::string_view reason) {
    std::string words;
    for (const auto& doubt : what_stands_against(lot, context))
        words += fmt::format("{}{}: {}", words.empty() ? "" : "; ", doubt.field, doubt.what);
    return words.empty() ? words
                         : fmt::format("taken in all the same: {}; because: {}", words, trimmed(reason));
}

/// The lot as this person takes it in now, with the movement into its place.
Delivered delivered(const State& state, Lot lot, const DoorOfLots& door) {
    check_at_door(lot, door.at(lot.code));
    lot.state_by = state.setup.person;
    lot.state_at = state.setup.clock.now();
    Movement receipt;
    receipt.kind = MovementKind::receipt;
    receipt.to = lot.received_into;
    receipt.mass = lot.received;
    receipt.at = lot.state_at;
    receipt.who = lot.state_by;
    receipt.note = lot.delivery_note;
    return {std::move(lot), std::move(receipt)};
}

Arrival arrival(const State& state, const Lot& lot, const DoorOfLots& door, const LotDraft& draft,
                const IntakeContext& context) {
    Refusals none; // its lot was accepted with them
    return {delivered(state, lot, door), doubts_in_words(lot, context, draft.accept_reason),
            read_pallets(draft.pallets, none), came_with(draft)};
}

Result<std::vector<Arrival>> accept_all(const State& state, const std::vector<LotDraft>& drafts,
                                        const std::vector<DoorCheckDraft>& checks) {
    const auto context = intake_context(state.book, state.today());
    std::vector<std::string> codes;
    for (const auto& draft : drafts)
        codes.push_back(draft.code);
    const auto door = accept(checks, door_questions(state.book), codes);
    std::vector<Arrival> delivery;
    Refusals refusals;
    if (!door)
        append(refusals, door.refusals());
    std::map<std::string, std::string> seen; // pallets
    for (std::size_t i = 0; i < drafts.size(); ++i) {
        auto lot = accept(drafts[i], context);
        Refusals mine = lot ? Refusals{} : lot.refusals();
        append(mine, why_not_these(state, drafts[i], seen));
        if (mine.empty() && door)
            delivery.push_back(arrival(state, *lot, *door, drafts[i], context));
        name_the_lot(mine, drafts[i], i, drafts.size());
        append(refusals, mine);
    }
    if (!refusals.empty())
        return refusals;
    return delivery;
}

/// "W24-118", "W24-118, W24-119", or how many when they are too many to name.
std::string codes_of(const std::vector<Arrival>& delivery) {
    if (delivery.size() > 5)
        return fmt::format("{} lots", delivery.size());
    std::string codes;
    for (const auto& d : delivery)
        codes += (codes.empty() ? "" : ", ") + d.delivered.lot.code;
    return (delivery.size() == 1 ? "Lot " : "Lots ") + codes;
}

/// What the lot's own line says after its number: held or not, the door, the doubts.
std::string arrival_in_words(const Arrival& arrival, std::string_view kilograms) {
    const Lot& lot = arrival.delivered.lot;
    std::string words = lot.state == LotState::held ? "taken in and put on hold" : "taken in";
    words += kilograms;
    if (const auto door = in_words(lot.door); !door.empty())
        words += ". " + door;
    if (!arrival.doubts.empty())
        words += "; " + arrival.doubts;
    return words;
}

bool is_held(const Arrival& arrival) { return arrival.delivered.lot.state == LotState::held; }

bool have_one_door(const std::vector<Arrival>& delivery) {
    const auto& first = delivery.front().delivered.lot.door;
    return std::all_of(delivery.begin(), delivery.end(),
                       [&](const Arrival& a) { return a.delivered.lot.door == first; });
}

/// Every answer at the door, one a line; under each lot's number where they differ.
std::string door_in_detail(const std::vector<Arrival>& delivery) {
    const bool is_one = have_one_door(delivery);
    std::string words;
    for (const auto& arrival : delivery) {
        if (!is_one)
            words += fmt::format("{}Lot {}", words.empty() ? "" : "\n", arrival.delivered.lot.code);
        for (const auto& check : arrival.delivered.lot.door)
            words += (words.empty() ? "" : "\n") + in_words(check);
        if (is_one)
            break;
    }
    return words;
}

/// Which of the lots the door put on hold, and by what: as one where it is the same for all.
std::string holds_in_words(const std::vector<Arrival>& delivery) {
    if (std::all_of(delivery.begin(), delivery.end(), is_held) && have_one_door(delivery))
        return " and put on hold. " + in_words(delivery.front().delivered.lot.door);
    std::string words;
    for (const auto& arrival : delivery)
        if (is_held(arrival))
            words += fmt::format(". Lot {} put on hold. {}", arrival.delivered.lot.code,
                                 in_words(arrival.delivered.lot.door));
    return words;
}

/// A line of its own for each of several lots.
void tell_each(const State& state, Change& change, const std::vector<Arrival>& delivery,
               const std::vector<LotId>& ids) {
    for (std::size_t i = 0; i < ids.size(); ++i) {
        const Lot& lot = delivery[i].delivered.lot;
        const auto kg = fmt::format(": {} kg", fixed(to_kilograms(lot.received).value(), 1));
        change.also(
            state.journal_line("take_in", Subject("lot " + lot.code, record_of(ids[i])),
                               fmt::format("Lot {} {}", lot.code, arrival_in_words(delivery[i], kg))));
    }
}

Result<Told> take_in_all(State& state, const std::vector<Arrival>& delivery, const std::string& detail,
                         const OfDelivery& of) {
    const auto coming = read_deliveries(state, delivery, of);
    if (!coming)
        return coming.refusals();
    const std::string codes = codes_of(delivery);
    const Lot& first = delivery.front().delivered.lot;
    const bool is_one = delivery.size() == 1;
    Change change = state.change("take_in", is_one ? subject_of(first) : Subject("delivery"), "");
    std::vector<Delivered> lots;
    std::vector<CameWith> certificates;
    for (const auto& arrival : delivery) {
        lots.push_back(arrival.delivered);
        certificates.push_back(arrival.certificate);
    }
    auto ids = LotStore(*state.connection).take_in(change, lots);
    if (!ids)
        return change.refuse(ids.refusals());
    const auto not_kept = tie_certificates(state, change, *ids, certificates);
    if (!not_kept)
        return change.refuse(not_kept.refusals());
    const auto whole = write_deliveries(state, change, *coming, delivery, *ids, of);
    if (!whole)
        return change.refuse(whole.refusals());
    const std::string told = fmt::format("{} taken in{}{}", codes, holds_in_words(delivery), whole->words);
    change.journal_line().words =
        is_one ? fmt::format("{} {}{}", codes, arrival_in_words(delivery.front(), ""), whole->words) : told;
    change.journal_line().detail = detail + *not_kept;
    if (is_one)
        change.journal_line().about = record_of(ids->front());
    else
        tell_each(state, change, delivery, *ids);
    change.commit();
    Intents undoing{WithdrawLots{*ids}};
    undoing.insert(undoing.end(), whole->putting_back.begin(), whole->putting_back.end());
    return Told{told + *not_kept, Touched::nothing, fmt::format("Undo: withdraw {}", codes),
                std::move(undoing)};
}

} // namespace

Result<Told> carry_out(State& state, const TakeIn& intent) {
    if (intent.lots.empty())
        return Refusal{"Delivery", "has no lot", "Enter the first lot of the delivery"};
    auto lots = intent.lots;
    std::vector<LotDraft*> drafts;
    for (auto& lot : lots)
        drafts.push_back(&lot);
    const auto no_lot = add_pallets(intent.pallets, drafts);
    const auto delivery = accept_all(state, lots, intent.door);
    if (!delivery || !no_lot.empty()) {
        auto refusals = delivery ? Refusals{} : delivery.refusals();
        append(refusals, no_lot);
        append(refusals, faults_of(state, intent.delivery));
        return refusals;
    }
    auto told = take_in_all(state, *delivery, door_in_detail(*delivery), intent.delivery);
    if (told)
        ++state.intake.taken_in;
    return told;
}

Result<Told> carry_out(State& state, const TakeInFile& intent) {
    auto file = read_our_file(state, intent.path, intent.defaults);
    if (!file)
        return file.refusals();
    std::vector<std::string> codes;
    for (const auto& line : file->lines)
        codes.push_back(line.draft.code);
    const auto door = accept(intent.door, door_questions(state.book), codes);
    if (!door)
        return door.refusals();
    std::vector<LotDraft*> drafts;
    for (auto& line : file->lines) {
        line.draft.accept_reason = intent.defaults.accept_reason;
        drafts.push_back(&line.draft);
    }
    if (auto refusals = add_pallets(intent.pallets, drafts); !refusals.empty())
        return refusals;
    const bool leaves_out = intent.faulty_lines == FaultyLines::leave_out;
    const auto context = intake_context(state.book, state.today());
    const auto lots = accept_certificates(
        *file, context, leaves_out ? OnRefusedLine::take_the_good : OnRefusedLine::take_nothing);
    state.intake.file_refusals = with_line_numbers(lots.refused);
    if (!lots.refused.empty() && (!leaves_out || lots.lots.empty()))
        return state.intake.file_refusals;
    if (lots.lots.empty())
        return Refusal{"Certificate file", "has no line with a lot", "Check the file"};
    std::vector<Arrival> delivery;
    std::vector<RefusedLine> refused;
    std::map<std::string, std::string> seen; // pallets
    auto at = file->lines.begin();
    for (const auto& [number, lot] : lots.lots) {
        at = std::find_if(at, file->lines.end(),
                          [&, &wanted = number](const auto& l) { return l.line == wanted; });
        if (const auto why = why_not_these(state, at->draft, seen); !why.empty())
            refused.push_back({number, why});
        delivery.push_back(arrival(state, lot, *door, at->draft, context));
    }
    if (!refused.empty())
        return with_line_numbers(refused);
    const auto door_words = door_in_detail(delivery);
    auto of = intent.delivery;
    if (!lots.refused.empty())
        of.rest = Rest::follows; // the lines left out are mended and taken in later
    return take_in_all(
        state, delivery,
        fmt::format("taken in from {}{}{}", intent.path, door_words.empty() ? "" : "\n", door_words), of);
}

} // namespace mellowbin::app
