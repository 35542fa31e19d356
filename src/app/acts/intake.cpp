#include "app/acts/intake.h"

#include "app/acts/certificate_source.h"
#include "app/acts/intent.h"
#include "app/acts/state.h"
#include "app/book/door.h"
#include "core/decimal.h"
#include "core/typed_text.h"
#include "db/lot_store.h"
#include "db/movement_store.h"
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

/// A lot of a delivery, and what was said of it on the way.
struct Arrival {
    Delivered delivered;
    std::string doubts; ///< taken in all the same, and why; empty: nothing stood against it
    CameWith certificate = {};
};

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

Result<std::vector<Arrival>> accept_all(const State& state, const TakeIn& intent) {
    const auto& drafts = intent.lots;
    const auto context = intake_context(state.book, state.today());
    std::vector<std::string> codes;
    for (const auto& draft : drafts)
        codes.push_back(draft.code);
    const auto door = accept(intent.door, door_questions(state.book), codes);
    std::vector<Arrival> delivery;
    Refusals refusals;
    if (!door)
        append(refusals, door.refusals());
    for (std::size_t i = 0; i < drafts.size(); ++i) {
        auto lot = accept(drafts[i], context);
        if (!lot) {
            Refusals mine = lot.refusals();
            name_the_lot(mine, drafts[i], i, drafts.size());
            append(refusals, mine);
            continue;
        }
        if (door)
            delivery.push_back({delivered(state, *lot, *door),
                                doubts_in_words(*lot, context, drafts[i].accept_reason),
                                came_with(drafts[i])});
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

Result<Told> take_in_all(State& state, const std::vector<Arrival>& delivery, const std::string& detail) {
    const std::string codes = codes_of(delivery);
    const Lot& first = delivery.front().delivered.lot;
    const bool is_one = delivery.size() == 1;
    const std::string told = fmt::format("{} taken in{}", codes, holds_in_words(delivery));
    Change change = state.change("take_in", is_one ? subject_of(first) : Subject("delivery"), "");
    change.journal_line().words =
        is_one ? fmt::format("{} {}", codes, arrival_in_words(delivery.front(), "")) : told;
    change.journal_line().detail = detail;
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
        return not_kept.refusals();
    change.journal_line().detail += *not_kept;
    if (is_one)
        change.journal_line().about = record_of(ids->front());
    for (std::size_t i = 0; i < ids->size() && !is_one; ++i) {
        const Lot& lot = lots[i].lot;
        const auto kg = fmt::format(": {} kg", fixed(to_kilograms(lot.received).value(), 1));
        change.also(
            state.journal_line("take_in", Subject("lot " + lot.code, record_of((*ids)[i])),
                               fmt::format("Lot {} {}", lot.code, arrival_in_words(delivery[i], kg))));
    }
    change.commit();
    return Told{
        told + *not_kept, Touched::nothing, fmt::format("Undo: withdraw {}", codes), {WithdrawLots{*ids}}};
}

/// The certificate of the lot on this line of the file.
CameWith certificate_on(const CertificateFile& file, std::size_t line) {
    const auto at = std::find_if(file.lines.begin(), file.lines.end(),
                                 [&](const CertificateLine& one) { return one.line == line; });
    return at == file.lines.end() ? CameWith() : came_with(at->draft);
}

} // namespace

Result<Told> carry_out(State& state, const TakeIn& intent) {
    if (intent.lots.empty())
        return Refusal{"Delivery", "has no lot", "Enter the first lot of the delivery"};
    const auto delivery = accept_all(state, intent);
    if (!delivery)
        return delivery.refusals();
    auto told = take_in_all(state, *delivery, door_in_detail(*delivery));
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
    for (auto& line : file->lines)
        line.draft.accept_reason = intent.defaults.accept_reason;
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
    for (const auto& [line, lot] : lots.lots)
        delivery.push_back({delivered(state, lot, *door),
                            doubts_in_words(lot, context, intent.defaults.accept_reason),
                            certificate_on(*file, line)});
    const auto door_words = door_in_detail(delivery);
    return take_in_all(
        state, delivery,
        fmt::format("taken in from {}{}{}", intent.path, door_words.empty() ? "" : "\n", door_words));
}

Result<Told> carry_out(State& state, const WithdrawLots& intent) {
    Change change = state.change("withdraw_lots", "delivery", "");
    std::string codes;
    Refusals refusals;
    for (const LotId id : intent.lots) {
        const Lot* lot = state.book.lot(id);
        if (!lot)
            continue;
        codes += (codes.empty() ? "" : ", ") + lot->code;
        for (const Movement* m : state.book.movements_of(id)) {
            if (m->kind != MovementKind::receipt || m->counters)
                continue;
            const auto counter =
                countering(*m, state.setup.person, state.setup.clock.now(), "taken in by mistake");
            const auto written = MovementStore(*state.connection).append(change, counter);
            if (!written)
                append(refusals, written.refusals());
        }
        const auto state_now =
            LotStore(*state.connection).set_state(change, id, LotState::rejected, "taken in by mistake");
        if (!state_now)
            append(refusals, state_now.refusals());
        change.also(state.journal_line("withdraw_lots", subject_of(*lot),
                                       fmt::format("Lot {} withdrawn", lot->code)));
    }
    if (codes.empty())
        return change.refuse(Refusal{"Lot", "is not in the book", ""});
    if (!refusals.empty())
        return change.refuse(refusals);
    change.journal_line().words = fmt::format("{} withdrawn: taken in by mistake", codes);
    change.commit();
    return Told{change.journal_line().words};
}

} // namespace mellowbin::app
