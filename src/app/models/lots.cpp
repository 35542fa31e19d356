#include "app/models/lots.h"

#include "app/book/book.h"
#include "app/book/clock_words.h"
#include "app/book/settings.h"
#include "app/book/station.h"
#include "app/models/aging_words.h"
#include "app/models/deliveries.h"
#include "app/models/lot_agreements.h"
#include "app/models/lot_history.h"
#include "app/models/lot_movements.h"
#include "app/models/lot_results.h"
#include "app/models/lot_verdict.h"
#include "core/decimal.h"
#include "core/door.h"
#include "db/certificate_source_store.h"
#include "dough/oxidant.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace mellowbin::app {
namespace {

std::string additions_in_words(const std::vector<MillAddition>& additions) {
    std::string words;
    for (const auto& a : additions)
        words +=
            fmt::format("{}{} {:g} mg/kg", words.empty() ? "" : ", ", name_of(a.substance), a.dose.value());
    return words;
}

std::string places_in_words(const Book& book, LotId lot) {
    std::string words;
    for (const auto& [place, mass] : book.stock.places_of(lot))
        words += (words.empty() ? "" : ", ") + book.name(place);
    return words;
}

LotRow row_of(const Station& s, const Lot& lot) {
    const auto& outlook = s.estimates.outlook_today(lot.id);
    const Mill* mill = s.book.mill(lot.mill);
    const Flour* flour = s.book.flour(lot.flour);
    LotRow row;
    row.id = lot.id;
    row.code = lot.code;
    row.mill = mill ? mill->name : "?";
    row.flour = flour ? flour->name : "?";
    row.state = lot.state;
    row.delivered_on = lot.delivered_on;
    row.milled_on = lot.milled_on;
    row.stock_kg = to_kilograms(s.book.stock.total(lot.id)).value();
    row.places = places_in_words(s.book, lot.id);
    row.protein_14 = comparable_at_14(lot.certificate, Property::protein);
    row.absorption_14 = comparable_at_14(lot.certificate, Property::absorption);
    row.falling_number_s = comparable_at_14(lot.certificate, Property::falling_number);
    if (const auto moisture = lot.certificate.moisture())
        row.moisture = moisture->value();
    row.mill_additions = additions_in_words(lot.mill_additions);
    row.readiness = shown(outlook.now);
    row.probability_mature = outlook.probability_mature;
    row.ready_on = outlook.turns.mature_from;
    row.past_best_on = outlook.turns.past_best_from;
    row.changed = s.changed_elsewhere(record_of(lot.id));
    row.standing = standing_of(s.book, lot, s.today());
    return row;
}

/// What stands against the lot in a product of its flour; empty: nothing.
std::string misfit(const Certificate& certificate, const Product& product) {
    std::string words;
    for (const auto& judgement : judge(certificate, product.windows)) {
        if (judgement.verdict == Verdict::inside)
            continue;
        words += fmt::format("{}{} {}", words.empty() ? "" : "; ", traits(judgement.window.property).name,
                             judgement.words);
    }
    return words;
}

std::vector<std::string> fits_of(const Book& book, const Lot& lot) {
    std::vector<std::string> fits;
    for (const auto& product : book.products) {
        if (product.flour != lot.flour)
            continue;
        const std::string words = misfit(lot.certificate, product);
        fits.push_back(fmt::format("{}: {}", product.name,
                                   words.empty() ? "inside its specification by itself" : words));
    }
    return fits;
}

std::vector<CheckedWindow> windows_of(const Book& book, const Lot& lot) {
    std::vector<CheckedWindow> windows;
    const Flour* flour = book.flour(lot.flour);
    if (!flour)
        return windows;
    for (const auto& judgement : judge(lot.certificate, flour->specification))
        windows.push_back({judgement, judgement.window.low, judgement.window.high});
    return windows;
}

/// Those that stand, the newest first.
std::vector<JudgedRetest> judged_retests(const Book& book, const Lot& lot) {
    const Flour* flour = book.flour(lot.flour);
    std::vector<JudgedRetest> judged;
    for (const Retest* retest : standing_retests(book, lot.id)) {
        auto& one = judged.emplace_back(
            JudgedRetest{retest->id,
                         retest->taken_on,
                         fmt::format("Retest of {}, {}", iso(retest->taken_on), retest->who),
                         {}});
        for (const auto& judgement : judge(retest->results, flour ? flour->specification : Specification{}))
            if (judgement.verdict != Verdict::missing)
                one.windows.push_back({judgement, judgement.window.low, judgement.window.high});
    }
    return judged;
}

/// How results stand against the specification: what is outside in full, then what cannot be compared, then
/// how many are inside.
Finding finding_of(const std::string& whose, const std::vector<CheckedWindow>& windows) {
    std::string outside, unsure;
    int inside = 0;
    for (const auto& checked : windows) {
        const auto& judgement = checked.judgement;
        const bool is_outside = judgement.verdict == Verdict::below || judgement.verdict == Verdict::above;
        if (judgement.verdict == Verdict::inside)
            ++inside;
        else {
            auto& words = is_outside ? outside : unsure;
            words += fmt::format("{}{} {}", words.empty() ? "" : "; ", traits(judgement.window.property).name,
                                 judgement.words);
        }
    }
    if (!outside.empty())
        return {Finding::Weight::against, fmt::format("{}: out of specification: {}{}{}", whose, outside,
                                                      unsure.empty() ? "" : "; ", unsure)};
    if (!unsure.empty())
        return {Finding::Weight::mind, fmt::format("{}: {}", whose, unsure)};
    if (inside == 0)
        return {Finding::Weight::mind, fmt::format("{}: nothing that the specification asks for", whose)};
    return {Finding::Weight::well, fmt::format("{}: inside the specification", whose)};
}

std::vector<Finding> results_of(const LotSheet& sheet) {
    std::vector<Finding> results;
    for (const auto& retest : sheet.retests)
        results.push_back(finding_of(retest.words, retest.windows));
    results.push_back(finding_of("Certificate", sheet.windows));
    return results;
}

std::vector<Finding> door_of(const Lot& lot) {
    std::vector<Finding> door;
    for (const auto& check : lot.door)
        door.push_back({check.answer == DoorAnswer::yes  ? Finding::Weight::well
                        : check.answer == DoorAnswer::no ? Finding::Weight::against
                                                         : Finding::Weight::mind,
                        in_words(check)});
    return door;
}

std::string best_before_in_words(const Lot& lot) {
    if (!lot.best_before)
        return {};
    const std::string printed = fmt::format("Best before {}", iso(*lot.best_before));
    if (!lot.extension)
        return printed;
    return fmt::format("{}, may be used until {} by {}: {}", printed, iso(lot.extension->until),
                       lot.extension->by, lot.extension->reason);
}

void tell_days_and_door(const Station& s, const Lot& lot, LotSheet& sheet) {
    sheet.best_before = lot.best_before;
    sheet.last_day = last_day(lot);
    sheet.best_before_words = best_before_in_words(lot);
    sheet.is_over = sheet.last_day && *sheet.last_day < s.today();
    if (lot.delivered_at)
        sheet.delivered_words =
            fmt::format("The flour came at {}", house_units(s.book.settings).with_unit(*lot.delivered_at));
    sheet.door = door_of(lot);
    const DeliveryStore deliveries(*s.connection);
    if (const auto came = deliveries.of_lot(lot.id)) {
        sheet.came_words = came_in_words(make_delivery_head(s, *deliveries.find(*came)));
        sheet.came_with = came;
        sheet.pallets = deliveries.pallets_of(lot.id);
    }
}

std::vector<FlourOut> out_of(const Book& book, LotId lot) {
    std::vector<FlourOut> out;
    for (const auto& [run, mass] : book.out_of(lot))
        out.push_back({run, run ? book.code_of(*run) : "no run", to_kilograms(mass).value()});
    return out;
}

/// Where it stands otherwise than its state says, that comes first.
std::string state_in_words(const Lot& lot, const LotStanding& standing) {
    return fmt::format(
        "{}{}{}{}{} by {} on {}", standing.words.empty() ? std::string() : name_of(lot.state, standing),
        standing.words.empty() ? "" : ". ", name_of(lot.state), lot.state_reason.empty() ? "" : ": ",
        lot.state_reason, lot.state_by, iso(lot.state_at).substr(0, 10));
}

void tell_concession(const Station& s, const Lot& lot, LotSheet& sheet) {
    for (const auto& product : s.book.products)
        if (!product.is_retired && part_of(product, lot.flour))
            sheet.products.push_back(product.name);
    if (!lot.concession)
        return;
    const auto& conceded = *lot.concession;
    sheet.concession = ConcessionShown{conceded.deviation,
                                       conceded.by,
                                       products_in_words(conceded, s.book.products),
                                       conceded.until,
                                       conceded.until < s.today(),
                                       draft_of(conceded, s.book.products)};
}

void tell_state(const Station& s, const Lot& lot, LotSheet& sheet) {
    sheet.state_words = state_in_words(lot, sheet.row.standing);
    sheet.state_since = plant_day(s.setup.clock, lot.state_at);
    sheet.state_reason = lot.state_reason;
    sheet.state_by = lot.state_by;
    sheet.certified_on = lot.certified_on;
    sheet.bag_kg = to_kilograms(lot.bag).value();
}

std::vector<CurveDay> curve_of(const aging::Estimate& estimate, const Lot& lot, Day today) {
    const Day first = lot.milled_on.value_or(lot.delivered_on);
    const int days = std::clamp(static_cast<int>((today - first).count()) + 45, 60, 240);
    std::vector<CurveDay> curve;
    for (const auto& day : aging::curve(estimate, first, days))
        curve.push_back({day.day, day.low.value(), day.likely.value(), day.high.value()});
    return curve;
}

/// The certificate it came with, as it was kept.
void tell_source(const Station& s, const Lot& lot, LotSheet& sheet) {
    const auto source = CertificateSourceStore(*s.connection).of(lot.id);
    if (!source)
        return;
    sheet.certificate_file = source->name;
    sheet.certificate_words =
        fmt::format("{}{}{}, kept {} by {}", source->name, source->place.empty() ? "" : ", ", source->place,
                    time_in_words(s.setup.clock, source->kept_at, s.today()), source->kept_by);
}

LotSheet sheet_of(const Station& s, const Lot& lot) {
    const auto& estimate = s.estimates.of(lot.id);
    const auto& outlook = s.estimates.outlook_today(lot.id);
    LotSheet sheet;
    sheet.row = row_of(s, lot);
    sheet.mill = lot.mill;
    sheet.own_test = own_test_advice(s, lot);
    tell_state(s, lot, sheet);
    sheet.certificate = lot.certificate;
    tell_source(s, lot, sheet);
    sheet.windows = windows_of(s.book, lot);
    sheet.retests = judged_retests(s.book, lot);
    sheet.results = results_of(sheet);
    sheet.failing = failing_results(s.book, lot);
    sheet.agreements = lot_agreements(s, lot);
    tell_concession(s, lot, sheet);
    tell_days_and_door(s, lot, sheet);
    sheet.out = out_of(s.book, lot.id);
    sheet.fits = fits_of(s.book, lot);
    for (const auto& [place, mass] : s.book.stock.places_of(lot.id))
        sheet.places.push_back({place, s.book.name(place), to_kilograms(mass).value()});
    sheet.movements = movement_rows(s, lot.id);
    sheet.history = lot_history(s, lot.id);
    sheet.curve = curve_of(estimate, lot, s.today());
    for (const auto reservation : estimate.reservations(s.today()))
        sheet.reservations.push_back(aging::in_words(reservation));
    for (const auto to : {LotState::released, LotState::held, LotState::rejected})
        if (may_become(lot.state, to))
            sheet.state_choices.emplace_back(key_of(to));
    sheet.ladders = make_ladders(s, lot.id);
    for (const Substance substance : all_substances())
        if (substance == Substance::ascorbic_acid || dough::mg_per_milliequivalent(substance))
            sheet.substances.emplace_back(name_of(substance));
    sheet.ready = shown(outlook.mature);
    sheet.past_best = shown(outlook.past_best);
    sheet.verdict = lot_verdict(sheet, s.today());
    return sheet;
}

} // namespace

void make_lots(const Station& s, LotsModel& model) {
    ++model.made;
    model.rows.clear();
    model.rows.reserve(s.book.lots.size());
    for (auto lot = s.book.lots.rbegin(); lot != s.book.lots.rend(); ++lot)
        if (s.book.is_live(lot->id))
            model.rows.push_back(row_of(s, *lot));
    model.places.clear();
    for (const auto& place : s.book.places)
        if (!place.is_retired)
            model.places.emplace_back(place.id, place.name);
}

std::optional<LotSheet> make_lot_sheet(const Station& s, LotId id) {
    const Lot* lot = id.is_known() && !s.book.is_aside(id) ? s.book.lot(id) : nullptr;
    return lot ? std::optional(sheet_of(s, *lot)) : std::nullopt;
}

} // namespace mellowbin::app
