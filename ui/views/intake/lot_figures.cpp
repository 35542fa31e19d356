#include "core/specification.h"
#include "ui/views/common/figure_fields.h"
#include "ui/views/intake/lot_form.h"
#include "ui/widgets/form_row.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <algorithm>

namespace mellowbin::views {
namespace {

using namespace ui::literals;

constexpr auto no_label = ui::LabelPlace::hidden;
constexpr std::string_view basis_of_specification = "14 % moisture";

/// What the flour's specification says of the figure; empty where it says nothing.
struct Expected {
    std::string words;
    ui::Role role = ui::Role::quiet;
};

const Window* window_of(const LotForm& form, Property property) {
    for (const auto& flour : form.model.records.flours)
        if (flour.name == form.line.draft.flour)
            for (const auto& window : flour.specification)
                if (window.property == property)
                    return &window;
    return nullptr;
}

Expected expected(const LotForm& form, const FigureDraft& figure) {
    const auto* window = window_of(form, figure.property);
    if (!window)
        return {};
    Expected of_it{window->in_words()};
    if (traits(figure.property).has_basis && figure.basis != basis_of_specification)
        of_it.words += " at 14 % moisture";
    for (const auto& judgement : form.line.judged) {
        if (judgement.window.property != figure.property || !judgement.value)
            continue;
        if (judgement.verdict == Verdict::below || judgement.verdict == Verdict::above) {
            of_it.words = (judgement.verdict == Verdict::below ? "below " : "above ") + of_it.words;
            of_it.role = ui::Role::mind;
        }
    }
    return of_it;
}

/// A basis belongs to the figure where it differs from that of all.
void own_basis_choice(LotForm& form, FigureDraft& figure) {
    auto& line = form.line;
    const auto label = fmt::format("{} basis", traits(figure.property).name);
    if (!name_choice({.label = label, .width = 8.5_em, .label_place = no_label}, form.model.bases,
                     figure.basis))
        return;
    if (figure.basis == line.basis)
        line.own_basis.erase(figure.property);
    else
        line.own_basis.insert(figure.property);
    line.change(traits(figure.property).name);
}

void method_field(LotForm& form, FigureDraft& figure) {
    const auto& kind = traits(figure.property);
    const auto edited = ui::text_field({.label = fmt::format("{} method", kind.name),
                                        .hint = "method",
                                        .width = 8.5_em,
                                        .label_place = no_label},
                                       figure.method);
    if (edited.changed)
        form.line.change(kind.name);
}

void figure_row(LotForm& form, const LotFolds& folds, FigureDraft& figure) {
    const auto& kind = traits(figure.property);
    auto& line = form.line;
    const bool asks_basis =
        kind.has_basis && (folds.asks_own_bases || line.own_basis.contains(figure.property));
    const bool asks_method = depends_on_method(kind.property);
    const auto hint = expected(form, figure);
    const ui::FormRow row{.label = kind.name,
                          .refusals = &line.refusals,
                          .note = hint.words,
                          .note_role = hint.role,
                          .more_width = asks_basis || asks_method ? 8.5_em : ui::Length{}};
    const auto box = [&] {
        const auto edited = ui::number_field({.label = kind.name,
                                              .unit = kind.unit,
                                              .refusals = &line.refusals,
                                              .width = 6.5_em,
                                              .label_place = no_label},
                                             figure.value);
        if (edited.changed)
            line.change(kind.name);
        if (edited.left)
            line.leave(kind.name);
    };
    ui::form_row(row, box, [&] {
        if (asks_basis)
            own_basis_choice(form, figure);
        if (asks_method)
            method_field(form, figure);
    });
}

/// A figure that a file holds twice is shown twice, so that one can be emptied.
void rows_of(LotForm& form, const LotFolds& folds, Property property) {
    auto& draft = form.line.draft;
    draft.figure(property);
    bool is_first = true;
    for (std::size_t i = 0; i < draft.figures.size(); ++i) {
        auto& figure = draft.figures[i];
        if (figure.property != property || (!is_first && figure.value.empty()))
            continue;
        is_first = false;
        ui::scope(static_cast<std::int64_t>(i), [&] { figure_row(form, folds, figure); });
    }
}

void basis_row(LotForm& form, LotFolds& folds) {
    auto& line = form.line;
    const ui::FormRow row{
        .label = basis_of_all, .refusals = &line.refusals, .note = "asked once", .more_width = 8.5_em};
    const auto choice = [&] {
        if (!name_choice({.label = basis_of_all,
                          .refusals = &line.refusals,
                          .width = 13.5_em,
                          .label_place = no_label},
                         form.model.bases, line.basis))
            return;
        line.change(basis_of_all);
        line.leave(basis_of_all);
        std::erase_if(line.own_basis,
                      [&](Property property) { return line.draft.figure(property).basis == line.basis; });
    };
    ui::form_row(row, choice, [&] {
        if (ui::button(folds.asks_own_bases ? "One for all" : "Other basis", {.kind = ui::ButtonKind::quiet}))
            folds.asks_own_bases = !folds.asks_own_bases;
    });
}

void nitrogen_row(LotForm& form) {
    number_row(form, "Nitrogen factor", "", form.line.draft.figure(Property::protein).nitrogen_factor,
               "empty: 5.7, as for wheat");
}

} // namespace

bool is_asked_first(const LotForm& form, Property property) {
    const auto& first = form.model.figures;
    if (std::find(first.begin(), first.end(), property) != first.end())
        return true;
    const auto& figures = form.line.draft.figures;
    return form.line.is_from_file &&
           std::any_of(figures.begin(), figures.end(), [&](const FigureDraft& figure) {
               return figure.property == property && !figure.value.empty();
           });
}

void figure_rows(LotForm& form, LotFolds& folds, Figures figures) {
    if (figures == Figures::asked_first)
        basis_row(form, folds);
    for (const auto& kind : all_properties())
        if (is_asked_first(form, kind.property) == (figures == Figures::asked_first))
            rows_of(form, folds, kind.property);
    if (figures == Figures::others)
        nitrogen_row(form);
    form.line.spread_basis();
}

} // namespace mellowbin::views
