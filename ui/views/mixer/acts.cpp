#include "ui/views/mixer/acts.h"

#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/models/card.h"
#include "app/models/mixer.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>

namespace mellowbin::views {

using namespace ui;

namespace {

// Widths of what stands in the row, in pixels that grow with the window; words that are longer take two lines
// in their button.
constexpr float confirm_wide = 270, check_wide = 290, act_wide = 276, step_wide = 176, short_wide = 112,
                space = 14;

enum class Step { back, on };

/// Where the card's run stands among today's; -1 when it is a run of another day.
int place_of(const app::MixerModel& model) {
    const auto run = std::find_if(model.runs.begin(), model.runs.end(), [&](const app::RunChoice& choice) {
        return model.card && choice.run == model.card->run;
    });
    return run == model.runs.end() ? -1 : static_cast<int>(run - model.runs.begin());
}

/// The neighbour of the run that is shown; of a run of another day, the first of today.
std::optional<RunId> neighbour(const app::MixerModel& model, Step step) {
    const int now = place_of(model);
    const int wanted = now < 0 ? 0 : step == Step::on ? now + 1 : now - 1;
    if (wanted < 0 || wanted >= static_cast<int>(model.runs.size()))
        return {};
    return model.runs[static_cast<std::size_t>(wanted)].run;
}

void go(const app::MixerModel& model, Step step, app::Intents& out) {
    if (const auto to = neighbour(model, step))
        out.emplace_back(app::OpenRun{*to});
}

bool can_confirm(const app::CardModel& card) { return card.refusals.empty() && !card.is_finished; }

/// Those there are, the weightiest first.
std::vector<MixerAct> acts_by_weight(const MixerView& view, const app::MixerModel& model) {
    std::vector<MixerAct> acts;
    if (model.card->verdict.ruling == app::CardVerdict::Ruling::do_not_mix)
        acts.push_back(MixerAct::call_quality);
    if (can_confirm(*model.card))
        acts.push_back(MixerAct::other_went_in);
    if (neighbour(model, Step::on))
        acts.push_back(MixerAct::next);
    if (view.is_bowl) // else a page's name stands above
        acts.push_back(MixerAct::why);
    if (newest_unsaid(*model.card))
        acts.push_back(MixerAct::what_came);
    acts.push_back(MixerAct::bowl);
    if (neighbour(model, Step::back))
        acts.push_back(MixerAct::back);
    return acts;
}

float width_of(MixerAct act) {
    switch (act) {
    case MixerAct::back:
    case MixerAct::next:
    case MixerAct::bowl:
        return step_wide;
    case MixerAct::why:
        return short_wide;
    case MixerAct::call_quality:
    case MixerAct::other_went_in:
    case MixerAct::what_came:
        break;
    }
    return act_wide;
}

void checked_by_field(MixerView& view, const app::CardModel& card, std::string_view confirm_words) {
    const auto key = shown_batch(card);
    const auto edited = text_field({.label = "Checked by",
                                    .hint = "second person",
                                    .refusals = &view.given.refusals_of(key),
                                    .width = grown_with_window(150),
                                    .label_place = LabelPlace::left,
                                    .enter = Enter::entered},
                                   view.given.drafts[key].checked_by);
    if (edited.entered) // a badge's scan ends with Enter: it must not confirm by itself
        focus(confirm_words);
}

void draw_confirm(MixerView& view, const app::CardModel& card, const app::Notice& notice, app::Intents& out) {
    const auto words = fmt::format("Confirm batch {} of {}", card.batch, card.batches);
    if (asks_check(view.given, card, WentIn::as_told))
        checked_by_field(view, card, words);
    const auto blocked = why_blocked(view.given, card, WentIn::as_told);
    const Length width = grown_with_window(confirm_wide);
    stack(width, [&] {
        if (!button(words, {.kind = ButtonKind::primary, .blocked = blocked, .width = width}))
            return;
        confirm(view.given, card, WentIn::as_told, notice, out);
        // A scan that comes now must not press Confirm again by its Enter.
        view.scan.wants_focus = true;
    });
}

/// The field for the second person, whose label goes by the person's text size.
float check_width() { return std::max(check_wide, 15.8F / grown_with_window(1).ems); }

} // namespace

MixerActs mixer_acts(const MixerView& view, const app::MixerModel& model) {
    const auto& card = *model.card;
    MixerActs acts{.has_confirm = can_confirm(card), .beside = {}, .beneath = {}, .height = 64};
    float left = width_left().ems / grown_with_window(1).ems;
    if (acts.has_confirm) {
        left -= confirm_wide + space;
        if (asks_check(view.given, card, WentIn::as_told))
            left -= check_width() + space;
        if (left < 0)
            acts.height += 72; // Confirm stands on a line of its own
        constexpr float room_for_words = 34;
        const bool has_words = !why_blocked(view.given, card, WentIn::as_told).empty() ||
                               !view.given.refusals_of(shown_batch(card)).empty();
        acts.height += has_words ? room_for_words : 0;
    }
    for (const MixerAct act : acts_by_weight(view, model)) {
        const bool fits = width_of(act) <= left;
        (fits ? acts.beside : acts.beneath).push_back(act);
        left -= fits ? width_of(act) + space : left;
    }
    std::sort(acts.beside.begin(), acts.beside.end());
    std::sort(acts.beneath.begin(), acts.beneath.end());
    return acts;
}

void draw_bottom(MixerView& view, const MixerActs& acts, const app::MixerModel& model,
                 const app::Notice& notice, app::Intents& out) {
    bowl([&] {
        flow([&] {
            if (acts.has_confirm)
                draw_confirm(view, *model.card, notice, out);
            for (const MixerAct act : acts.beside)
                draw_act(view, act, model, out);
        });
    });
}

void draw_act(MixerView& view, MixerAct act, const app::MixerModel& model, app::Intents& out) {
    const auto& card = *model.card;
    const Length width = grown_with_window(width_of(act));
    switch (act) {
    case MixerAct::call_quality:
        if (button("Call quality", {.kind = ButtonKind::primary, .width = width}))
            view.page = MixerView::why_page; // what lifts the stop, and who may
        break;
    case MixerAct::why:
        if (button("Why", {.width = width}))
            view.page = MixerView::why_page;
        break;
    case MixerAct::bowl:
        if (button(view.is_bowl ? "Bowl off" : "Bowl", {.key = "F11", .width = width}))
            view.is_bowl = !view.is_bowl;
        break;
    case MixerAct::other_went_in:
        if (button("Something else went in", {.width = width}))
            view.given.open_for(shown_batch(card));
        break;
    case MixerAct::what_came:
        if (const auto* batch = newest_unsaid(card))
            if (button(fmt::format("What came of batch {}", batch->number), {.width = width}))
                view.result.open_for(batch->id, batch->result);
        break;
    case MixerAct::back:
        if (button("Previous run", {.key = "F7", .width = width}))
            go(model, Step::back, out);
        break;
    case MixerAct::next:
        if (button("Next run", {.key = "F8", .width = width}))
            go(model, Step::on, out);
        break;
    }
}

void take_keys(MixerView& view, const app::MixerModel& model, app::Intents& out) {
    if (key_pressed(Key::f7) || key_pressed(Key::left))
        go(model, Step::back, out);
    if (key_pressed(Key::f8) || key_pressed(Key::right))
        go(model, Step::on, out);
    if (key_pressed(Key::f11))
        view.is_bowl = !view.is_bowl;
    if (view.is_bowl && key_pressed(Key::escape))
        view.is_bowl = false;
    if (key_pressed(Key::f9)) {
        view.page = MixerView::batch_page;
        view.scan.wants_focus = true;
    }
}

void draw_choice_of_run(const app::MixerModel& model, app::Intents& out) {
    if (model.runs.size() < 2)
        return;
    std::vector<std::string> words;
    for (const auto& run : model.runs)
        words.push_back(run.is_finished ? run.words + " (all in)" : run.words);
    int chosen = place_of(model);
    if (choice({.label = "Run", .label_place = LabelPlace::hidden}, words, chosen))
        out.emplace_back(app::OpenRun{model.runs[static_cast<std::size_t>(chosen)].run});
}

} // namespace mellowbin::views
