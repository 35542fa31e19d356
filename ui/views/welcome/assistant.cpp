#include "ui/views/welcome/assistant.h"

#include "ui/views/common/words.h"
#include "ui/views/welcome/steps.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <string_view>
#include <utility>
#include <vector>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using app::SetUpStep;
using ui::Role;

void go_to(AssistantView& view, SetUpStep step, bool is_looked_at) {
    view.step = step;
    view.is_looked_at = is_looked_at;
    view.wants_focus = true;
}

/// Kept: what was typed of the step is in the book.
void forget_typed(AssistantView& view, SetUpStep step) {
    if (const auto kind = app::kind_of(step))
        view.form_of(*kind) = {};
    else if (step == SetUpStep::plant)
        view.plant = {};
    else if (step == SetUpStep::lot)
        view.lot = {};
    else if (step == SetUpStep::run)
        view.run = {};
    view.reason.clear();
    view.is_looked_at = false;
}

void take_answer(AssistantView& view, const app::Notice& notice) {
    const auto answer = view.asked.take_answer(notice);
    if (!answer)
        return;
    if (*answer != app::Notice::Kind::done) {
        view.to_ask.clear();
        view.run.wants_flour = false;
        return;
    }
    if (!view.to_ask.empty())
        return;
    const bool was_added = view.asked_of == SetUpStep::run && view.run.wants_flour;
    forget_typed(view, view.asked_of);
    view.run.wants_flour = was_added;
}

/// The step that the book wants next, unless a person looks at another one or has typed at one that was
/// answered elsewhere meanwhile.
void follow_book(AssistantView& view, const app::SettingUpModel& model) {
    const bool is_answered = view.step < model.next;
    const bool stays = is_answered && (view.is_looked_at || view.is_touched(view.step));
    if (view.step != model.next && !stays)
        go_to(view, model.next, false);
}

void ask_next(AssistantView& view, const app::Notice& notice, app::Intents& out) {
    if (view.to_ask.empty() || view.asked.is_waiting())
        return;
    view.asked.ask(notice);
    view.asked_of = view.step;
    out.push_back(view.to_ask.front());
    view.to_ask.pop_front();
}

void row_of_steps(AssistantView& view, const app::SettingUpModel& model) {
    std::vector<std::string> words;
    for (std::size_t i = 0; i < app::set_up_steps; ++i) {
        const auto step = static_cast<SetUpStep>(i);
        words.push_back(fmt::format("{}{}", app::name_of(step), model.of(step).is_done ? " ✓" : ""));
    }
    const std::vector<std::string_view> names(words.begin(), words.end());
    int chosen = static_cast<int>(view.step);
    const bool has_chosen = ui::pages(
        {.label = "Steps", .width = ui::Length{ui::width_left().ems}, .label_place = ui::LabelPlace::hidden},
        names, chosen);
    const auto step = static_cast<SetUpStep>(chosen);
    if (has_chosen && step <= model.next)
        go_to(view, step, step < model.next);
}

std::string_view question_of(SetUpStep step) {
    switch (step) {
    case SetUpStep::plant:
        return "What is your plant called?";
    case SetUpStep::mill:
        return "Who grinds your flour?";
    case SetUpStep::flour:
        return "Which flour do you buy?";
    case SetUpStep::place:
        return "Where does it lie?";
    case SetUpStep::line:
        return "On which line do you mix?";
    case SetUpStep::product:
        return "What do you bake?";
    case SetUpStep::lot:
        return "Your first lot";
    case SetUpStep::release:
        return "May it be used?";
    case SetUpStep::run:
        return "When do you bake with it?";
    case SetUpStep::card:
        break;
    }
    return "Your first card";
}

void step_body(AssistantView& view, const app::SettingUpModel& model, Day today, app::Intents& out) {
    if (const auto kind = app::kind_of(view.step))
        return record_step(view, model, *kind);
    switch (view.step) {
    case SetUpStep::plant:
        return plant_step(view, model);
    case SetUpStep::lot:
        return lot_step(view, model, today);
    case SetUpStep::release:
        return release_step(view, model);
    case SetUpStep::run:
        return run_step(view, model, today);
    default:
        return card_step(view, model, out);
    }
}

/// What another station, or this one before, has kept of the step already.
void what_is_there(AssistantView& view, const app::SettingUpModel& model) {
    const auto& row = model.of(view.step);
    if (!row.is_done || view.is_looked_at || view.step == model.next)
        return;
    ui::status(Role::mind, fmt::format("{} is in the book meanwhile, kept at another station. What you typed "
                                       "here is not kept yet.",
                                       row.words));
}

void ways_on(AssistantView& view, const app::SettingUpModel& model) {
    ui::flow([&] {
        const auto place = static_cast<int>(view.step);
        if (place > 0 && ui::button("Back", {.kind = ui::ButtonKind::quiet}))
            go_to(view, static_cast<SetUpStep>(place - 1), true);
        if (view.step < model.next &&
            ui::button(fmt::format("Go on: {}", app::said_of(model.next)), {.kind = ui::ButtonKind::quiet}))
            go_to(view, model.next, false);
        if (ui::button("Later", {.kind = ui::ButtonKind::quiet}))
            view.is_open = false;
    });
}

} // namespace

void AssistantView::open() {
    is_open = true;
    is_looked_at = false;
    wants_focus = true;
}

void AssistantView::begin(const app::SettingUpModel& model) {
    if (model.next == SetUpStep::plant || app::kind_of(model.next))
        open();
}

const Refusals& AssistantView::refusals_of(SetUpStep of) const {
    static const Refusals none;
    return asked_of == of ? asked.refusals : none;
}

bool AssistantView::is_touched(SetUpStep of) const {
    if (const auto kind = app::kind_of(of))
        return records[static_cast<std::size_t>(*kind)].is_touched();
    if (of == SetUpStep::plant)
        return plant.is_touched();
    return of == SetUpStep::lot && lot.is_touched();
}

void draw(AssistantView& view, const app::SettingUpModel& model, Day today, const app::Notice& notice,
          app::Intents& out) {
    take_answer(view, notice);
    if (!view.asked.is_waiting())
        follow_book(view, model);
    row_of_steps(view, model);
    // Below it what was just kept is said, with its undo: that covers no field.
    constexpr ui::Length foot = 4_em;
    ui::scroll_area("Set up your plant", {ui::height_left().ems - foot.ems}, [&] {
        ui::panel(question_of(view.step), [&] {
            ui::scope(app::name_of(view.step), [&] {
                what_is_there(view, model);
                if (std::exchange(view.wants_focus, false))
                    ui::focus_first_empty_field();
                ui::form("Question", [&] { step_body(view, model, today, out); });
                ways_on(view, model);
            });
        });
        ui::hint(
            "What was answered is in the book, and stays there if you stop here. All of it can be changed "
            "later.");
    });
    ask_next(view, notice, out);
}

void draw_offer(AssistantView& view, const app::SettingUpModel& model) {
    if (!model.is_offered)
        return;
    ui::strip(Role::accent, fmt::format("To a first mixer's card, next: {}", app::said_of(model.next)), [&] {
        if (ui::button(model.is_untouched ? "Set up your plant" : "Go on setting up"))
            view.open();
    });
    ui::gap(1);
}

} // namespace mellowbin::views
