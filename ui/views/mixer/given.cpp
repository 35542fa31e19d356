#include "ui/views/mixer/given.h"

#include "app/acts/batches.h"
#include "app/acts/notice.h"
#include "app/models/card.h"
#include "ui/views/common/day_words.h"
#include "ui/views/mixer/card.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

namespace mellowbin::views {
namespace {

using namespace ui::literals;

std::string label_of(const app::CardLot& lot) { return "Lot " + lot.code; }

/// Nought, however it is typed.
bool is_nothing(std::string_view text) {
    return !text.empty() && text.find_first_not_of("0.,") == std::string_view::npos;
}

std::string& mass_of(app::BatchDraft& draft, LotId lot) {
    const auto at = std::find_if(draft.flour.begin(), draft.flour.end(),
                                 [&](const app::FlourGiven& given) { return given.lot == lot; });
    if (at != draft.flour.end())
        return at->mass;
    draft.flour.push_back({lot, {}});
    return draft.flour.back().mass;
}

/// Of the lot that is not on the card, by the number that was scanned or typed.
app::FlourGiven& other_of(app::BatchDraft& draft) {
    const auto at = std::find_if(draft.flour.begin(), draft.flour.end(),
                                 [](const app::FlourGiven& given) { return !given.lot.is_known(); });
    if (at != draft.flour.end())
        return *at;
    return draft.flour.emplace_back();
}

bool is_empty(const app::FlourGiven& given) { return given.mass.empty() && given.code.empty(); }

app::BatchDraft draft_of(const GivenForm& form, const app::CardModel& card) {
    const auto at = form.drafts.find(shown_batch(card));
    return at == form.drafts.end() ? app::BatchDraft{} : at->second;
}

bool is_blank(std::string_view text) { return text.find_first_not_of(' ') == std::string_view::npos; }

/// A reason is asked for: by the card, or by what was refused of what was typed.
bool asks_reason(const app::CardModel& card, const app::BatchDraft& draft, const Refusals& refusals) {
    return card.verdict.ruling == app::CardVerdict::Ruling::answer_first || !is_blank(draft.answer) ||
           std::any_of(refusals.begin(), refusals.end(),
                       [](const Refusal& one) { return one.field == "Reason"; });
}

/// Oxidant goes in by the card, or by what was typed in its place.
bool takes_oxidant(const app::BatchDraft& draft, const app::CardModel& card, WentIn what) {
    if (card.oxidant.label.empty())
        return false;
    if (what == WentIn::as_typed && !draft.oxidant.empty())
        return !is_nothing(draft.oxidant);
    return card.oxidant.value.value_or(0) > 0;
}

void fields(app::BatchDraft& draft, const app::CardModel& card, const Refusals& refusals, bool asks_who) {
    const auto number = [&](std::string_view label, std::string_view unit, std::string_view told,
                            std::string& text) {
        ui::number_field({.label = label, .unit = unit, .hint = told, .refusals = &refusals, .width = 9_em},
                         text);
    };
    const auto told = [&](std::string_view label, const app::Figure& figure, std::string& text) {
        const auto [value, unit] = app::shown(figure, card.units);
        number(label, unit, value, text);
    };
    ui::grid(14_em, [&] {
        for (const auto& lot : card.lots)
            number(label_of(lot), card.units.mass(),
                   lot.is_withheld ? std::string("withheld") : house_mass(card, lot.kg),
                   mass_of(draft, lot.lot));
        const auto named = ui::text_field({.label = "Another lot",
                                           .hint = "scan or number",
                                           .refusals = &refusals,
                                           .enter = ui::Enter::entered},
                                          other_of(draft).code);
        if (named.entered && !other_of(draft).code.empty()) // a scan ends so: it must not confirm by itself
            ui::focus("Its mass");
        if (!other_of(draft).code.empty())
            number("Its mass", card.units.mass(), "", other_of(draft).mass);
        told("Water", card.water, draft.water);
        told("Water temperature", card.water_temperature, draft.water_temperature);
        told("Ice", card.ice, draft.ice);
        if (!card.oxidant.label.empty())
            told("Oxidant", card.oxidant, draft.oxidant);
        if (asks_who)
            ui::text_field({.label = "Checked by", .hint = "second person", .refusals = &refusals},
                           draft.checked_by);
        if (asks_reason(card, draft, refusals))
            ui::whole_row([&] {
                ui::text_field({.label = "Reason", .hint = "why it was mixed so", .refusals = &refusals},
                               draft.answer);
            });
    });
}

/// Refusals of what the form has no field for: nothing is refused in silence.
void other_refusals(app::BatchDraft& draft, const app::CardModel& card, const Refusals& refusals) {
    std::vector<std::string> labels{"Water",  "Water temperature", "Ice", "Oxidant", "Checked by",
                                    "Reason", "Another lot"};
    if (!other_of(draft).code.empty())
        labels.emplace_back("Its mass");
    for (const auto& lot : card.lots)
        labels.push_back(label_of(lot));
    const std::vector<std::string_view> known(labels.begin(), labels.end());
    ui::all_refusals(all_but(refusals, known));
}

void acts(GivenForm& form, const app::CardModel& card, const app::Notice& notice, app::Intents& out) {
    ui::flow([&] {
        const std::string blocked = why_blocked(form, card, WentIn::as_typed);
        ui::stack(16_em, [&] {
            if (ui::button("Confirm what went in", {.kind = ui::ButtonKind::primary, .blocked = blocked}))
                confirm(form, card, WentIn::as_typed, notice, out);
        });
        if (ui::button("Close form", {.key = "Esc"}))
            form.open.reset();
    });
}

/// "W24-118 60, water 31": letter by letter.
std::string typed_words(const app::BatchDraft& draft, const app::CardModel& card) {
    std::string words;
    const auto add = [&](std::string_view what, const std::string& text) {
        if (!text.empty())
            words += fmt::format("{}{} {}", words.empty() ? "" : ", ", what, text);
    };
    for (const auto& given : draft.flour) {
        const auto lot = std::find_if(card.lots.begin(), card.lots.end(),
                                      [&](const app::CardLot& one) { return one.lot == given.lot; });
        add(lot != card.lots.end() ? lot->code : given.code.empty() ? "another lot" : given.code, given.mass);
    }
    add("water", draft.water);
    add("its temperature", draft.water_temperature);
    add("ice", draft.ice);
    add("oxidant", draft.oxidant);
    add("reason", draft.answer);
    return words;
}

} // namespace

void draw_left_behind(GivenForm& form, const app::CardModel& card) {
    std::optional<ShownBatch> gone;
    for (const auto& [key, draft] : form.drafts) {
        if (key.run != card.run || key.batch >= card.batch || form.is_sent(key))
            continue;
        const auto words = typed_words(draft, card);
        if (words.empty())
            continue;
        ui::scope(key.batch, [&, batch = key] {
            ui::strip(
                ui::Role::mind,
                fmt::format("Batch {} was logged meanwhile. What you typed for it: {}", batch.batch, words),
                [&] {
                    if (ui::button("Throw it away", {.kind = ui::ButtonKind::quiet}))
                        gone = batch;
                });
        });
    }
    if (gone)
        form.forget(*gone);
}

ShownBatch shown_batch(const app::CardModel& card) { return {card.run, card.batch}; }

bool has_typed(const GivenForm& form, const app::CardModel& card) {
    const auto draft = draft_of(form, card);
    const bool has_flour = std::any_of(draft.flour.begin(), draft.flour.end(),
                                       [](const app::FlourGiven& given) { return !is_empty(given); });
    return has_flour || !draft.water.empty() || !draft.water_temperature.empty() || !draft.ice.empty() ||
           !draft.oxidant.empty();
}

bool asks_check(const GivenForm& form, const app::CardModel& card, WentIn what) {
    return card.needs_check && takes_oxidant(draft_of(form, card), card, what);
}

std::string why_blocked(const GivenForm& form, const app::CardModel& card, WentIn what) {
    if (form.is_sent(shown_batch(card)))
        return "is being written";
    if (card.verdict.ruling == app::CardVerdict::Ruling::do_not_mix)
        return "do not mix: see above what lifts it";
    if (card.verdict.ruling == app::CardVerdict::Ruling::answer_first &&
        is_blank(draft_of(form, card).answer))
        return "answer first: say why it is mixed all the same";
    if (asks_check(form, card, what) && draft_of(form, card).checked_by.empty())
        return "a second person checks the oxidant first";
    return {};
}

void confirm(GivenForm& form, const app::CardModel& card, WentIn what, const app::Notice& notice,
             app::Intents& out) {
    auto draft = draft_of(form, card);
    std::erase_if(draft.flour, is_empty);
    if (!asks_check(form, card, what))
        draft.checked_by.clear();
    if (what == WentIn::as_told)
        draft = {.flour = {},
                 .water = {},
                 .water_temperature = {},
                 .ice = {},
                 .oxidant = {},
                 .checked_by = std::move(draft.checked_by),
                 .answer = std::move(draft.answer)};
    form.ask(shown_batch(card), notice);
    out.emplace_back(app::ConfirmBatch{card.run, std::move(draft), card.batch});
}

void draw(GivenForm& form, const app::CardModel& card, const app::Notice& notice, app::Intents& out) {
    if (std::exchange(form.wants_focus, false))
        ui::focus_first_empty_field();
    auto& draft = form.drafts[shown_batch(card)];
    const auto& refusals = form.refusals_of(shown_batch(card));
    ui::large([&] {
        ui::form("What went in", [&] {
            constexpr float acts_high = 8;
            ui::scroll_area("Given", {std::max(4.5F, ui::height_left().ems - acts_high)}, [&] {
                ui::panel(fmt::format("What went into batch {}?", card.batch), [&] {
                    ui::hint("Fill in what was not as told. What is left empty went in as the card says.");
                    other_refusals(draft, card, refusals);
                    fields(draft, card, refusals, asks_check(form, card, WentIn::as_typed));
                });
            });
            acts(form, card, notice, out);
        });
    });
    if (ui::key_pressed(ui::Key::escape))
        form.open.reset();
}

} // namespace mellowbin::views
