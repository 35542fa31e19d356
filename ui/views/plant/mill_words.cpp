#include "ui/views/plant/mill_words.h"

#include "app/acts/mill_words.h"
#include "ui/views/common/changed.h"
#include "ui/views/common/figure_fields.h"
#include "ui/views/common/words.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using app::MillWordRow;
using app::PlantModel;
using ui::Role;

constexpr const char* as_printed = "as printed";

MillWordDraft draft_of(const MillWord& word) {
    return {word.means, word.unit, word.basis, word.method, word.nitrogen_factor};
}

MillWord typed_over(MillWord word, const MillWordDraft& draft) {
    word.means = draft.means;
    word.unit = draft.unit;
    word.basis = draft.basis;
    word.method = draft.method;
    word.nitrogen_factor = draft.nitrogen_factor;
    return word;
}

std::vector<const MillWordRow*> words_of(const PlantModel& model, PlantRef mill) {
    std::vector<const MillWordRow*> rows;
    for (const auto& row : model.mill_words)
        if (row.word.mill.number() == mill.number)
            rows.push_back(&row);
    return rows;
}

void list(MillWordsForm& words, const std::vector<const MillWordRow*>& rows) {
    static constexpr ui::Column columns[] = {
        {.head = "On its papers", .sample = "Feuchtkleber i. Tr.", .stretch = 1, .sortable = false},
        {.head = "Means", .sample = "Falling number", .sortable = false},
        {.head = "Unit", .sample = "mm H2O", .sortable = false, .gives_way = 2},
        {.head = "Basis", .sample = "14 % moisture", .sortable = false},
        {.head = "Test method", .sample = "ICC 115/1", .sortable = false, .gives_way = 1},
        {.head = "Since", .sample = "24 Nov 14:20, Ines", .sortable = false, .gives_way = 3},
    };
    const auto write = [&](std::size_t i, ui::RowWriter& row) {
        const auto& word = *rows[i];
        row.cell(word.shown);
        row.cell(word.means);
        row.cell(word.word.unit, Role::quiet);
        row.cell(word.word.basis);
        row.cell(word.word.nitrogen_factor.empty() ? word.word.method
                                                   : word.word.method + " N x " + word.word.nitrogen_factor);
        row.cell(word.since, Role::quiet);
    };
    const auto events =
        ui::table({.name = "Words on its certificates",
                   .columns = columns,
                   .rows = rows.size(),
                   .record = [](std::size_t i) { return static_cast<std::int64_t>(i); },
                   .write_row = write,
                   .when_empty = "None yet. They are learned from the first certificate that is taken over.",
                   .density = ui::Density::close,
                   .height = {2.3F + 2.1F * std::clamp(static_cast<float>(rows.size()), 2.0F, 10.0F)}},
                  words.list);
    if (events.opened && words.list.selected) {
        const auto& word = rows[static_cast<std::size_t>(*words.list.selected)]->word;
        words.form.open_for(key_of(word), draft_of(word));
    }
}

void choose(std::string_view label, ui::Length width, const std::vector<std::string>& keys,
            std::vector<std::string> names, std::string& chosen_key, const Refusals& refusals) {
    const auto at = std::find(keys.begin(), keys.end(), chosen_key);
    int chosen = at == keys.end() ? -1 : static_cast<int>(at - keys.begin());
    if (ui::choice({.label = label, .refusals = &refusals, .width = width}, names, chosen))
        chosen_key = keys[static_cast<std::size_t>(chosen)];
}

/// One of the words, or what is printed.
void choose_or_printed(std::string_view label, const std::vector<std::string>& words, std::string& text,
                       const Refusals& refusals) {
    std::vector<std::string> keys{""}, names{as_printed};
    for (const auto& word : words) {
        keys.push_back(word);
        names.push_back(word);
    }
    choose(label, 10_em, keys, std::move(names), text, refusals);
}

void label_fields(MillWordDraft& draft, const PlantModel& model, const Refusals& refusals) {
    std::vector<std::string> keys, names;
    for (const auto& one : model.meanings) {
        keys.push_back(one.key);
        names.push_back(one.name);
    }
    choose("Means", 14_em, keys, std::move(names), draft.means, refusals);
    const auto means = std::find_if(model.meanings.begin(), model.meanings.end(),
                                    [&](const app::MeaningChoice& one) { return one.key == draft.means; });
    if (means == model.meanings.end())
        return;
    if (!means->units.empty())
        choose_or_printed("Unit", means->units, draft.unit, refusals);
    if (means->has_basis)
        choose_or_printed("Basis", {"as is", "14 % moisture", "dry matter"}, draft.basis, refusals);
    if (means->has_method)
        ui::text_field({.label = "Method", .hint = as_printed, .refusals = &refusals, .width = 10_em},
                       draft.method);
    if (means->has_nitrogen_factor)
        ui::number_field(
            {.label = "Nitrogen factor", .hint = as_printed, .refusals = &refusals, .width = 8_em},
            draft.nitrogen_factor);
}

void fields(const MillWord& word, MillWordDraft& draft, const PlantModel& model, const Refusals& refusals) {
    switch (word.kind) {
    case MillWordKind::label:
        return label_fields(draft, model, refusals);
    case MillWordKind::dates:
        return choose("Means", 18_em, {"day_first", "month_first"},
                      {"the day before the month", "the month before the day"}, draft.means, refusals);
    case MillWordKind::decimals:
        return choose("Means", 18_em, {"point", "comma"}, {"after a point", "after a comma"}, draft.means,
                      refusals);
    case MillWordKind::flour:
        name_choice({.label = "Means", .refusals = &refusals, .width = 16_em}, model.flours, draft.means);
        return;
    case MillWordKind::mill:
    case MillWordKind::place:
        break;
    }
    ui::text_field({.label = "Means", .refusals = &refusals, .width = 16_em}, draft.means);
}

/// At the form's own fields: "feuchtkleber: Basis" is "Basis" there.
Refusals at_fields(const Refusals& refusals, const MillWord& word) {
    Refusals own = refusals;
    for (auto& refusal : own)
        if (refusal.field.starts_with(word.word + ": "))
            refusal.field.erase(0, word.word.size() + 2);
    return own;
}

void word_form(MillWordsForm& words, const MillWordRow& row, const PlantModel& model,
               const app::Notice& notice, app::Intents& out) {
    const auto key = key_of(row.word);
    auto& draft = words.form.drafts[key];
    const auto first = typed_over(row.word, words.form.firsts[key]);
    const auto refusals = at_fields(words.form.refusals_of(key), row.word);
    const auto send = [&](std::optional<MillWord> after) {
        words.form.ask(key, notice);
        out.emplace_back(app::ChangeMillWords{row.word.mill, {{first, std::move(after)}}});
    };
    ui::part(row.shown);
    if (!means_same(first, row.word))
        stands_otherwise(app::in_words(row.word), row.since);
    ui::form("Word", [&] {
        ui::flow([&] { fields(row.word, draft, model, refusals); });
        ui::all_refusals(all_but(refusals, {"Means", "Unit", "Basis", "Method", "Nitrogen factor"}));
        ui::flow([&] {
            const auto typed = typed_over(row.word, draft);
            const std::string_view blocked = words.form.is_sent(key)    ? "is being kept"
                                             : means_same(first, typed) ? "nothing was changed"
                                                                        : "";
            if (ui::button("Keep this meaning", {.kind = ui::ButtonKind::primary, .blocked = blocked}))
                send(typed);
            if (ui::button("Forget it", {.kind = ui::ButtonKind::stop}))
                send({});
            if (ui::button("Leave it as it is", {.kind = ui::ButtonKind::quiet})) {
                words.form.forget(key);
                words.form.open.reset();
            }
        });
    });
}

} // namespace

std::string key_of(const MillWord& word) {
    return fmt::format("{}-{}-{}", word.mill.number(), mellowbin::key_of(word.kind), word.word);
}

void draw_mill_words(MillWordsForm& words, PlantRef mill, const std::string& name, const PlantModel& model,
                     const app::Notice& notice, app::Intents& out) {
    const auto rows = words_of(model, mill);
    ui::gap(2);
    ui::heading(fmt::format("What {} writes on its certificates", name));
    ui::hint("Enter opens a word.");
    list(words, rows);
    const auto open = std::find_if(rows.begin(), rows.end(), [&](const MillWordRow* row) {
        return words.form.is_open_for(key_of(row->word));
    });
    if (open != rows.end())
        ui::scope(key_of((*open)->word), [&] { word_form(words, **open, model, notice, out); });
}

} // namespace mellowbin::views
