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

constexpr std::size_t changes_at_most = 2; ///< in the strip; all of them are in the comparison

void keep(app::Intents& out) {
    if (button("Keep the book's plan"))
        out.emplace_back(app::DiscardPlan{});
}

/// Why the proposal cannot be adopted; empty: it can.
std::string_view why_not(const app::PlanModel& model) {
    if (model.can_adopt)
        return {};
    return model.adopt_blocked.empty() ? std::string_view("It cannot be adopted now")
                                       : std::string_view(model.adopt_blocked);
}

/// `reason`: what stands beside the button where it cannot be pressed.
void decide(std::string_view reason, app::Intents& out) {
    if (button("Adopt plan", {.kind = ButtonKind::primary, .blocked = reason}))
        out.emplace_back(app::AdoptPlan{});
    keep(out);
}

std::string_view title_of(const app::PlanModel& model) {
    return model.is_supposed ? "What if: nothing here touches the book" : "A new plan is proposed";
}

/// The changes where nothing compares the plans: in the strip as many as a line takes.
std::string changes_in_words(const app::PlanModel& model) {
    if (model.changes.empty())
        return "It changes nothing in the adopted plan.";
    std::string words;
    for (std::size_t i = 0; i < std::min(model.changes.size(), changes_at_most); ++i)
        words += (i > 0 ? "; " : "") + model.changes[i];
    if (model.changes.size() > changes_at_most)
        words += fmt::format("; and {} more", model.changes.size() - changes_at_most);
    return words + ".";
}

/// Parts and runs in one table: what the plans come to on top, beneath it each run that changes.
void comparison_table(TableState& state, const app::PlanComparison& compared, Length height) {
    const std::array columns{
        Column{.head = "What", .sample = "Fri 27 Nov, Line 1: Hearth", .stretch = 2, .sortable = false},
        Column{.head = compared.before_name, .sample = "W24-118 800 kg", .stretch = 3, .sortable = false},
        Column{.head = compared.after_name, .sample = "W24-118 800 kg", .stretch = 3, .sortable = false},
        Column{.head = "What it gains", .sample = "12 mg/kg less", .stretch = 1, .sortable = false},
    };
    const auto parts = compared.parts.size();
    const auto record = [&](std::size_t i) {
        return i < parts ? -1 - static_cast<std::int64_t>(i) : compared.moved[i - parts].run.number();
    };
    const auto write_part = [&](const app::ComparedPart& part, RowWriter& row) {
        const bool is_better = part.after<part.before, is_worse = part.after> part.before;
        row.cell(part.name);
        row.cell(part.before_words);
        row.cell(part.after_words);
        row.cell(is_better  ? "better"
                 : is_worse ? "worse"
                            : "alike",
                 is_better  ? Role::good
                 : is_worse ? Role::stop
                            : Role::quiet);
    };
    const auto write = [&](std::size_t i, RowWriter& row) {
        if (i < parts)
            return write_part(compared.parts[i], row);
        const auto& run = compared.moved[i - parts];
        row.cell(run.title);
        row.cell(run.before.empty() ? "no lots" : run.before);
        row.cell(run.after.empty() ? "no lots" : run.after);
        row.cell(run.gain.empty() ? "–" : run.gain);
    };
    table({.name = "Plans side by side",
           .columns = columns,
           .rows = parts + compared.moved.size(),
           .record = record,
           .write_row = write,
           .when_empty = "Nothing to compare.",
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
    const auto gain = model.comparison && !model.comparison->verdict.empty() ? model.comparison->verdict
                                                                             : changes_in_words(model);
    const auto blocked = model.is_supposed ? std::string_view{} : why_not(model);
    const auto words = fmt::format("{}: {}{}{}", title_of(model), gain, blocked.empty() ? "" : " ", blocked);
    strip(model.is_supposed ? Role::model : Role::accent, words, [&] {
        wants_comparison = model.comparison && button("Compare the plans", {.kind = ButtonKind::quiet});
        if (model.is_supposed)
            keep(out);
        else
            decide(blocked.empty() ? blocked : std::string_view(" "), out); // the words say why
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
    if (model.is_supposed)
        status(Role::model, title_of(model));
    if (!compared.verdict.empty())
        paragraph(compared.verdict, {.weight = Weight::bold});
    flow([&] { decide(why_not(model), out); });
    if (!model.objective.empty())
        hint(model.objective);
    const auto* run = chosen_in(moved, compared);
    const float below = (run == nullptr ? 0.0F : 15.0F) + (model.bounds.empty() ? 0.0F : 9.0F);
    comparison_table(moved, compared, Length{std::max(10.0F, height_left().ems - below)});
    std::optional<std::int64_t> show;
    if (run != nullptr)
        show = draw_moved(*run, compared);
    draw_bounds(model);
    return show;
}

} // namespace mellowbin::views
