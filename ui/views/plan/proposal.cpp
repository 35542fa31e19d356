#include "ui/views/plan/proposal.h"

#include "app/acts/intent.h"
#include "app/acts/plan.h"
#include "app/models/plan.h"
#include "app/models/plan_compare.h"
#include "ui/views/common/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>

namespace mellowbin::views {

using namespace ui;

namespace {

constexpr std::size_t changes_at_most = 12; ///< beside the board; all of them are in the comparison

void keep(app::Intents& out) {
    if (button("Keep the book's plan"))
        out.emplace_back(app::DiscardPlan{});
}

void decide(const app::PlanModel& model, app::Intents& out) {
    if (button("Adopt plan", {.kind = ButtonKind::primary,
                              .blocked = model.can_adopt               ? std::string_view{}
                                         : model.adopt_blocked.empty() ? "It cannot be adopted now"
                                                                       : model.adopt_blocked}))
        out.emplace_back(app::AdoptPlan{});
    keep(out);
}

std::string_view title_of(const app::PlanModel& model) {
    return model.is_supposed ? "What if: nothing here touches the book" : "A new plan is proposed";
}

void draw_changes(const app::PlanModel& model) {
    if (model.changes.empty()) {
        paragraph("It changes nothing in the adopted plan.");
        return;
    }
    const auto shown = std::min(model.changes.size(), changes_at_most);
    scroll_area("Changes", {std::min(5.2F, 1.75F * static_cast<float>(shown))}, [&] {
        for (std::size_t i = 0; i < shown; ++i)
            paragraph(model.changes[i]);
        if (shown < model.changes.size())
            hint(fmt::format("And {} more: compare the plans.", model.changes.size() - shown));
    });
}

void parts_table(const app::PlanComparison& compared) {
    const std::array columns{
        Column{.head = "Part", .sample = "Flour short", .stretch = 1, .sortable = false},
        Column{.head = compared.before_name, .sample = "12 000 kg", .stretch = 1, .sortable = false},
        Column{.head = compared.after_name, .sample = "✓ 12 000 kg", .stretch = 1, .sortable = false},
    };
    TableState own;
    const auto record = [](std::size_t i) { return static_cast<std::int64_t>(i) + 1; };
    const auto write = [&](std::size_t i, RowWriter& row) {
        const auto& part = compared.parts[i];
        row.cell(part.name);
        row.cell(part.before_words);
        row.cell(part.after_words, part.after < part.before   ? Role::good
                                   : part.after > part.before ? Role::stop
                                                              : Role::ink);
    };
    const float rows = 2.0F * static_cast<float>(compared.parts.size()) + 3.5F;
    table({.name = "Parts",
           .columns = columns,
           .rows = compared.parts.size(),
           .record = record,
           .write_row = write,
           .when_empty = "Nothing to compare.",
           .density = Density::close,
           .height = {rows}},
          own);
}

void moved_table(TableState& state, const app::PlanComparison& compared, Length height) {
    const std::array columns{
        Column{.head = "Run", .sample = "Fri 27 Nov, Line 1", .stretch = 2, .sortable = false},
        Column{.head = "Gain", .sample = "12 mg/kg less", .stretch = 1, .sortable = false},
        Column{.head = compared.before_name, .sample = "W24-118 800 kg", .stretch = 2, .sortable = false},
        Column{.head = compared.after_name, .sample = "W24-118 800 kg", .stretch = 2, .sortable = false},
    };
    const auto record = [&](std::size_t i) { return compared.moved[i].run.number(); };
    const auto write = [&](std::size_t i, RowWriter& row) {
        const auto& run = compared.moved[i];
        row.cell(run.title);
        row.cell(run.gain.empty() ? "–" : run.gain);
        row.cell(run.before.empty() ? "no lots" : run.before);
        row.cell(run.after.empty() ? "no lots" : run.after);
    };
    table({.name = "Runs that change",
           .columns = columns,
           .rows = compared.moved.size(),
           .record = record,
           .write_row = write,
           .when_empty = "No run changes.",
           .density = Density::close,
           .height = height},
          state);
}

/// The chosen run in full: a row of the table may cut its words.
std::optional<std::int64_t> draw_moved(const app::MovedRun& run, const app::PlanComparison& compared) {
    std::optional<std::int64_t> show;
    panel(run.title, [&] {
        paragraph(fmt::format("{}: {}", compared.before_name, run.before.empty() ? "no lots" : run.before));
        paragraph(fmt::format("{}: {}", compared.after_name, run.after.empty() ? "no lots" : run.after));
        paragraph(run.gain.empty() ? "Neither better nor worse." : run.gain, {.weight = Weight::bold});
        if (button("Show it on the board"))
            show = run.run.number();
    });
    return show;
}

const app::MovedRun* chosen_in(const TableState& state, const app::PlanComparison& compared) {
    const auto run = std::find_if(compared.moved.begin(), compared.moved.end(),
                                  [&](const auto& m) { return state.selected == m.run.number(); });
    return run == compared.moved.end() ? nullptr : &*run;
}

/// What is proven of every plan, tier by tier.
void draw_bounds(const app::PlanModel& model) {
    if (model.bounds.empty())
        return;
    panel("Proven of every plan", [&] {
        for (const auto& bound : model.bounds)
            paragraph(bound);
    });
}

} // namespace

bool draw_proposal(const app::PlanModel& model, app::Intents& out) {
    bool wants_comparison = false;
    loud_panel(model.is_supposed ? Role::model : Role::accent, title_of(model), [&] {
        if (model.comparison && !model.comparison->verdict.empty())
            paragraph(model.comparison->verdict);
        flow([&] {
            if (model.is_supposed)
                keep(out);
            else
                decide(model, out);
            wants_comparison = model.comparison && button("Compare the plans", {.kind = ButtonKind::quiet});
        });
        if (model.comparison)
            return; // the rest stands there
        if (!model.objective.empty())
            hint(model.objective);
        draw_changes(model);
    });
    return wants_comparison;
}

std::optional<std::int64_t> draw_comparison(TableState& moved, const app::PlanModel& model,
                                            app::Intents& out) {
    if (!model.comparison) {
        hint("No plan is proposed. Plan the days, plan anew, or suppose something under What if; then both "
             "plans stand here side by side.");
        draw_bounds(model);
        return {};
    }
    const auto& compared = *model.comparison;
    std::optional<std::int64_t> show;
    const auto parts = [&] {
        if (model.is_supposed)
            status(Role::model, title_of(model));
        if (!compared.verdict.empty())
            paragraph(compared.verdict, {.weight = Weight::bold});
        flow([&] { decide(model, out); });
        if (!model.objective.empty())
            hint(model.objective);
        parts_table(compared);
        draw_bounds(model);
    };
    const auto runs = [&] {
        const auto* run = chosen_in(moved, compared);
        moved_table(moved, compared,
                    run == nullptr ? Length{} : Length{std::max(8.0F, height_left().ems - 15)});
        if (run != nullptr)
            show = draw_moved(*run, compared);
    };
    panes({{.name = "Parts", .share = 1, .least = 30_em, .body = parts},
           {.name = "Moved", .share = 1, .least = 28_em, .body = runs}});
    return show;
}

} // namespace mellowbin::views
