#include "app/book/book.h"
#include "app/book/settings.h"
#include "app/book/station.h"
#include "app/models/card.h"
#include "app/models/card_words.h"
#include "app/models/run_card.h"
#include "core/decimal.h"
#include "core/house_units.h"
#include "dough/card_changes.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::app {
namespace {

std::string codes_beside(const std::vector<dough::CardFlour>& these,
                         const std::vector<dough::CardFlour>& others) {
    std::string codes;
    for (const auto& flour : these)
        if (std::none_of(others.begin(), others.end(),
                         [&](const auto& other) { return other.lot == flour.lot; }))
            codes += (codes.empty() ? "" : ", ") + flour.code;
    return codes;
}

std::string change_words(const dough::Card& now, const dough::Card& then) {
    const auto in = codes_beside(then.flour, now.flour);
    const auto out = codes_beside(now.flour, then.flour);
    if (in.empty())
        return fmt::format("without lot {}", out);
    return out.empty() ? fmt::format("lot {} comes in", in) : fmt::format("lot {} in place of {}", in, out);
}

/// A line of what changes; nothing is said of what stays as it is read.
void compare(const Figure& now, const Figure& then, CardChange& change) {
    if (shown(now).value != shown(then).value)
        change.lines.push_back({then, now});
}

CardChange change_of(const RunCard& made, const dough::ChangeAhead& ahead, const dough::Card& now,
                     int batch) {
    const auto is = told_figures(made, now);
    const auto then = told_figures(made, ahead.card);
    CardChange change;
    change.batch = batch + ahead.batches_on;
    change.words = change_words(now, ahead.card);
    compare(is.water, then.water, change);
    compare(is.water_temperature, then.water_temperature, change);
    compare(is.ice, then.ice, change);
    if (!then.oxidant.label.empty())
        compare(is.oxidant, then.oxidant, change);
    return change;
}

std::string mass_words(const Book& book, const Batch& batch, const HouseUnits& house) {
    std::string words;
    for (const auto& part : batch.flour) {
        const Lot* lot = book.lot(part.lot);
        words += fmt::format("{}{} {}", words.empty() ? "" : ", ", lot ? lot->code : "?",
                             house.with_unit(to_kilograms(part.mass)));
    }
    words += fmt::format("; water {}", house.with_unit(batch.water));
    if (batch.water_temperature)
        words += fmt::format(" at {}", house.with_unit(*batch.water_temperature));
    if (batch.ice.value() > 0)
        words += fmt::format(", ice {}", house.with_unit(batch.ice));
    if (batch.oxidant && batch.dose.value() > 0)
        words += fmt::format("; {} {} mg/kg{}{}", name_of(*batch.oxidant), fixed(batch.dose.value(), 1),
                             batch.poured_ml > 0 ? fmt::format(" as {} mL", fixed(batch.poured_ml, 0)) : "",
                             batch.checked_by.empty() ? "" : ", checked by " + batch.checked_by);
    if (!batch.answer.empty())
        words += fmt::format("; mixed all the same: {}", batch.answer);
    return words;
}

std::string result_words(const BatchResult& result, const HouseUnits& house) {
    std::string words;
    const auto add = [&](const std::string& part) { words += (words.empty() ? "" : ", ") + part; };
    if (result.dough_temperature)
        add(house.with_unit(*result.dough_temperature));
    if (result.ph)
        add(fmt::format("pH {}", fixed(*result.ph, 2)));
    if (result.feel)
        add(std::string(key_of(*result.feel)));
    if (result.mixing_minutes)
        add(fmt::format("{:g} min mixed", *result.mixing_minutes));
    if (result.fermentation_minutes)
        add(fmt::format("{} min fermented", *result.fermentation_minutes));
    if (!result.note.empty())
        add(result.note);
    return words;
}

ResultDraft draft_of(const BatchResult& result, const HouseUnits& house) {
    ResultDraft draft;
    if (result.dough_temperature)
        draft.dough_temperature = house.words(*result.dough_temperature);
    if (result.ph)
        draft.ph = fixed(*result.ph, 2);
    if (result.feel)
        draft.feel = key_of(*result.feel);
    if (result.mixing_minutes)
        draft.mixing_minutes = fmt::format("{:g}", *result.mixing_minutes);
    if (result.fermentation_minutes)
        draft.fermentation_minutes = std::to_string(*result.fermentation_minutes);
    draft.note = result.note;
    return draft;
}

} // namespace

void show_ahead(const RunCard& made_from, const dough::Card& card, CardModel& model) {
    const int left = model.batches - model.batch + 1;
    if (left <= 1)
        return;
    const auto ahead = dough::change_ahead(made_from.input, card, left);
    if (ahead)
        model.change = change_of(made_from, *ahead, card, model.batch);
    const bool is_next = ahead && ahead->batches_on == 1;
    model.next_words = is_next ? fmt::format("Batch {} is another: {}", model.batch + 1, model.change->words)
                       : ahead ? fmt::format("Batch {} is the same; from batch {} on {}", model.batch + 1,
                                             model.change->batch, model.change->words)
                       : left == 2
                           ? fmt::format("Batch {} is the same, and the last one", model.batch + 1)
                           : fmt::format("Batches {} to {} are the same", model.batch + 1, model.batches);
}

void show_logged(const Station& s, const Run& run, CardModel& model) {
    const HouseUnits house = house_units(s.book.settings);
    for (const auto* batch : s.book.batches_of(run.id)) {
        BatchRow row;
        row.id = batch->id;
        row.number = batch->number;
        row.at = s.setup.clock.in_words(batch->at, s.today());
        row.who = batch->who;
        row.words = mass_words(s.book, *batch, house);
        row.result_words = result_words(batch->result, house);
        row.result = draft_of(batch->result, house);
        row.is_countered = batch->is_countered;
        model.logged.push_back(std::move(row));
    }
    std::reverse(model.logged.begin(), model.logged.end());
}

} // namespace mellowbin::app
