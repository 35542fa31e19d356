#include "ui/views/mixer/view.h"

#include "app/acts/levers.h"
#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/acts/print_papers.h"
#include "app/models/card.h"
#include "app/models/mixer.h"
#include "app/models/overview.h"
#include "ui/views/common/words.h"
#include "ui/views/mixer/acts.h"
#include "ui/views/mixer/card.h"
#include "ui/views/mixer/cautions.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace mellowbin::views {

using namespace ui;

namespace {

constexpr std::array<std::string_view, 5> page_words{"Batch", "Why", "Logged", "Remedies", "Keeping"};

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

/// Which batch of which run this is, and the others to choose from: it never goes.
void draw_run(const app::MixerModel& model, app::Intents& out) {
    const auto& card = *model.card;
    draw_choice_of_run(model, out);
    if (model.runs.size() < 2)
        paragraph(card.product, {.size = TextSize::mixer_name, .weight = Weight::bold});
    paragraph(card.is_finished ? fmt::format("all {} batches are in · {}", card.batches, card.line)
                               : fmt::format("batch {} of {} · {}", card.batch, card.batches, card.line),
              {.size = TextSize::mixer_note});
    if (card.day != model.today)
        status(Role::mind, "not a run of today");
    batches_in(card.is_finished ? card.batches : card.batch - 1, card.batch, card.batches);
}

bool has_form(const MixerView& view, const app::CardModel& card) {
    return opened(view.result, card) || view.given.is_open_for(shown_batch(card));
}

/// The field for the bags stands beside the table.
bool has_own_scan(const MixerView& view, const app::CardModel& card) {
    return view.is_bowl && !view.given.is_open_for(shown_batch(card));
}

/// A scan that comes on another page, or over the form of what came of a batch, leads back to the batch; what
/// was typed in the form stays.
void bring_batch_forward(MixerView& view) {
    view.page = MixerView::batch_page;
    view.result.open.reset();
}

void catch_scan(MixerView& view) {
    if (catch_typing(view.scan.text).changed)
        bring_batch_forward(view);
}

/// The pages, and beside them on the batch's own the field for the bags; the bowl alone has neither, but over
/// a form.
void draw_pages(MixerView& view, const app::CardModel& card, const app::Notice& notice, app::Intents& out) {
    constexpr float scan_wide = 16;
    const bool is_batch = view.page == MixerView::batch_page && !opened(view.result, card);
    const bool takes_scan = card.refusals.empty() && !card.is_finished;
    if (takes_scan && !is_batch)
        catch_scan(view);
    constexpr float room_for_scan = 46; // ems
    const bool has_pages = !view.is_bowl || !is_batch;
    const bool reads_scan = takes_scan && is_batch && !has_own_scan(view, card);
    const bool has_scan =
        reads_scan && (width_left().ems >= room_for_scan || view.given.is_open_for(shown_batch(card)));
    if (reads_scan && !has_scan)
        draw(view.scan, card, std::nullopt, notice, out);
    if (!has_pages && !has_scan)
        return;
    flow([&] {
        if (has_pages)
            pages({.label = "Page", .label_place = LabelPlace::hidden}, page_words, view.page);
        if (has_scan)
            draw(view.scan, card, Length{scan_wide}, notice, out);
    });
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

/// What stands beside the table: run, aims, what comes next, the scan, the solution, what to beware of.
void draw_beside(MixerView& view, const MixerActs& acts, const app::MixerModel& model,
                 const app::Notice& notice, app::Intents& out) {
    const auto& card = *model.card;
    const bool takes_scan = card.refusals.empty() && !card.is_finished;
    const auto solution = [&] {
        if (!card.oxidant.label.empty() || card.solution_id)
            draw(view.solution, model, notice, out);
    };
    bowl([&] {
        draw_run(model, out);
        for (const auto& words : model.changed)
            status(Role::mind, words);
        if (card.solution_is_past)
            solution();
        const bool changes_soon = takes_scan && is_imminent(card);
        if (changes_soon)
            draw_then(card);
        draw_aside(card);
        if (card.refusals.empty())
            draw_aims(card);
        if (takes_scan) {
            if (!changes_soon)
                draw_then(card);
            if (has_own_scan(view, card))
                draw(view.scan, card, Length{}, notice, out);
        }
        if (!card.solution_is_past)
            solution();
        if (card.refusals.empty())
            draw_cautions(card);
        for (const MixerAct act : acts.beneath)
            draw_act(view, act, model, out);
    });
}

void draw_words_above(MixerView& view, const app::MixerModel& model) {
    const auto& card = *model.card;
    if (!card.has_wrong_bag)
        draw_wrong_bag(view.scan);
    if (card.refusals.empty() && !card.is_finished)
        bowl([&] {
            flow([&] {
                draw_answer(card, view.given.refusals_of(shown_batch(card)),
                            view.given.drafts[shown_batch(card)].answer, view.clearing);
            });
        });
    draw_refused(view, card);
    draw_left_behind(view.given, card);
}

void draw_card_page(MixerView& view, const app::MixerModel& model, const app::Notice& notice,
                    app::Intents& out) {
    const auto& card = *model.card;
    const auto acts = mixer_acts(view, model);
    if (!card.is_finished)
        draw_strip(card);
    draw_words_above(view, model);
    // The acts stand at the bottom, whatever the text size; what is above scrolls.
    constexpr float gaps = 1.3F; // ems
    const float bottom = grown_with_window(acts.height).ems + gaps, least = grown_with_window(150).ems;
    keep_clear_below({bottom});
    const auto beside = [&] { draw_beside(view, acts, model, notice, out); };
    const auto table = [&] {
        if (card.refusals.empty())
            draw_weighing(card);
        else
            draw_no_card(card);
    };
    // Each batch has a place of its own: the next one starts at the top.
    scope(card.batch, [&] {
        scroll_area("Card", {std::max(least, height_left().ems - bottom)}, [&] {
            panes({{.name = "Weigh", .share = 0.85F, .least = grown_with_window(640), .body = table},
                   {.name = "Beside", .share = 0.15F, .least = grown_with_window(270), .body = beside}});
        });
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
    case MixerView::why_page:
        if (card.refusals.empty() && button("Print card", {.kind = ButtonKind::quiet}))
            out.emplace_back(app::PrintCard{card.run});
        draw_why(card, out);
        break;
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

void take_scan(MixerView& view, const app::MixerModel& model, const std::string& bytes,
               const app::Notice& notice, app::Intents& out) {
    if (model.card)
        bring_batch_forward(view);
    view.scan.take(bytes, model.card ? model.card->run : RunId(), notice, out);
}

void draw(MixerView& view, const app::MixerModel& model, const app::Notice& notice, const app::Overview&,
          app::Intents& out) {
    take_answers(view, model, notice);
    if (model.card) {
        follow(view, *model.card);
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
