#include "ui/views/lots/question.h"

#include "app/acts/looking.h"
#include "app/acts/lots.h"
#include "app/acts/mill_returns.h"
#include "app/acts/notice.h"
#include "app/acts/stock.h"
#include "app/models/lots.h"
#include "core/typed_text.h"
#include "ui/views/common/changed.h"
#include "ui/views/common/day_words.h"
#include "ui/views/common/words.h"
#include "ui/views/lots/concession_fields.h"
#include "ui/views/lots/findings.h"
#include "ui/views/lots/question_words.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace mellowbin::views {
namespace {

using Deed = LotQuestion::Deed;

const app::LotRow* row_of(const LotQuestion& q, const app::LotsModel& model) {
    if (model.opened && model.opened->row.id == q.lot)
        return &model.opened->row;
    const auto at = std::find_if(model.rows.begin(), model.rows.end(),
                                 [&](const app::LotRow& row) { return row.id == q.lot; });
    return at == model.rows.end() ? nullptr : &*at;
}

/// kg that the book has now in the place that is asked about; as it was where the lot is not opened.
std::string booked_now(const LotQuestion& q, const app::LotSheet* sheet) {
    if (q.booked.empty() || !sheet)
        return q.booked;
    const auto at = std::find_if(sheet->places.begin(), sheet->places.end(),
                                 [&](const app::PlaceShare& share) { return share.place == q.place; });
    return kilograms(at == sheet->places.end() ? 0 : at->kg);
}

/// Another station was at the lot since the question was asked.
void tell_changes(const LotQuestion& q, const app::LotsModel& model, const std::string& booked) {
    const auto* row = row_of(q, model);
    if (!row)
        return;
    if (row->state != q.state)
        stands_otherwise(fmt::format("the lot is {} now", lower_case(name_of(row->state))), row->changed);
    else if (booked != q.booked)
        stands_otherwise(fmt::format("the book had {} kg there and has {} kg now", q.booked, booked),
                         row->changed);
    else
        changed_meanwhile(row->changed);
}

void weight_field(LotQuestion& q, std::string_view note) {
    ui::number_field({.label = "Weight", .unit = "kg", .refusals = &q.asked.refusals, .note = note}, q.kg);
}

void reason_field(LotQuestion& q, std::string_view note = {}) {
    ui::text_field({.label = "Reason", .refusals = &q.asked.refusals, .note = note}, q.reason);
}

/// Any place but the one it lies in.
void to_field(LotQuestion& q, const app::LotsModel& model) {
    std::vector<PlaceId> places;
    std::vector<std::string> names;
    for (const auto& [place, name] : model.places) {
        if (place == q.place)
            continue;
        places.push_back(place);
        names.push_back(name);
    }
    const auto at = std::find(places.begin(), places.end(), q.to);
    int chosen = at == places.end() ? -1 : static_cast<int>(at - places.begin());
    if (ui::choice({.label = "To", .refusals = &q.asked.refusals}, names, chosen))
        q.to = places[static_cast<std::size_t>(chosen)];
}

/// The run whose flour comes back; where there is only one, it is that one.
void run_field(LotQuestion& q, const app::LotSheet& sheet) {
    std::vector<std::string> names;
    int chosen = sheet.out.size() == 1 ? 0 : -1;
    for (std::size_t i = 0; i < sheet.out.size(); ++i) {
        names.push_back(fmt::format("{}: {} kg", sheet.out[i].run_words, kilograms(sheet.out[i].kg)));
        if (q.run && sheet.out[i].run == q.run)
            chosen = static_cast<int>(i);
    }
    ui::choice({.label = "Run", .refusals = &q.asked.refusals, .note = "less what came back before"}, names,
               chosen);
    if (chosen >= 0)
        q.run = sheet.out[static_cast<std::size_t>(chosen)].run;
}

bool is_refused(const LotQuestion& q, std::string_view field) {
    const auto& refusals = q.asked.refusals;
    return std::any_of(refusals.begin(), refusals.end(),
                       [&](const Refusal& refusal) { return refusal.field == field; });
}

/// A lot that fails its specification is not released without a word.
void release_fields(LotQuestion& q, const app::LotSheet* sheet, Day today) {
    if (sheet)
        draw_before_release(*sheet);
    const bool fails = sheet && !sheet->failing.empty();
    if (fails)
        ui::status(ui::Role::stop,
                   "It is out of specification: release it with a reason, or with a concession.");
    if (ui::tick("With a concession", q.with_concession,
                 {.note = "only into some products, or only until a day"}) &&
        q.with_concession && sheet)
        begin_concession(q, *sheet);
    if (q.with_concession && sheet)
        concession_fields(q.concession, *sheet, q.asked.refusals, today);
    else if (q.state == LotState::held || fails || is_refused(q, "Reason")) // it may fail since a moment ago
        reason_field(q, q.state == LotState::held ? "why it may be used after all"
                                                  : "why it is released all the same");
}

/// From where, where there are several; empty weight: all that lies there.
void to_mill_fields(LotQuestion& q, const app::LotSheet* sheet) {
    std::vector<PlaceId> places{PlaceId{}};
    std::vector<std::string> names{"every place"};
    for (const auto& share : sheet ? sheet->places : std::vector<app::PlaceShare>{}) {
        places.push_back(share.place);
        names.push_back(fmt::format("{}: {} kg", share.name, kilograms(share.kg)));
    }
    const auto at = std::find(places.begin(), places.end(), q.place);
    int chosen = at == places.end() ? 0 : static_cast<int>(at - places.begin());
    const bool are_several = places.size() > 2;
    if (are_several && ui::choice({.label = "From", .refusals = &q.asked.refusals}, names, chosen))
        q.place = places[static_cast<std::size_t>(chosen)];
    if (!are_several && is_refused(q, "From"))
        ui::status(ui::Role::stop, "Nothing of it lies there any more.");
    weight_field(q, "empty: all that lies there");
    reason_field(q);
    ui::text_field(
        {.label = "Paper", .hint = "its number", .refusals = &q.asked.refusals, .note = "that it goes with"},
        q.document);
}

void fields(LotQuestion& q, const app::LotsModel& model, Day today) {
    const auto* sheet = model.opened && model.opened->row.id == q.lot ? &*model.opened : nullptr;
    if (const auto meaning = what_it_means(q); !meaning.empty())
        ui::paragraph(meaning);
    const auto booked = booked_now(q, sheet);
    tell_changes(q, model, booked);
    const auto in_book = booked.empty() ? std::string() : fmt::format("the book has {} kg there", booked);
    switch (q.deed) {
    case Deed::release:
        release_fields(q, sheet, today);
        break;
    case Deed::hold:
    case Deed::reject:
    case Deed::end_concession:
        reason_field(q);
        break;
    case Deed::judge_anew:
        if (sheet)
            concession_fields(q.concession, *sheet, q.asked.refusals, today);
        break;
    case Deed::to_mill:
        to_mill_fields(q, sheet);
        break;
    case Deed::extend:
        if (sheet)
            ui::paragraph(sheet->best_before_words);
        ui::date_field({.label = "Until", .hint = "YYYY-MM-DD", .refusals = &q.asked.refusals}, q.until,
                       today);
        reason_field(q);
        break;
    case Deed::give_back:
        if (sheet)
            run_field(q, *sheet);
        weight_field(q, {});
        to_field(q, model);
        reason_field(q);
        break;
    case Deed::move:
        weight_field(q, in_book);
        to_field(q, model);
        break;
    case Deed::count:
        ui::number_field({.label = "Counted", .unit = "kg", .refusals = &q.asked.refusals, .note = in_book},
                         q.kg);
        reason_field(q, "why it differs; empty where it is as the book says");
        break;
    case Deed::waste:
        weight_field(q, in_book);
        reason_field(q);
        break;
    case Deed::take_back:
        ui::paragraph(q.movement_words, {.weight = ui::Weight::bold});
        reason_field(q);
        break;
    }
    ui::all_refusals(all_but(q.asked.refusals, {"Weight", "Counted", "Reason", "To", "Until", "Run", "From",
                                                "Paper", "Conceded", "Conceded by", "For products"}));
}

app::Intent intent_of(const LotQuestion& q) {
    switch (q.deed) {
    case Deed::release:
        return app::ReleaseLot{q.lot, q.reason,
                               q.with_concession ? std::optional(q.concession) : std::nullopt};
    case Deed::hold:
        return app::HoldLot{q.lot, q.reason};
    case Deed::reject:
        return app::RejectLot{q.lot, q.reason};
    case Deed::extend:
        return app::ExtendBestBefore{q.lot, q.until, q.reason};
    case Deed::give_back:
        return app::GiveBack{q.lot, q.to, q.kg, q.run, q.reason};
    case Deed::move:
        return app::MoveLot{q.lot, q.place, q.to, q.kg};
    case Deed::count:
        return app::CountLot{q.lot, q.place, q.kg, q.reason};
    case Deed::waste:
        return app::WasteLot{q.lot, q.place, q.kg, q.reason};
    case Deed::take_back:
        return app::CounterMovement{q.movement, q.reason};
    case Deed::judge_anew:
        return app::ConcedeLot{q.lot, q.concession};
    case Deed::end_concession:
        return app::EndConcession{q.lot, q.reason};
    case Deed::to_mill:
        return app::ReturnToMill{q.lot, q.place.is_known() ? std::optional(q.place) : std::nullopt, q.kg,
                                 q.reason, q.document};
    }
    return app::PutAwayNotice{};
}

std::string_view missing(const LotQuestion& q) {
    const bool goes_somewhere = q.deed == Deed::move || q.deed == Deed::give_back;
    return goes_somewhere && !q.to.is_known() ? "Choose where to" : "";
}

} // namespace

void draw(std::optional<LotQuestion>& question, const app::LotsModel& model, Day today,
          const app::Notice& notice, app::Intents& out) {
    if (!question)
        return;
    if (question->asked.is_done(notice)) {
        question.reset();
        return;
    }
    if (notice.kind == app::Notice::Kind::failed)
        return; // the failure stands in front; the question comes back with what was typed
    const auto words = words_for(*question);
    const auto chosen = ui::ask({.title = words.title,
                                 .harmless = words.harmless,
                                 .deed = words.deed,
                                 .deed_kind = words.kind,
                                 .deed_blocked = missing(*question)},
                                [&] { fields(*question, model, today); });
    if (chosen == ui::Answer::harmless) {
        question.reset();
    } else if (chosen == ui::Answer::deed) {
        question->asked.ask(notice);
        out.push_back(intent_of(*question));
    }
}

} // namespace mellowbin::views
