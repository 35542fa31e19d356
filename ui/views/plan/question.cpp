#include "ui/views/plan/question.h"

#include "app/acts/looking.h"
#include "app/acts/notice.h"
#include "app/acts/runs.h"
#include "app/acts/supply.h"
#include "app/acts/what_if.h"
#include "app/models/lots.h"
#include "app/models/plan.h"
#include "app/models/planned_run.h"
#include "ui/views/common/changed.h"
#include "ui/views/common/day_words.h"
#include "ui/views/common/words.h"
#include "ui/views/plan/lot_field.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using Deed = PlanQuestion::Deed;
using ui::ButtonKind;

struct Words {
    std::string title;
    std::string_view harmless, deed;
    ButtonKind kind = ButtonKind::primary;
};

Words words_of(const PlanQuestion& q, Tried tried) {
    switch (q.deed) {
    case Deed::change_run:
        return tried == Tried::supposed
                   ? Words{fmt::format("What if: move {}?", q.words), "Leave it", "Suppose it"}
                   : Words{fmt::format("Change {}?", q.words), "Leave it", "Change run"};
    case Deed::drop_run:
        return {fmt::format("Drop {}?", q.words), "Keep run", "Drop run", ButtonKind::stop};
    case Deed::it_came:
        return {"It came?", "Not yet", "It came"};
    case Deed::called_off:
        return {"Called off?", "Keep expecting it", "Called off", ButtonKind::stop};
    case Deed::end_reservation:
        return {"End this reservation?", "Keep it", "End reservation", ButtonKind::stop};
    }
    return {};
}

/// Another station was at the run since the question was asked.
void tell_changes(const PlanQuestion& q, const app::PlanModel& model) {
    const auto* run = run_of(model, q.run.number());
    if (run == nullptr) {
        ui::status(ui::Role::mind,
                   "The run is none of those shown any more: another station dropped it, or it "
                   "is of other days. What you typed stays.");
        return;
    }
    const auto line = line_of(*run, model);
    const auto place = std::to_string(place_of(*run, model));
    if (line != q.was_line || iso(run->day) != q.was_day || place != q.was_place)
        stands_otherwise(fmt::format("it stands on {}, {}, as number {}", line, short_day(run->day), place),
                         run->changed);
    else
        changed_meanwhile(run->changed);
}

void run_fields(PlanQuestion& q, Tried tried, const app::PlanModel& model) {
    if (tried == Tried::supposed)
        ui::paragraph("It is tried beside the plan. The book stays as it is.");
    else
        tell_changes(q, model);
    const auto* refusals = &q.asked.refusals;
    ui::choice({.label = "Line", .refusals = refusals}, model.line_names, q.line);
    ui::flow([&] {
        ui::date_field({.label = "Day", .refusals = refusals, .width = 8_em}, q.day, model.today);
        ui::number_field({.label = "Sequence", .refusals = refusals, .width = 5_em}, q.place);
        if (tried == Tried::in_book)
            ui::number_field({.label = "Batches", .hint = "as before", .refusals = refusals, .width = 7_em},
                             q.batches);
    });
    ui::all_refusals(all_but(*refusals, {"Line", "Day", "Sequence", "Batches"}));
}

void drop_words(const PlanQuestion& q, const app::PlanModel& model) {
    const auto* run = run_of(model, q.run.number());
    if (run != nullptr)
        ui::paragraph(fmt::format("Its {} kg of flour become free for other runs.",
                                  kilograms(std::max(0.0, run->need_kg - run->short_kg))));
    ui::all_refusals(q.asked.refusals);
}

void fields(PlanQuestion& q, Tried tried, const app::PlanModel& model, const app::LotsModel& lots) {
    const auto* refusals = &q.asked.refusals;
    switch (q.deed) {
    case Deed::change_run:
        return run_fields(q, tried, model);
    case Deed::drop_run:
        return drop_words(q, model);
    case Deed::it_came:
        ui::paragraph(q.words, {.weight = ui::Weight::bold});
        ui::paragraph("What the plan has from it goes to the lot that came.");
        lot_field({.label = "Lot", .refusals = refusals, .note = "take it in on Intake first"}, lots, q.lot);
        return ui::all_refusals(all_but(*refusals, {"Lot"}));
    case Deed::called_off:
        ui::paragraph(q.words, {.weight = ui::Weight::bold});
        ui::paragraph("The plan no longer counts on it.");
        ui::text_field({.label = "Reason", .refusals = refusals}, q.reason);
        return ui::all_refusals(all_but(*refusals, {"Reason"}));
    case Deed::end_reservation:
        ui::paragraph(q.words, {.weight = ui::Weight::bold});
        ui::paragraph("The flour becomes free for every plan.");
        ui::text_field({.label = "Reason", .refusals = refusals}, q.reason);
        return ui::all_refusals(all_but(*refusals, {"Reason"}));
    }
}

app::Intent change_of(const PlanQuestion& q, Tried tried, const app::PlanModel& model) {
    const auto line = q.line_in(model);
    if (tried == Tried::supposed)
        return app::SupposeRunMoved{q.run, line, q.day, q.place};
    return app::ChangeRun{q.run, line, q.day, q.batches, q.place};
}

app::Intent intent_of(const PlanQuestion& q, Tried tried, const app::PlanModel& model,
                      const app::LotsModel& lots) {
    switch (q.deed) {
    case Deed::change_run:
        return change_of(q, tried, model);
    case Deed::drop_run:
        return app::DropRun{q.run};
    case Deed::it_came:
        return app::EndExpectation{q.delivery, lot_in_stock(lots, q.lot)->id, ""};
    case Deed::called_off:
        return app::EndExpectation{q.delivery, std::nullopt, q.reason};
    case Deed::end_reservation:
        return app::EndReservation{q.reservation, q.reason};
    }
    return app::PutAwayNotice{};
}

/// What the fields lack before anything is asked of the book.
Refusals missing(const PlanQuestion& q, const app::LotsModel& lots) {
    if (q.deed == Deed::it_came && lot_in_stock(lots, q.lot) == nullptr)
        return {no_such_lot("Lot", q.lot)};
    return {};
}

} // namespace

PlanQuestion PlanQuestion::change(const app::PlannedRun& run, const app::PlanModel& model) {
    PlanQuestion q;
    q.deed = Deed::change_run;
    q.run = run.id;
    q.words = words_for(run);
    const auto at = std::find(model.line_names.begin(), model.line_names.end(), line_of(run, model));
    q.line = at == model.line_names.end() ? -1 : static_cast<int>(at - model.line_names.begin());
    q.day = iso(run.day);
    q.place = std::to_string(place_of(run, model));
    q.was_line = line_of(run, model);
    q.was_day = q.day;
    q.was_place = q.place;
    return q;
}

std::string PlanQuestion::line_in(const app::PlanModel& model) const {
    const bool has_line = line >= 0 && static_cast<std::size_t>(line) < model.line_names.size();
    return has_line ? model.line_names[static_cast<std::size_t>(line)] : std::string();
}

PlanQuestion PlanQuestion::drop(const app::PlannedRun& run) {
    PlanQuestion q;
    q.deed = Deed::drop_run;
    q.run = run.id;
    q.words = words_for(run);
    return q;
}

void draw(std::optional<PlanQuestion>& question, Tried tried, const app::PlanModel& model,
          const app::LotsModel& lots, const app::Notice& notice, app::Intents& out) {
    if (!question)
        return;
    const bool is_gone = question->deed == Deed::drop_run && run_of(model, question->run.number()) == nullptr;
    if (question->asked.is_done(notice) || is_gone) {
        question.reset();
        return;
    }
    if (notice.kind == app::Notice::Kind::failed)
        return; // the failure stands in front; the question comes back with what was typed
    const auto words = words_of(*question, tried);
    const auto answer = ui::ask(
        {.title = words.title, .harmless = words.harmless, .deed = words.deed, .deed_kind = words.kind},
        [&] { fields(*question, tried, model, lots); });
    if (answer == ui::Answer::harmless) {
        question.reset();
    } else if (answer == ui::Answer::deed) {
        question->asked.refusals = missing(*question, lots);
        if (!question->asked.refusals.empty())
            return;
        question->asked.ask(notice);
        out.push_back(intent_of(*question, tried, model, lots));
    }
}

} // namespace mellowbin::views
