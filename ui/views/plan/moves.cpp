#include "ui/views/plan/moves.h"

#include "app/acts/give_lot.h"
#include "app/acts/intent.h"
#include "app/acts/runs.h"
#include "app/acts/what_if.h"
#include "app/models/plan.h"
#include "app/models/planned_run.h"
#include "ui/views/common/words.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::views {
namespace {

using Would = ui::DropWords::Would;

ui::DropWords refused(std::string words) { return {Would::be_refused, std::move(words)}; }
ui::DropWords stays(std::string words) { return {Would::stay, std::move(words)}; }

/// Why a run cannot be touched; empty: it can.
std::string why_fixed(const app::PlannedRun& run) {
    if (run.is_past)
        return fmt::format("{} is past.", words_for(run));
    if (run.is_frozen)
        return fmt::format("{} is fixed: mixed already, or too near to be changed.", words_for(run));
    return {};
}

bool is_on_board(const app::PlanModel& model, ui::DropPlace where) {
    return where.line >= 0 && where.day >= 0 && where.line < static_cast<int>(model.lines.size());
}

Day day_at(const app::PlanModel& model, ui::DropPlace where) { return model.from + Days{where.day}; }

ui::DropWords judge_run(const app::PlanModel& model, Tried tried, const app::PlannedRun& run,
                        ui::DropPlace where) {
    if (const auto fixed = why_fixed(run); !fixed.empty())
        return refused(fixed);
    if (!is_on_board(model, where))
        return stays(fmt::format("Let go over a line and a day to move {} there.", run.product));
    const Day day = day_at(model, where);
    if (day < model.today)
        return refused(fmt::format("{} is past: choose today or a later day.", short_day(day)));
    if (where.line == run.line && day == run.day && where.place == place_of(run, model))
        return stays(fmt::format("Here {} stands already.", run.product));
    const auto there = fmt::format("{} to {}, {}, {} in the order.", run.product, short_day(day),
                                   model.lines[static_cast<std::size_t>(where.line)],
                                   ordinal(static_cast<std::size_t>(where.place)));
    if (tried == Tried::supposed)
        return {Would::move, fmt::format("What if: {} The book stays as it is.", there)};
    return {Would::move, there};
}

ui::DropWords judge_lot(const app::PlanModel& model, Tried tried, const app::PlannedRun& from,
                        const app::PlannedLot& lot, ui::DropPlace where) {
    if (!lot.lot.is_known())
        return refused(
            fmt::format("{} is still to come: it can be given to a run once it is taken in.", lot.code));
    if (tried == Tried::supposed)
        return refused(
            fmt::format("Giving {} to a run would change the book: leave What if, or decide on the "
                        "proposed plan first.",
                        lot.code));
    if (const auto fixed = why_fixed(from); !fixed.empty())
        return refused(fixed);
    if (lot.is_locked)
        return refused(fmt::format("{} is locked in {}: unlock it first.", lot.code, words_for(from)));
    const auto* to = run_of(model, where.onto);
    if (to == nullptr)
        return stays(fmt::format("Let go on another run to give it {}.", lot.code));
    if (to == &from)
        return stays(fmt::format("{} is in {} already.", lot.code, words_for(from)));
    if (const auto fixed = why_fixed(*to); !fixed.empty())
        return refused(fixed);
    return {Would::move, fmt::format("{} from {} to {}: as much as it needs there, locked.", lot.code,
                                     words_for(from), words_for(*to))};
}

} // namespace

const app::PlannedRun* run_of(const app::PlanModel& model, std::optional<std::int64_t> id) {
    if (!id)
        return nullptr;
    const auto run = std::find_if(model.runs.begin(), model.runs.end(),
                                  [&](const app::PlannedRun& r) { return r.id.number() == *id; });
    return run == model.runs.end() ? nullptr : &*run;
}

std::string words_for(const app::PlannedRun& run) {
    return fmt::format("{} on {}", run.product, short_day(run.day));
}

std::string line_of(const app::PlannedRun& run, const app::PlanModel& model) {
    const auto line = static_cast<std::size_t>(run.line);
    return run.line >= 0 && line < model.lines.size() ? model.lines[line] : std::string();
}

int place_of(const app::PlannedRun& run, const app::PlanModel& model) {
    int place = 1;
    for (const auto& other : model.runs) {
        if (other.id == run.id)
            break;
        place += other.line == run.line && other.day == run.day ? 1 : 0;
    }
    return place;
}

bool may_change(const app::PlannedRun& run) { return !run.is_past && !run.is_frozen; }

std::int64_t share_key(const app::PlannedLot& lot) {
    return lot.lot.is_known() ? lot.lot.number() : -lot.delivery.number();
}

const app::PlannedLot* lot_of(const app::PlannedRun& run, std::optional<std::int64_t> key) {
    const auto lot = std::find_if(run.lots.begin(), run.lots.end(),
                                  [&](const app::PlannedLot& l) { return key == share_key(l); });
    return lot == run.lots.end() ? nullptr : &*lot;
}

ui::DropWords judge(const app::PlanModel& model, Tried tried, ui::Carried what, ui::DropPlace where) {
    const auto* run = run_of(model, what.card);
    if (run == nullptr)
        return stays("This run is no longer there.");
    if (!what.lot)
        return judge_run(model, tried, *run, where);
    const auto* lot = lot_of(*run, what.lot);
    return lot == nullptr ? stays("This lot is no longer in the run.")
                          : judge_lot(model, tried, *run, *lot, where);
}

std::optional<app::Intent> intent_of(const app::PlanModel& model, Tried tried, ui::Carried what,
                                     ui::DropPlace where) {
    if (judge(model, tried, what, where).would != Would::move)
        return {};
    const RunId run{what.card};
    if (what.lot)
        return app::GiveLot{LotId{*what.lot}, run, RunId{*where.onto}};
    const auto line = model.lines[static_cast<std::size_t>(where.line)];
    const auto day = iso(day_at(model, where)), place = std::to_string(where.place);
    if (tried == Tried::supposed)
        return app::SupposeRunMoved{run, line, day, place};
    return app::ChangeRun{run, line, day, "", place};
}

} // namespace mellowbin::views
