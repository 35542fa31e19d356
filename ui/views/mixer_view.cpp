#include "ui/views/mixer_view.h"

#include "ui/views/mixer_card.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace mellowbin::views {

using namespace ui;

namespace {

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

void draw_choice_of_run(const app::MixerModel& model, app::Intents& out) {
    if (model.runs.size() < 2)
        return;
    std::vector<std::string> words;
    for (const auto& run : model.runs)
        words.push_back(run.is_finished ? run.words + " (all in)" : run.words);
    int chosen = place_of(model);
    if (choice({.label = "Run", .width = 21_em, .label_place = LabelPlace::hidden}, words, chosen))
        out.emplace_back(app::OpenRun{model.runs[static_cast<std::size_t>(chosen)].run});
}

void draw_head(const app::MixerModel& model, app::Intents& out) {
    const auto& card = *model.card;
    flow([&] {
        text(card.product + ",", {.size = TextSize::key_figure});
        text(card.is_finished ? fmt::format("all {} batches are in", card.batches)
                              : fmt::format("batch {} of {}", card.batch, card.batches),
             {.size = TextSize::key_figure});
        draw_choice_of_run(model, out);
        if (card.day != model.today)
            badge(Role::mind, "not a run of today");
    });
}

void confirm(MixerView& view, const app::CardModel& card, const app::Notice& notice, app::Intents& out) {
    view.confirmed = MixerView::Confirmed{card.run, card.batch, notice.number};
    out.emplace_back(app::ConfirmBatch{card.run});
}

/// True while the batch shown was confirmed already and the application has not answered.
bool is_being_confirmed(MixerView& view, const app::CardModel& card, const app::Notice& notice) {
    if (view.confirmed && (view.confirmed->run != card.run || view.confirmed->batch != card.batch ||
                           view.confirmed->notice != notice.number))
        view.confirmed.reset();
    return view.confirmed.has_value();
}

void draw_acts(MixerView& view, const app::MixerModel& model, const app::Notice& notice, app::Intents& out) {
    const auto step = [&](Step way, std::string_view words, std::string_view key) {
        const auto to = neighbour(model, way);
        if (!to)
            return;
        if (button(words, {.key = key}) || key_pressed(way == Step::on ? Key::right : Key::left))
            out.emplace_back(app::OpenRun{*to});
    };
    large([&] {
        flow([&] {
            const auto& card = *model.card;
            if (card.refusals.empty() && !card.is_finished) {
                const bool is_asked = is_being_confirmed(view, card, notice);
                if (button(fmt::format("Confirm batch {} of {}", card.batch, card.batches),
                           {.kind = ButtonKind::primary, .blocked = is_asked ? "is being written" : ""}))
                    confirm(view, card, notice, out);
            }
            step(Step::back, "Previous run", "←");
            step(Step::on, "Next run", "→");
        });
    });
}

} // namespace

void draw(MixerView& view, const app::MixerModel& model, const app::Notice& notice, const app::Overview&,
          app::Intents& out) {
    if (!model.card) {
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
        return;
    }
    draw_head(model, out);
    // The acts stand at the bottom, whatever the text size; what is above scrolls.
    constexpr float acts = 5;
    scroll_area("Card", {std::max(4.5F, height_left().ems - acts)}, [&] {
        if (model.card->refusals.empty())
            draw_card(*model.card);
        else
            draw_no_card(*model.card);
    });
    draw_acts(view, model, notice, out);
}

} // namespace mellowbin::views
