#include "ui/views/plant/fields.h"

#include "core/typed_text.h"
#include "ui/widgets/form_row.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <vector>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;

constexpr std::string_view none = "none";
constexpr ui::Length label_width = 12.5_em, typed_width = 13.5_em, chosen_width = 14.5_em,
                     number_width = 6.5_em;

struct FieldNote {
    std::string words;
    Role role = Role::quiet;
};

/// What the field is for; where it was typed over, what the book has, and who changed that meanwhile.
FieldNote note_of(const RecordForm& form, const PlantField& field) {
    if (!form.row)
        return {std::string(field.what)};
    const auto& now = form.row->draft.text(field.key);
    if (form.typed.draft.text(field.key) == now)
        return {std::string(field.what)};
    const auto has = fmt::format("the book has {}", now.empty() ? "nothing" : now);
    if (form.typed.before.text(field.key) == now)
        return {has};
    return {form.row->changed.empty() ? has + " now" : fmt::format("{}: {} now", form.row->changed, has),
            Role::mind};
}

void row(RecordForm& form, const PlantField& field, ui::Length width, ui::Body boxes, const FieldNote& note) {
    ui::form_row({.label = field.label,
                  .refusals = &form.refusals,
                  .note = note.words,
                  .note_role = note.role,
                  .label_width = label_width,
                  .box_width = width},
                 boxes);
}

void typed_row(RecordForm& form, const PlantField& field) {
    auto& text = form.typed.draft.texts[std::string(field.key)];
    const bool is_number = field.shape != FieldShape::words;
    auto box = ui::field_in_row(field.label, form.refusals, field.unit, field.otherwise);
    if (is_number)
        box.width = number_width;
    row(
        form, field, typed_width,
        [&] {
            form.follow(field.label, is_number ? ui::number_field(box, text) : ui::text_field(box, text));
        },
        note_of(form, field));
}

bool is_named(const PlantField& field, std::size_t at, std::string_view option, std::string_view text) {
    return same_words(option, text) || (at < field.words.size() && field.words[at].key == text);
}

/// The place of what holds; nothing where that is none of the options.
std::optional<std::size_t> place_among(const std::vector<std::string>& options, const PlantField& field,
                                       std::string_view text) {
    for (std::size_t i = 0; i < options.size(); ++i)
        if (is_named(field, i, options[i], text))
            return i;
    return {};
}

/// One of the options, or none of them where that may be.
void chosen_row(RecordForm& form, const PlantField& field, std::vector<std::string> options,
                std::string_view when_there_are_none = {}) {
    auto& text = form.typed.draft.texts[std::string(field.key)];
    const auto holds = text.empty() ? field.otherwise : std::string_view(text);
    const auto at = holds.empty() ? std::nullopt : place_among(options, field, holds);
    auto note = note_of(form, field);
    if (options.empty())
        note = {std::string(when_there_are_none), Role::mind};
    if (!holds.empty() && !at)
        note = {fmt::format("\"{}\" is not in the list any more", holds), Role::mind};
    const bool may_be_none = !field.is_required && field.otherwise.empty();
    if (may_be_none)
        options.insert(options.begin(), std::string(none));
    const int before_them = may_be_none ? 1 : 0;
    int chosen = at ? static_cast<int>(*at) + before_them : holds.empty() ? before_them - 1 : -1;
    auto box = ui::field_in_row(field.label, form.refusals);
    box.width = chosen_width;
    row(
        form, field, chosen_width,
        [&] {
            if (!ui::choice(box, options, chosen))
                return;
            text = may_be_none && chosen == 0 ? std::string() : options[static_cast<std::size_t>(chosen)];
            form.follow(field.label, {.changed = true, .left = true});
        },
        note);
}

std::vector<std::string> words_of(const PlantField& field) {
    std::vector<std::string> names;
    for (const auto& word : field.words)
        names.emplace_back(word.name);
    return names;
}

void draw_field(RecordForm& form, const PlantField& field) {
    switch (field.shape) {
    case FieldShape::words:
    case FieldShape::number:
    case FieldShape::whole:
        return typed_row(form, field);
    case FieldShape::one_of:
        return chosen_row(form, field, words_of(field));
    case FieldShape::yes_no:
        return chosen_row(form, field, {"no", "yes"});
    case FieldShape::flour:
        return chosen_row(form, field, form.model.flours, "there is no flour yet: add one on Flours");
    case FieldShape::market:
        return chosen_row(form, field, form.model.markets, "the book knows no market");
    }
}

bool is_of_list(const PlantList& list, const std::string& field) {
    return field == list.label || field == std::string(list.label) + "s" ||
           field.starts_with(std::string(list.label) + " ");
}

} // namespace

void draw_fields(RecordForm& form) {
    std::string_view head;
    for (const auto& field : plant_fields(form.typed.draft.kind)) {
        if (field.key == "retired")
            continue;
        if (field.head != head) {
            head = field.head;
            ui::gap(1);
            ui::heading(head);
            if (head == "Oxidant")
                ui::paragraph(oxidant_caution);
        }
        draw_field(form, field);
    }
}

Refusals without_place(const Refusals& refusals, PlantKind kind) {
    const auto fields = plant_fields(kind);
    const auto lists = plant_lists(kind);
    Refusals rest;
    for (const auto& refusal : refusals) {
        const bool has_field = std::any_of(fields.begin(), fields.end(), [&](const PlantField& field) {
            return field.label == refusal.field && field.key != "retired";
        });
        const bool has_list = std::any_of(lists.begin(), lists.end(), [&](const PlantList& list) {
            return is_of_list(list, refusal.field);
        });
        if (!has_field && !has_list)
            rest.push_back(refusal);
    }
    return rest;
}

} // namespace mellowbin::views
