#include "app/acts/notice.h"
#include "app/models/lots.h"
#include "app/models/readiness.h"
#include "ui/views/common/day_words.h"
#include "ui/views/common/findings.h"
#include "ui/views/common/words.h"
#include "ui/views/lots/findings.h"
#include "ui/views/lots/pages.h"
#include "ui/views/lots/view.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;
using Deed = LotQuestion::Deed;
using Follows = app::LotVerdict::Follows;

constexpr std::array<std::string_view, 5> pages{"Certificate", "Aging", "Places", "Bakes", "History"};
enum Page { certificate, aging, places, bakes, history };

// How it stands

bool head(const app::LotSheet& sheet) {
    const auto beside = fmt::format("{}, {}", sheet.row.flour, sheet.row.mill);
    return ui::sheet_head({.name = sheet.row.code, .beside = beside});
}

void verdict(const app::LotSheet& sheet) {
    const bool is_gone = sheet.row.state == LotState::used_up;
    ui::sheet_verdict({.role = is_gone ? Role::quiet : role_of(sheet.verdict.weight),
                       .words = sheet.verdict.words,
                       .why = sheet.verdict.reasons});
}

// What can be done

/// What a button of the sheet asks for.
struct Act {
    enum class What { question, retest, write_off } what = What::question;
    Deed deed{};
    std::string_view label;
    bool follows = false; ///< from how it stands: it is the first
};

std::vector<Act> acts_of(const app::LotSheet& sheet) {
    using What = Act::What;
    const auto follows = sheet.verdict.follows;
    const auto state = sheet.row.state;
    std::vector<Act> acts;
    if (follows == Follows::retest)
        acts.push_back({What::retest, {}, "Retest this lot", true});
    if (follows == Follows::write_off && !sheet.places.empty())
        acts.push_back({What::write_off, {}, "Write off what is left", true});
    if (may_become(state, LotState::released))
        acts.push_back({What::question, Deed::release,
                        state == LotState::held ? "Release, with a reason" : "Release lot",
                        follows == Follows::release});
    if (may_become(state, LotState::held))
        acts.push_back({What::question, Deed::hold, "Put on hold", follows == Follows::hold});
    if (may_become(state, LotState::rejected))
        acts.push_back({What::question, Deed::reject, "Reject lot"});
    if (may_go_back(sheet))
        acts.push_back({What::question, Deed::to_mill, "Return to the mill"});
    if (sheet.concession && state == LotState::released) {
        acts.push_back(
            {What::question, Deed::judge_anew, "Judge the concession anew", follows == Follows::judge_anew});
        acts.push_back({What::question, Deed::end_concession, "End the concession"});
    }
    if (sheet.best_before)
        acts.push_back({What::question, Deed::extend, "Extend best before", follows == Follows::extend});
    std::stable_partition(acts.begin(), acts.end(), [](const Act& act) { return act.follows; });
    return acts;
}

void do_act(LotsView& view, const app::LotSheet& sheet, const Act& act) {
    switch (act.what) {
    case Act::What::question:
        view.question = question_about(sheet, act.deed);
        break;
    case Act::What::retest:
        view.page = certificate;
        view.retest.is_open = view.retest.wants_focus = true;
        break;
    case Act::What::write_off:
        view.page = places;
        if (sheet.places.size() == 1)
            view.question = question_about(sheet, sheet.places.front(), Deed::waste);
        break;
    }
}

void acts(LotsView& view, const app::LotSheet& sheet) {
    const auto all = acts_of(sheet);
    if (std::exchange(view.enters_sheet, false))
        ui::focus(all.empty() ? std::string_view("Page") : all.front().label);
    ui::flow([&] {
        for (const auto& act : all)
            if (ui::button(act.label,
                           {.kind = act.follows ? ui::ButtonKind::primary : ui::ButtonKind::ordinary}))
                do_act(view, sheet, act);
    });
}

// Four facts

void fact(std::string_view label, std::string_view number, std::string_view note, Role role = Role::ink,
          std::string_view unit = {}) {
    ui::figure({.label = label,
                .number = number,
                .unit = unit,
                .note = note,
                .size = ui::TextSize::heading,
                .role = role});
}

void best_before(const app::LotSheet& sheet, Day today) {
    if (!sheet.best_before)
        return fact("Best before", "–", "none printed", Role::quiet);
    const bool is_extended = sheet.last_day && sheet.last_day != sheet.best_before;
    const auto note = is_extended
                          ? fmt::format("may be used until {}", short_day_near(*sheet.last_day, today))
                          : std::string(sheet.is_over ? "✕ passed" : "");
    fact("Best before", short_day_near(*sheet.best_before, today), note,
         sheet.is_over ? Role::stop : Role::ink);
}

void estimated_day(std::string_view label, const std::optional<Day>& on,
                   const app::ReadinessModel& readiness) {
    if (!on)
        return fact(label, "–", "not within two years", Role::model);
    fact(label, "≈ " + short_day_near(*on, readiness.today),
         fmt::format("{} sure", percent(readiness.confidence)), Role::model);
}

void ready(const app::LotRow& row, const app::ReadinessModel& readiness) {
    switch (row.readiness) {
    case app::Readiness::past_best:
        return estimated_day("Past its best", row.past_best_on, readiness);
    case app::Readiness::use_first:
        return estimated_day("Use first, by", row.past_best_on, readiness);
    case app::Readiness::ready:
        return estimated_day("Ready since", row.ready_on, readiness);
    case app::Readiness::young:
    case app::Readiness::usable:
        return estimated_day("Ready", row.ready_on, readiness);
    }
}

void in_stock(const app::LotSheet& sheet) {
    const auto& row = sheet.row;
    std::string note;
    if (sheet.bag_kg > 0 && row.stock_kg > 0)
        note = counted(static_cast<std::size_t>(std::lround(row.stock_kg / sheet.bag_kg)), "bag", "bags");
    if (!row.places.empty() && row.stock_kg > 0)
        note += (note.empty() ? "" : ", ") + row.places;
    fact("In stock", kilograms(row.stock_kg), note, Role::ink, "kg");
}

void at_the_door(const app::LotSheet& sheet, Day today) {
    const auto count = [&](app::Finding::Weight weight) {
        return static_cast<std::size_t>(
            std::count_if(sheet.door.begin(), sheet.door.end(),
                          [&](const app::Finding& finding) { return finding.weight == weight; }));
    };
    const auto yes = count(app::Finding::Weight::well), no = count(app::Finding::Weight::against),
               open = count(app::Finding::Weight::mind);
    const std::string_view label = "At the door";
    const auto on = short_day_near(sheet.row.delivered_on, today);
    if (sheet.door.empty())
        return fact(label, "–", "not checked, " + on, Role::quiet);
    const auto others = [&](bool tells_open) {
        return (tells_open && open > 0 ? fmt::format("{} not looked at · ", open) : std::string()) +
               fmt::format("{} yes", yes);
    };
    if (no > 0)
        fact(label, fmt::format("✕ {} no", no), others(true), Role::stop);
    else if (open > 0)
        fact(label, fmt::format("▲ {} open", open), "not looked at · " + others(false), Role::mind);
    else
        fact(label, "all yes", on);
}

void facts(const app::LotSheet& sheet, const app::ReadinessModel& readiness) {
    constexpr float apart = 1.5F, least = 7;
    const float quarter = (ui::width_left().ems - 3 * apart) / 4; // side by side, where there is room
    ui::grid({std::max(least, quarter)}, [&] {
        best_before(sheet, readiness.today);
        ready(sheet.row, readiness);
        in_stock(sheet);
        at_the_door(sheet, readiness.today);
    });
}

// Pages

void page(LotsView& view, const app::LotSheet& sheet, const app::ReadinessModel& readiness,
          const app::Notice& notice, app::Intents& out) {
    switch (view.page) {
    case certificate:
        return draw_certificate(view, sheet, readiness, notice, out);
    case aging:
        return draw_aging(view, sheet, readiness.today);
    case places:
        return draw_places(view, sheet, out);
    case bakes:
        return draw_bakes(view.bakes, sheet, view.withdrawing, readiness.today, notice, out);
    case history:
        return draw_history(sheet);
    default:
        return;
    }
}

/// The head stays where it is while its page scrolls, but where there is little room.
void draw_page(LotsView& view, const app::LotSheet& sheet, const app::ReadinessModel& readiness,
               const app::Notice& notice, app::Intents& out) {
    constexpr ui::Length least = 13_em, margin = 1.5_em;
    const auto body = [&] { page(view, sheet, readiness, notice, out); };
    if (const auto left = ui::height_left(); left.ems > least.ems + margin.ems)
        ui::scroll_area(pages[static_cast<std::size_t>(view.page)], {left.ems - margin.ems}, body);
    else
        ui::scope(pages[static_cast<std::size_t>(view.page)], body);
}

} // namespace

void draw_sheet(LotsView& view, const app::LotSheet& sheet, const app::ReadinessModel& readiness,
                const app::Notice& notice, app::Intents& out) {
    ui::scope(sheet.row.id.number(), [&] {
        ui::filling_panel({}, [&] {
            if (head(sheet))
                view.shows_sheet = false;
            verdict(sheet);
            acts(view, sheet);
            facts(sheet, readiness);
            ui::pages({.label = "Page", .label_place = ui::LabelPlace::hidden}, pages, view.page);
            draw_page(view, sheet, readiness, notice, out);
        });
    });
}

} // namespace mellowbin::views
