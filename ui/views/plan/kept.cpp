#include "ui/views/plan/kept.h"

#include <fmt/format.h>

#include <array>

namespace mellowbin::views {
namespace {

// Their choices are places in the model's lists.

void keep_fields(auto& k, Kind<RunForm> auto& form, const app::PlanModel& model) {
    auto& [is_open, product, line, day, batches, first_product, first_day, wants_focus, added] = form;
    k("is_open", is_open);
    keep_choice(k, "product", product, model.products);
    keep_choice(k, "line", line, model.line_names);
    k("day", day);
    k("batches", batches);
    keep_choice(k, "first_product", first_product, model.products);
    k("first_day", first_day);
}

void keep_fields(auto& k, Kind<PlanQuestion> auto& question, const app::PlanModel& model) {
    static constexpr std::array<std::string_view, 5> deeds{"change_run", "drop_run", "it_came", "called_off",
                                                           "end_reservation"};
    auto& [deed, run, delivery, reservation, words, line, day, batches, place, was_line, was_day, was_place,
           lot, reason, asked] = question;
    keep_word(k, "deed", deed, deeds);
    k("run", run);
    k("delivery", delivery);
    k("reservation", reservation);
    k("words", words);
    keep_choice(k, "line", line, model.line_names);
    k("day", day);
    k("batches", batches);
    k("place", place);
    k("was_line", was_line);
    k("was_day", was_day);
    k("was_place", was_place);
    k("lot", lot);
    k("reason", reason);
}

void keep_fields(auto& k, Kind<ReserveForm> auto& form, const app::PlanModel& model) {
    auto& [is_open, lot, kg, reason, product, asked] = form;
    k("is_open", is_open);
    k("lot", lot);
    k("kg", kg);
    k("reason", reason);
    keep_choice(k, "product", product, model.products, 1);
}

void keep_fields(auto& k, Kind<WhatIf> auto& what_if, const app::PlanModel& model) {
    auto& [kind, run, line, day, place, flour, kg, arrives, market, lot, asked, asked_kind] = what_if;
    k("kind", kind);
    k("run", run);
    keep_choice(k, "line", line, model.line_names);
    k("day", day);
    k("place", place);
    k("flour", flour);
    k("kg", kg);
    k("arrives", arrives);
    k("market", market);
    k("lot", lot);
}

} // namespace

void keep(auto& k, Kind<ExpectForm> auto& form) {
    auto& [is_open, mill, flour, kg, arrives, milled, order, asked] = form;
    k("is_open", is_open);
    k("mill", mill);
    k("flour", flour);
    k("kg", kg);
    k("arrives", arrives);
    k("milled", milled);
    k("order", order);
}

namespace {

using Deed = PlanQuestion::Deed;

bool is_begun(const RunForm& form) {
    return !form.batches.empty() ||
           (form.is_open && (form.product != form.first_product || form.day != form.first_day));
}

bool is_begun(const PlanQuestion& q, const app::PlanModel& model) {
    if (q.deed != Deed::change_run)
        return !(q.lot + q.reason).empty();
    const auto line = q.line_in(model);
    return !q.batches.empty() || (!line.empty() && line != q.was_line) || q.day != q.was_day ||
           q.place != q.was_place;
}

bool is_begun(const ExpectForm& f) {
    return !(f.mill + f.flour + f.kg + f.arrives + f.milled + f.order).empty();
}
bool is_begun(const ReserveForm& f) { return !(f.lot + f.kg + f.reason).empty(); }
bool is_begun(const WhatIf& w) { return !(w.kg + w.arrives + w.lot).empty(); }

std::string words_of(const PlanQuestion& q) {
    switch (q.deed) {
    case Deed::change_run:
        return "a change of " + q.words;
    case Deed::drop_run:
        return "the dropping of " + q.words;
    case Deed::it_came:
        return "a delivery that came: " + q.words;
    case Deed::called_off:
        return "a delivery called off: " + q.words;
    case Deed::end_reservation:
        return "the end of a reservation: " + q.words;
    }
    return {};
}

/// One that somebody works on stays as it is.
template <class Begun> void take_up_one(KeptReader& k, std::string_view name, Begun& form, auto fields) {
    if (is_begun(form) || !k.has(name))
        return;
    k.within(name, [&] { fields(form); });
}

} // namespace

void keep_begun(KeptWriter& k, const PlanView& view, const app::PlanModel& model) {
    const auto keep_one = [&](std::string_view name, const auto& form, std::string words) {
        k.begun(std::move(words));
        k.within(name, [&] { keep_fields(k, form, model); });
    };
    if (is_begun(view.form))
        keep_one("run", view.form, "a run to add");
    if (view.question && is_begun(*view.question, model))
        keep_one("question", *view.question, words_of(*view.question));
    if (is_begun(view.flour.expect)) {
        k.begun("a delivery to come");
        k("expect", view.flour.expect);
    }
    if (is_begun(view.flour.reserve))
        keep_one("reserve", view.flour.reserve, "a reservation");
    if (is_begun(view.what_if))
        keep_one("what_if", view.what_if, "a supposition");
    k("page", view.page);
    k("is_what_if", view.is_what_if);
}

void take_up(KeptReader& k, PlanView& view, const app::PlanModel& model) {
    const auto fields = [&](auto& form) { keep_fields(k, form, model); };
    take_up_one(k, "run", view.form, fields);
    if (!view.question && k.has("question"))
        k.within("question", [&] { fields(view.question.emplace()); });
    take_up_one(k, "expect", view.flour.expect, [&](auto& form) { keep(k, form); });
    take_up_one(k, "reserve", view.flour.reserve, fields);
    take_up_one(k, "what_if", view.what_if, fields);
    k("page", view.page);
    k("is_what_if", view.is_what_if);
    if (view.page < PlanView::board_page || view.page > PlanView::flour_page)
        view.page = PlanView::board_page;
}

} // namespace mellowbin::views
