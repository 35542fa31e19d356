#include "ui/views/settings/precision.h"

#include "app/acts/test_precision.h"
#include "core/property.h"
#include "ui/views/common/changed.h"
#include "ui/views/common/words.h"
#include "ui/widgets/ui.h"

#include <fmt/format.h>

#include <array>
#include <string_view>
#include <utility>
#include <vector>

namespace mellowbin::views {
namespace {

using namespace ui::literals;
using ui::Role;

constexpr std::int64_t one_more = 0;

constexpr auto plain(std::string_view head, std::string_view sample, float stretch = 0) {
    return ui::Column{.head = head, .sample = sample, .stretch = stretch, .sortable = false};
}

Role role_of_standing(const app::PrecisionLine& line) {
    return line.row != 0 || line.standing == "read" ? Role::good : Role::model;
}

void table(PrecisionPage& page, const app::SettingsModel& model) {
    static constexpr std::array columns{plain("Property", "Development time", 1),
                                        plain("Limits", "r 0.02 %, R 10 % of the mean", 1),
                                        plain("Standing", "≈ from memory", 1)};
    const auto record = [&](std::size_t i) { return record_of(model, i); };
    const auto write = [&](std::size_t i, ui::RowWriter& row) {
        const auto& line = model.precision[i];
        row.cell(line.property);
        row.cell(line.limits);
        row.cell(line.row != 0 ? std::string_view("your own") : std::string_view(line.standing),
                 role_of_standing(line));
    };
    ui::table({.name = "Test precision",
               .columns = columns,
               .rows = model.precision.size(),
               .record = record,
               .write_row = write,
               .density = ui::Density::close},
              page.table);
}

const app::PrecisionLine* chosen(const PrecisionPage& page, const app::SettingsModel& model) {
    for (std::size_t i = 0; i < model.precision.size(); ++i)
        if (record_of(model, i) == page.table.selected)
            return &model.precision[i];
    return nullptr;
}

void property_choice(TestPrecisionDraft& draft, const Refusals& refusals) {
    std::vector<std::string_view> names;
    int at = -1;
    for (const auto& kind : all_properties()) {
        if (kind.key == draft.property)
            at = static_cast<int>(names.size());
        names.push_back(kind.name);
    }
    if (ui::choice({.label = "Property", .refusals = &refusals, .width = 20_em}, names, at))
        draft.property = all_properties()[static_cast<std::size_t>(at)].key;
}

void given_choice(TestPrecisionDraft& draft, const Refusals& refusals) {
    static constexpr std::array<std::string_view, 2> names{"in its unit", "% of the mean"};
    int at = draft.given == "relative" ? 1 : 0;
    if (ui::choice({.label = "Given as", .refusals = &refusals, .width = 20_em}, names, at))
        draft.given = at == 1 ? "relative" : "absolute";
}

void fields(TestPrecisionDraft& draft, const Refusals& refusals) {
    const auto number = [&](std::string_view label, std::string_view note, std::string& text) {
        ui::number_field({.label = label, .refusals = &refusals, .note = note, .width = 8_em}, text);
    };
    property_choice(draft, refusals);
    ui::text_field({.label = "Method",
                    .hint = "ISO 20483 | ICC 105/2",
                    .refusals = &refusals,
                    .note = "names of one method; empty: whatever the method",
                    .width = 20_em},
                   draft.method);
    given_choice(draft, refusals);
    ui::flow([&] {
        number("R", "of two laboratories", draft.R);
        number("r", "of one", draft.r);
    });
    ui::flow([&] {
        number("From", "results", draft.low);
        number("To", "", draft.high);
    });
    ui::flow([&] {
        number("Determinations, mill", "empty: 1", draft.mill_replicates);
        number("Determinations, ours", "empty: 1", draft.own_replicates);
    });
    ui::scope("Where it was read", [&] {
        ui::text_field({.label = "Source",
                        .hint = "standard and clause, or ring test",
                        .refusals = &refusals,
                        .width = 20_em},
                       draft.source);
    });
    ui::all_refusals(all_but(refusals, {"Property", "Method", "Given as", "R", "r", "From", "To",
                                        "Determinations, mill", "Determinations, ours", "Source"}));
}

/// A published row is no row of the plant's: it gives the form its beginning, and one more is kept.
void form(PrecisionPage& page, std::int64_t record, const app::PrecisionLine* line, const app::Notice& notice,
          app::Intents& out) {
    auto& typed = page.form;
    if (std::exchange(typed.wants_focus, false))
        ui::focus("R");
    if (const auto first = typed.firsts.find(record);
        line && first != typed.firsts.end() && first->second != line->draft)
        stands_otherwise(line->limits, line->changed);
    ui::form("Row", [&] {
        fields(typed.drafts[record], typed.refusals_of(record));
        ui::flow([&] {
            if (ui::button("Keep the row", {.kind = ui::ButtonKind::primary}) && !typed.is_sent(record)) {
                typed.ask(record, notice);
                out.emplace_back(app::SetTestPrecision{record > 0 ? record : one_more, typed.drafts[record]});
            }
            if (ui::button("Close form", {.kind = ui::ButtonKind::quiet}))
                typed.open.reset();
        });
    });
}

void facts(const app::PrecisionLine& line) {
    ui::fact({.label = "Property", .value = line.property});
    if (!line.method.empty())
        ui::fact({.label = "Method", .value = line.method});
    ui::fact({.label = "Limits", .value = line.limits});
    if (!line.range.empty())
        ui::fact({.label = "Of results", .value = line.range});
    ui::fact({.label = "Source", .value = line.source});
    ui::fact({.label = "Standing", .value = line.standing, .role = role_of_standing(line)});
}

void sheet(PrecisionPage& page, const app::SettingsModel& model, const app::Notice& notice,
           app::Intents& out) {
    ui::panel("Row", [&] {
        if (page.form.is_open_for(one_more))
            return form(page, one_more, nullptr, notice, out);
        const auto* line = chosen(page, model);
        if (line) {
            const auto record = *page.table.selected;
            facts(*line);
            ui::gap();
            if (page.form.is_open_for(record))
                return form(page, record, line, notice, out);
            ui::flow([&] {
                if (ui::button(line->row != 0 ? "Change this row" : "Enter our own"))
                    page.form.open_for(record, line->draft);
                if (line->row != 0 && ui::button("Drop this row", {.kind = ui::ButtonKind::stop}))
                    out.emplace_back(app::DropTestPrecision{line->row});
            });
        } else {
            ui::hint("Choose a row to read its source.");
        }
        if (ui::button("One more row", {.kind = ui::ButtonKind::quiet}))
            page.form.open_for(one_more);
    });
}

} // namespace

std::int64_t record_of(const app::SettingsModel& model, std::size_t line) {
    const auto row = model.precision[line].row;
    return row != 0 ? row : -static_cast<std::int64_t>(line) - 1;
}

void draw(PrecisionPage& page, const app::SettingsModel& model, const app::Notice& notice,
          app::Intents& out) {
    page.form.take_answer(model.precision_changed, notice);
    ui::hint(
        "By these a retest agrees with the certificate or contradicts it. Where no R is known nothing is "
        "said: enter what your standards print. Your own rows go before the published ones.");
    ui::panes({{"Precision table", 0.55F, 30_em, [&] { table(page, model); }},
               {"Precision sheet", 0.45F, 22_em, [&] { sheet(page, model, notice, out); }}});
}

} // namespace mellowbin::views
