#include "ui/views/mixer/view.h"

#include "app/acts/levers.h"
#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/models/card.h"
#include "app/models/mixer.h"
#include "app/models/overview.h"
#include "ui/views/common/words.h"
#include "ui/views/mixer/acts.h"
#include "ui/views/mixer/card.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace mellowbin::views {

using namespace ui;

namespace {

constexpr std::array<std::string_view, 4> page_words{"Batch", "Logged", "Levers", "Keeping"};

/// Below this width the choice of runs stands beneath the card, for Confirm must stay in view; below the
/// other, pages and scan are of the ordinary size, for the lots must.
constexpr float wide = 45, very_wide = 60;

void take_answers(MixerView& view, const app::MixerModel& model, const app::Notice& notice) {
    view.given.take_answer(model.batches_logged, notice);
    view.result.take_answer(model.batches_logged, notice);
    view.scan.take_answer(notice);
    view.solution.take_answer(notice);
}

/// Another batch is a new start for the scan: what was wrong before says nothing of it.
void follow(MixerView& view, const app::CardModel& card) {
    if (view.shown == shown_batch(card))
        return;
    view.shown = shown_batch(card);
    view.scan.asked.refusals.clear();
    view.scan.wants_focus = true;
}

/// Levers are worked out for the run that is looked at, and for no longer than that.
void follow_levers(MixerView& view, const app::MixerModel& model, app::Intents& out) {
    std::optional<RunId> wanted;
    if (model.card && view.page == MixerView::levers_page)
        wanted = model.card->run;
    if (wanted == view.levers_of)
        return;
    view.levers_of = wanted;
    out.emplace_back(app::ShowLevers{wanted});
}

void draw_head(const app::MixerModel& model, app::Intents& out) {
    const auto& card = *model.card;
    const bool has_room = width_left().ems >= wide;
    flow([&] {
        text(card.product + ",", {.size = TextSize::key_figure});
        text(card.is_finished ? fmt::format("all {} batches are in", card.batches)
                              : fmt::format("batch {} of {}", card.batch, card.batches),
             {.size = TextSize::key_figure});
        if (!card.is_finished)
            draw_ruling(card.verdict);
        if (has_room)
            draw_choice_of_run(model, out);
        if (card.day != model.today)
            badge(Role::mind, "not a run of today");
    });
}

bool has_form(const MixerView& view, const app::CardModel& card) {
    return opened(view.result, card) || view.given.is_open_for(shown_batch(card));
}

/// A scan that comes on another page, or over the form of what came of a batch, leads back to the batch; what
/// was typed in the form stays.
void catch_scan(MixerView& view) {
    if (!catch_typing(view.scan.text).changed)
        return;
    view.page = MixerView::batch_page;
    view.result.open.reset();
}

/// The pages, and beside them on the batch's own the field for the bags.
void draw_pages(MixerView& view, const app::CardModel& card, const app::Notice& notice, app::Intents& out) {
    constexpr float pages_wide = 25, least = 8, most = 20;
    const float width = width_left().ems;
    const bool takes_scan = card.refusals.empty() && !card.is_finished;
    const bool has_scan = takes_scan && view.page == MixerView::batch_page && !opened(view.result, card);
    if (takes_scan && !has_scan)
        catch_scan(view);
    const auto row = [&] {
        flow([&] {
            pages({.label = "Page", .label_place = LabelPlace::hidden}, page_words, view.page);
            if (has_scan)
                draw(view.scan, card, {std::clamp(width - pages_wide, least, most)}, notice, out);
        });
    };
    if (width >= very_wide)
        large(row);
    else
        row();
}

/// What the last confirmation was refused for, apart from what stands at a field.
void draw_refused(const MixerView& view, const app::CardModel& card) {
    const auto others =
        all_but(view.given.refusals_of(shown_batch(card)), {"Checked by", "Reason", "Do not mix"});
    if (!others.empty())
        loud_panel(Role::stop, {}, [&] { all_refusals(others); });
    if (has_typed(view.given, card))
        status(Role::mind, "Something else was typed for this batch; Confirm writes what the card says.");
}

void draw_card_page(MixerView& view, const app::MixerModel& model, const app::Notice& notice,
                    app::Intents& out) {
    const auto& card = *model.card;
    const bool has_room = width_left().ems >= wide;
    const auto acts = mixer_acts(view, model);
    const auto solution = [&] { draw(view.solution, model, notice, out); };
    const bool is_poured = card.pours || card.solution_is_past || card.solution_id;
    const auto beside_oxidant = [&] {
        if (is_poured)
            solution();
    };
    const auto beneath = [&] {
        large([&] {
            flow([&] {
                for (const MixerAct act : acts.beneath)
                    draw_act(view, act, model, out);
            });
        });
        if (!is_poured && !card.oxidant.label.empty())
            solution();
        if (!has_room)
            draw_choice_of_run(model, out);
    };
    // The acts stand at the bottom, whatever the text size; what is above scrolls.
    scroll_area("Card", {std::max(4.5F, height_left().ems - acts.height)}, [&] {
        if (!card.has_wrong_bag)
            draw_wrong_bag(view.scan);
        if (card.refusals.empty() && !card.is_finished)
            draw_verdict(card, view.given.refusals_of(shown_batch(card)),
                         view.given.drafts[shown_batch(card)].answer, view.clearing);
        for (const auto& words : model.changed)
            status(Role::mind, words);
        draw_refused(view, card);
        if (card.refusals.empty()) {
            draw_card(card, beside_oxidant, beneath);
            return;
        }
        draw_no_card(card);
        beside_oxidant();
        beneath();
    });
    draw_bottom(view, acts, model, notice, out);
}

void draw_batch(MixerView& view, const app::MixerModel& model, const app::Notice& notice, app::Intents& out) {
    const auto& card = *model.card;
    if (const auto* batch = opened(view.result, card)) {
        draw(view.result, *batch, card, notice, out);
    } else if (view.given.is_open_for(shown_batch(card))) {
        draw_wrong_bag(view.scan);
        draw(view.given, card, notice, out);
    } else {
        draw_card_page(view, model, notice, out);
    }
    const bool has = has_form(view, card);
    view.scan.wants_focus |= view.had_form && !has;
    view.had_form = has;
}

void draw_page(MixerView& view, const app::MixerModel& model, const app::Notice& notice, app::Intents& out) {
    const auto& card = *model.card;
    switch (view.page) {
    case MixerView::logged_page:
        if (const auto* batch = opened(view.result, card))
            draw(view.result, *batch, card, notice, out);
        else
            draw(view.log, view.result, card);
        break;
    case MixerView::levers_page:
        draw(view.levers, model, notice, out);
        break;
    case MixerView::keeping_page:
        draw(view.keeping, model, notice, out);
        break;
    default:
        draw_batch(view, model, notice, out);
    }
}

void draw_runs(const app::MixerModel& model, app::Intents& out) {
    panel(model.runs.empty() ? "Nothing is to be mixed today" : "Choose a run", [&] {
        if (model.runs.empty())
            hint("Add a run on Plan, plan the week and adopt the plan; its card then stands here.");
        for (const auto& run : model.runs)
            scope(run.run.number(), [&] {
                large([&] {
                    if (button(run.words))
                        out.emplace_back(app::OpenRun{run.run});
                });
            });
    });
}

} // namespace

void draw(MixerView& view, const app::MixerModel& model, const app::Notice& notice, const app::Overview&,
          app::Intents& out) {
    take_answers(view, model, notice);
    if (model.card) {
        follow(view, *model.card);
        draw_head(model, out);
        draw_pages(view, *model.card, notice, out);
        draw_page(view, model, notice, out);
        take_keys(view, model, out);
    } else {
        draw_runs(model, out);
    }
    follow_levers(view, model, out);
    draw(view.log.question, notice, out);
    draw(view.clearing, notice, out);
}

} // namespace mellowbin::views
