#include "ui/views/levers/page.h"

#include "app/acts/fermentation.h"
#include "app/acts/give_lot.h"
#include "app/acts/levers.h"
#include "app/acts/notice.h"
#include "app/acts/runs.h"
#include "app/models/levers.h"
#include "app/models/maturity_words.h"
#include "app/models/mixer.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;
using Standing = app::LeverRow::Standing;

void ask(LeversPage& page, RunId run, const app::Notice& notice, app::Intents& out) {
    page.asked.ask(notice);
    out.emplace_back(app::ShowLevers{run});
}

void choice_of_run(LeversPage& page, const app::MixerModel& model, const app::Notice& notice,
                   app::Intents& out) {
    if (model.runs.empty() || (model.runs.size() == 1 && model.levers))
        return;
    std::vector<std::string> words;
    int chosen = -1;
    for (const auto& run : model.runs) {
        if (model.levers && run.run == model.levers->run)
            chosen = static_cast<int>(words.size());
        words.push_back(run.is_finished ? run.words + " (all in)" : run.words);
    }
    if (ui::choice({.label = "Remedies of", .width = 21_em}, words, chosen))
        ask(page, model.runs[static_cast<std::size_t>(chosen)].run, notice, out);
}

void nothing_weighed(LeversPage& page, const app::MixerModel& model, const app::Notice& notice,
                     app::Intents& out) {
    ui::panel("The remedies were not weighed yet", [&] {
        ui::hint(
            "What makes up for missing strength: waiting, blending, oxidant, longer fermentation, water; "
            "each with what it costs.");
        if (!model.card)
            ui::hint("Choose a run of today first.");
        else if (ui::button("Weigh the remedies", {.kind = ui::ButtonKind::primary}))
            ask(page, model.card->run, notice, out);
    });
}

/// How it stands, what is the cheapest that does, and what may be too much already.
void verdict(const app::LeversModel& levers) {
    const auto role = levers.is_short ? Role::stop : Role::good;
    const auto in_panel = [&] {
        ui::paragraph(fmt::format("{} {}", sign(role), levers.gap),
                      {.size = ui::TextSize::heading, .role = role, .weight = ui::Weight::bold});
        if (levers.is_short && !levers.mixes.empty())
            ui::paragraph(fmt::format("The least costly that is enough: {}, {}.", levers.mixes.front().words,
                                      app::money_words(levers.mixes.front().money)));
        if (!levers.gap_spread.empty())
            ui::status(Role::model, levers.gap_spread);
    };
    if (levers.is_short)
        ui::loud_panel(role, {}, in_panel);
    else
        ui::panel({}, in_panel);
    if (!levers.too_far.empty())
        ui::loud_panel(Role::mind, "Too far already", [&] {
            for (const auto& words : levers.too_far)
                ui::status(Role::mind, words);
        });
}

Role role_of(Standing standing) {
    switch (standing) {
    case Standing::reaches:
        return Role::good;
    case Standing::forbidden:
        return Role::stop;
    case Standing::helps:
        return Role::ink;
    case Standing::not_needed:
    case Standing::not_known:
        break;
    }
    return Role::quiet;
}

/// What it costs, in the same three lines of every card; what is not said has a dash.
void costs(const std::string& time, const std::string& money, const std::string& label) {
    const auto cost = [](std::string_view what, std::string_view words) {
        ui::fact({.label = what, .value = words.empty() ? "–" : words});
    };
    cost("Time", time);
    cost("Money", money);
    cost("Label", label);
}

void standing_of(const app::LeverRow& row) {
    const auto role = role_of(row.standing);
    if (role == Role::quiet || role == Role::ink)
        ui::paragraph(in_words(row.standing), {.role = role}); // it has no sign to make room for
    else
        ui::status(role, in_words(row.standing));
}

std::string take_words(const app::RemedyDeed& deed) {
    return fmt::format("Take {:.0f} kg of {}", deed.kg, deed.lot_code);
}

/// "Ferment 25 min longer", of a run that does already "Ferment 25 min longer in all".
std::string ferment_words(const app::RemedyDeed& deed) {
    return fmt::format("Ferment {} min longer{}", deed.minutes,
                       deed.minutes_more < deed.minutes ? " in all" : "");
}

/// A lot, minutes, or both at once.
void take_or_ferment(const app::RemedyDeed& deed, RunId run, app::Intents& out) {
    const auto kg = to_grams(Kilograms{deed.kg});
    if (!deed.lot.is_known()) {
        if (deed.minutes > 0 && ui::button(ferment_words(deed)))
            out.emplace_back(app::FermentLonger{run, std::to_string(deed.minutes)});
    } else if (deed.minutes <= 0) {
        if (ui::button(take_words(deed)))
            out.emplace_back(app::GiveLot{deed.lot, {}, run, kg});
    } else {
        auto longer = ferment_words(deed);
        longer.front() = 'f';
        if (ui::button(take_words(deed) + ", " + longer))
            out.emplace_back(app::GiveLot{deed.lot, {}, run, kg, std::to_string(deed.minutes)});
    }
}

/// What the plan can do of it, as a button.
void deed(const std::optional<app::RemedyDeed>& deed, RunId run, app::Intents* out) {
    if (!deed || out == nullptr)
        return;
    if (deed->day && ui::button(fmt::format("Move the run to {}", short_day(*deed->day))))
        out->emplace_back(app::ChangeRun{run, "", iso(*deed->day), "", ""});
    take_or_ferment(*deed, run, *out);
}

/// Whether it suffices, what it costs, what it is, how sure that is; a forbidden one says why and no more.
void lever(const app::LeverRow& row, RunId run, app::Intents* out) {
    ui::panel(row.name, [&] {
        standing_of(row);
        if (row.standing == Standing::forbidden) {
            for (const auto& why : row.notes)
                ui::paragraph(why);
            return;
        }
        if (row.standing == Standing::reaches || row.standing == Standing::helps)
            costs(row.time, row.money, row.label);
        if (!row.figures.empty())
            ui::paragraph(row.figures);
        if (!row.spread.empty())
            ui::status(Role::model, row.spread);
        if (row.standing == Standing::reaches || row.standing == Standing::helps)
            deed(row.deed, run, out);
        for (const auto& note : row.notes)
            ui::hint(note);
    });
}

void mix(const app::LeverMix& mix, std::size_t place, RunId run, app::Intents* out) {
    ui::panel(place == 0 ? "Least costly" : fmt::format("Choice {}", place + 1), [&] {
        const auto maturity = app::percent_words(Maturity{mix.maturity});
        ui::status(Role::good, "enough");
        costs(mix.minutes > 0 ? fmt::format("{:.0f} min", mix.minutes) : "none", app::money_words(mix.money),
              mix.label);
        ui::fact({.label = "Maturity", .value = maturity, .role = Role::model});
        ui::paragraph(mix.words, {.weight = ui::Weight::bold});
        deed(mix.deed, run, out);
    });
}

void together(const app::LeversModel& levers, app::Intents* out) {
    ui::heading("Together");
    if (!levers.no_mix.empty())
        ui::status(Role::stop, levers.no_mix);
    else if (levers.mixes.empty())
        ui::hint("None is needed.");
    ui::grid(20_em, [&] {
        for (std::size_t i = 0; i < levers.mixes.size(); ++i)
            ui::scope(static_cast<std::int64_t>(i), [&] { mix(levers.mixes[i], i, levers.run, out); });
    });
}

} // namespace

void draw_levers(const app::LeversModel& levers, app::Intents* out) {
    ui::heading(levers.title);
    if (!levers.refusals.empty()) {
        ui::loud_panel(Role::stop, "Nothing can be said of this run",
                       [&] { ui::all_refusals(levers.refusals); });
        return;
    }
    verdict(levers);
    ui::heading("Each remedy alone");
    ui::grid(20_em, [&] {
        for (std::size_t i = 0; i < levers.levers.size(); ++i)
            ui::scope(static_cast<std::int64_t>(i), [&] { lever(levers.levers[i], levers.run, out); });
    });
    together(levers, out);
}

void draw(LeversPage& page, const app::MixerModel& model, const app::Notice& notice, app::Intents& out) {
    page.asked.take_answer(notice);
    ui::scroll_area("Remedies", {}, [&] {
        choice_of_run(page, model, notice, out);
        ui::all_refusals(page.asked.refusals);
        if (model.levers)
            draw_levers(*model.levers);
        else
            nothing_weighed(page, model, notice, out);
    });
}

} // namespace mellowbin::views
