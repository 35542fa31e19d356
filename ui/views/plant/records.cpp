#include "ui/views/plant/records.h"

#include "core/plant.h"
#include "core/typed_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

namespace mellowbin::views {
namespace {

bool is_blank(const WindowDraft& row) {
    return trimmed(row.property + row.low + row.high + row.method).empty();
}
bool is_blank(const ClimateStepDraft& row) { return trimmed(row.from + row.temperature).empty(); }
bool is_blank(const IngredientDraft& row) {
    return trimmed(row.name + row.percent + row.water + row.temperature).empty();
}

template <class Row> void drop_blank(std::vector<Row>& rows) {
    std::erase_if(rows, [](const Row& row) { return is_blank(row); });
}

// Reading as the book will

template <class Record> Refusals refusals_of(const Result<Record>& read) {
    return read ? Refusals{} : read.refusals();
}

/// The flours by name, as far as a product is read against them.
std::vector<Flour> flours_of(const app::PlantModel& model) {
    std::vector<Flour> flours;
    for (const auto& row : model.of(PlantKind::flour)) {
        auto& flour = flours.emplace_back();
        flour.id = FlourId{row.record.number};
        flour.name = row.name;
        flour.is_retired = row.is_retired;
    }
    return flours;
}

std::vector<Market> markets_of(const app::PlantModel& model) {
    std::vector<Market> markets;
    for (const auto& key : model.markets)
        markets.push_back({key, key, {}});
    return markets;
}

Refusals why_not_kept(const PlantDraft& draft, const app::PlantModel& model) {
    switch (draft.kind) {
    case PlantKind::mill:
        return refusals_of(accept_mill(draft));
    case PlantKind::flour:
        return refusals_of(accept_flour(draft));
    case PlantKind::place:
        return refusals_of(accept_place(draft));
    case PlantKind::line:
        return refusals_of(accept_line(draft));
    case PlantKind::product:
        break;
    }
    return refusals_of(accept_product(draft, flours_of(model), markets_of(model)));
}

// Rows: the book counts those in which something is typed, and calls an ingredient by its name

struct RowNames {
    std::string on_form, in_book;
};

template <class Row, class Name>
void name_rows(std::string_view list, const std::vector<Row>& rows, Name name_in_book,
               std::vector<RowNames>& names) {
    std::size_t filled = 0;
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (!is_blank(rows[i]))
            names.push_back({row_name(list, i), name_in_book(rows[i], filled++)});
}

std::vector<RowNames> names_of_rows(const PlantDraft& draft) {
    std::vector<RowNames> names;
    const auto by_place = [](std::string_view list) {
        return [list](const auto&, std::size_t at) { return row_name(list, at); };
    };
    const auto by_name = [](const IngredientDraft& row, std::size_t at) {
        const auto name = trimmed(row.name);
        return name.empty() ? row_name("Ingredient", at) : fmt::format("Ingredient {}", excerpt(name));
    };
    for (const auto& list : plant_lists(draft.kind)) {
        if (list.key == "windows")
            name_rows(list.label, draft.windows, by_place(list.label), names);
        else if (list.key == "second_flour.windows")
            name_rows(list.label, draft.second_windows, by_place(list.label), names);
        else if (list.key == "climate")
            name_rows(list.label, draft.climate, by_place(list.label), names);
        else
            name_rows(list.label, draft.ingredients, by_name, names);
    }
    return names;
}

/// The refusals at the rows as they stand on the form.
Refusals at_rows(const Refusals& refusals, const PlantDraft& draft) {
    const auto names = names_of_rows(draft);
    Refusals placed;
    for (const auto& refusal : refusals) {
        bool is_of_row = false;
        for (const auto& row : names) {
            if (refusal.field != row.in_book && !refusal.field.starts_with(row.in_book + ", "))
                continue;
            placed.push_back(
                {row.on_form + refusal.field.substr(row.in_book.size()), refusal.what, refusal.remedy});
            is_of_row = true;
        }
        if (!is_of_row)
            placed.push_back(refusal);
    }
    return placed;
}

/// Of a row, or of a list, once one of its fields was gone through.
bool was_gone_through(const GoneThrough& gone, const std::string& field) {
    return gone.all || gone.fields.contains(field) ||
           std::any_of(gone.fields.begin(), gone.fields.end(), [&](const std::string& one) {
               return one.starts_with(field + ", ") ||
                      (field == "Ingredients" && one.starts_with("Ingredient "));
           });
}

// What others write meanwhile

/// Nobody typed over it, or both say the same: it follows the book.
template <class Part> void follow_part(Part& typed, Part& before, const Part& now) {
    if (typed == before || typed == now)
        typed = before = now;
}

void follow_record(PlantTyped& typed, const PlantDraft& now) {
    for (const auto& [key, text] : now.texts)
        follow_part(typed.draft.texts[key], typed.before.texts[key], text);
    follow_part(typed.draft.windows, typed.before.windows, now.windows);
    follow_part(typed.draft.second_windows, typed.before.second_windows, now.second_windows);
    follow_part(typed.draft.climate, typed.before.climate, now.climate);
    follow_part(typed.draft.ingredients, typed.before.ingredients, now.ingredients);
}

} // namespace

PlantDraft without_blank_rows(PlantDraft draft) {
    drop_blank(draft.windows);
    drop_blank(draft.second_windows);
    drop_blank(draft.climate);
    drop_blank(draft.ingredients);
    return draft;
}

std::string row_name(std::string_view list, std::size_t at) { return fmt::format("{} {}", list, at + 1); }

PlantTyped PlantForms::shown(PlantRef record, const app::PlantModel& model) const {
    if (const auto typed = form.drafts.find(record); typed != form.drafts.end())
        return typed->second;
    const auto* row = model.find(record);
    const auto draft = row ? row->draft : blank_draft(record.kind);
    return {draft, draft};
}

bool PlantForms::is_changed(PlantRef record) const {
    const auto typed = form.drafts.find(record);
    return typed != form.drafts.end() && without_blank_rows(typed->second.draft) != typed->second.before;
}

void PlantForms::type(PlantRef record, PlantTyped typed) {
    if (typed.draft == typed.before)
        form.drafts.erase(record);
    else
        form.drafts.insert_or_assign(record, std::move(typed));
}

void PlantForms::forget_answer(PlantRef record, std::string_view field) {
    auto refusals = form.refusals_of(record);
    const auto gone = std::erase_if(refusals, [&](const Refusal& refusal) { return refusal.field == field; });
    if (gone > 0)
        form.refuse(record, std::move(refusals));
}

void PlantForms::throw_away(PlantRef record) {
    const auto typed = form.drafts.find(record);
    if (typed == form.drafts.end())
        return;
    ThrownAway away{record, std::move(typed->second)};
    forget(record);
    thrown_away = std::move(away);
}

void PlantForms::bring_back() {
    if (thrown_away)
        form.drafts.insert_or_assign(thrown_away->record, std::move(thrown_away->typed));
    thrown_away.reset();
}

void PlantForms::forget(PlantRef record) {
    form.drafts.erase(record);
    gone_through.erase(record);
    if (!form.refusals_of(record).empty())
        form.refuse(record, {});
    if (thrown_away && thrown_away->record == record)
        thrown_away.reset();
}

void PlantForms::follow(const app::PlantModel& model) {
    std::vector<PlantRef> gone;
    for (auto& [record, typed] : form.drafts)
        if (const auto* row = model.find(record))
            follow_record(typed, row->draft);
        else if (record.number != 0)
            gone.push_back(record);
    std::erase_if(form.drafts, [](const auto& one) { return one.second.draft == one.second.before; });
    for (const auto record : gone) {
        const PlantRef anew{record.kind, 0};
        auto typed = std::move(form.drafts[record].draft);
        forget(record);
        if (form.drafts.try_emplace(anew, PlantTyped{std::move(typed), blank_draft(record.kind)}).second &&
            form.open == record)
            form.open = anew;
    }
}

void PlantForms::take_refusals(PlantRef record, const app::PlantModel& model) {
    gone_through[record].all = true;
    auto& typed = form.drafts[record];
    form.refuse(record, at_rows(form.refusals_of(record), typed.draft));
    if (const auto* row = model.find(record)) {
        follow_record(typed, row->draft);
        typed.before = row->draft;
    }
}

Refusals PlantForms::said(PlantRef record, const PlantDraft& draft, const app::PlantModel& model) const {
    const auto gone = gone_through.find(record);
    if (gone == gone_through.end())
        return {};
    const auto against = at_rows(why_not_kept(without_blank_rows(draft), model), draft);
    Refusals said;
    for (const auto& refusal : against)
        if (was_gone_through(gone->second, refusal.field))
            said.push_back(refusal);
    for (const auto& answer : form.refusals_of(record))
        if (std::none_of(against.begin(), against.end(),
                         [&](const Refusal& one) { return one.field == answer.field; }))
            said.push_back(answer);
    return said;
}

} // namespace mellowbin::views
